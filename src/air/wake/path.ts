/**
 * Where the wake of a hovering rotor goes, as measured on model rotors: published rules, lengths over tip radius R.
 *
 * Tip vortex of age psi (angle turned since it left its blade), B blades, thrust coefficient C_T = T / (rho A (Omega R)^2),
 * solidity s, twist t (tip less root as if linear from the axis, degrees, washout negative):
 *
 *   radius  A + (1 - A) exp(-L psi)
 *   depth   k1 psi up to the first blade passage psi = 2 pi / B, then k1 2 pi / B + k2 (psi - 2 pi / B)
 *
 *   Landgrebe:            A = 0.78, L = 0.145 + 27 C_T, k1 = 0.25 (C_T / s + 0.001 t), k2 = (1 + 0.01 t) sqrt(C_T)
 *   Kocurek and Tangler:  A = 0.78, L = 4 sqrt(C_T), k1 = -b - c (C_T / B^n)^m, k2 = sqrt(C_T - C_T0),
 *                         b = -0.000729 t, c = -2.3 + 0.206 t, m = 1 - 0.25 exp(0.04 t), n = 0.5 - 0.0172 t,
 *                         C_T0 = B^n (-b / c)^(1/m)
 *
 * Inner sheet (Landgrebe, used with both): straight from the axis to its edge at r = R, whose ends sink by
 *   at r = R: 2.2 sqrt(C_T/2) psi up to the first passage, then 2.7 sqrt(C_T/2);
 *   at r = 0: nothing up to the first passage, then -(t/128)(0.45 t + 18) sqrt(C_T/2);
 * its filaments draw in with the tip vortex: r(psi) = r(0) (A + (1 - A) exp(-L psi)).
 *
 * `settled` takes radius and sheet from these rules but k1 and k2 from the flow of the wake itself: the speed at which
 * the vortex is carried down, averaged before and after the first passage. It has no constant of its own.
 *
 * Sources: Landgrebe, J. Am. Helicopter Soc. 17(4), 1972, 3-15 (tip vortex: read in a secondary source; sheet: from
 * memory); Kocurek and Tangler, same journal 22(1), 1977, 24-35 (from memory).
 */
export type WakeRule = 'landgrebe' | 'kocurek-tangler' | 'settled';

/** What the rules ask of a rotor. */
export interface WakeRotor {
  readonly bladeCount: number;
  readonly solidity: number;
  /** [degrees], washout negative, already within the rules' range. */
  readonly twist_deg: number;
}

/** One wake, lengths over R, depths positive downstream. */
export interface WakePath {
  readonly firstPassage: number;
  /** Smallest radius of the tip vortex, and rate of contraction per radian. */
  readonly contraction: number;
  readonly rate: number;
  /** Depth per radian of the tip vortex before and after the first passage. */
  readonly tipFirst: number;
  readonly tipLater: number;
  /** The same of the sheet at r = R and r = 0. */
  readonly rimFirst: number;
  readonly rimLater: number;
  readonly axisLater: number;
}

/** Measured range of the rules (from memory): twist [degrees], thrust coefficient, blades. */
export const RULE_RANGE = { twist: [-16, 0], thrust: [0.0015, 0.009], blades: [2, 8] } as const;

/** Least descent per radian, over sqrt(C_T/2): a wake that would rise into the disc is held just below it. */
const LEAST_DESCENT = 0.05;

/** Descent of the tip vortex per radian over R, before and after the first passage. */
export type Descent = readonly [number, number];

/** The rules at one thrust coefficient (positive); `settled`: with the descent found so far. */
export function wakePath(rule: WakeRule, rotor: WakeRotor, ct: number, settled?: Descent): WakePath {
  const t = rotor.twist_deg;
  const mean = Math.sqrt(ct / 2);
  const least = LEAST_DESCENT * mean;
  const landgrebe = rule === 'landgrebe';
  const [k1, k2] =
    settled ?? (landgrebe ? landgrebeDescent(rotor, ct) : kocurekTanglerDescent(rotor, ct));
  return {
    firstPassage: (2 * Math.PI) / rotor.bladeCount,
    contraction: 0.78,
    rate: landgrebe ? 0.145 + 27 * ct : 4 * Math.sqrt(ct),
    tipFirst: Math.max(least, k1),
    tipLater: Math.max(least, k2),
    rimFirst: 2.2 * mean,
    rimLater: 2.7 * mean,
    axisLater: Math.max(0, (-t / 128) * (0.45 * t + 18) * mean),
  };
}

function landgrebeDescent({ solidity, twist_deg: t }: WakeRotor, ct: number): Descent {
  return [0.25 * (ct / solidity + 0.001 * t), (1 + 0.01 * t) * Math.sqrt(ct)];
}

function kocurekTanglerDescent({ bladeCount, twist_deg: t }: WakeRotor, ct: number): Descent {
  const b = -0.000729 * t;
  const c = -2.3 + 0.206 * t;
  const m = 1 - 0.25 * Math.exp(0.04 * t);
  const blades = bladeCount ** (0.5 - 0.0172 * t);
  const least = blades * (-b / c) ** (1 / m);
  return [-b - c * (ct / blades) ** m, Math.sqrt(Math.max(0, ct - least))];
}

/** Radius of the tip vortex of age `psi` over R; also how far the sheet has drawn in. */
export function drawnIn(path: WakePath, psi: number): number {
  return path.contraction + (1 - path.contraction) * Math.exp(-path.rate * psi);
}

/** Depth of the tip vortex of age `psi` over R. */
export function tipDepth(path: WakePath, psi: number): number {
  const first = Math.min(psi, path.firstPassage);
  return path.tipFirst * first + path.tipLater * (psi - first);
}

/** Depth of the sheet filament that left the blade at radius `r` (over R), of age `psi`. */
export function sheetDepth(path: WakePath, r: number, psi: number): number {
  const first = Math.min(psi, path.firstPassage);
  return path.rimFirst * r * first + sheetLater(path, r) * (psi - first);
}

/** Depth per radian of that filament after the first passage. */
export function sheetLater(path: WakePath, r: number): number {
  return path.axisLater + (path.rimLater - path.axisLater) * r;
}

/**
 * Twist of a blade as the rules want it: slope of the straight line through the blade angles, weighted with r^2 (where
 * the thrust is), degrees per tip radius.
 */
export function equivalentTwist_deg(
  radius: ArrayLike<number>,
  width: ArrayLike<number>,
  angle: ArrayLike<number>,
): number {
  let w = 0;
  let wr = 0;
  let wa = 0;
  let wrr = 0;
  let wra = 0;
  for (let i = 0; i < radius.length; i++) {
    const r = radius[i];
    const weight = width[i] * r * r;
    w += weight;
    wr += weight * r;
    wa += weight * angle[i];
    wrr += weight * r * r;
    wra += weight * r * angle[i];
  }
  const spread = w * wrr - wr * wr;
  return spread > 0 ? ((w * wra - wr * wa) / spread) * (180 / Math.PI) : 0;
}
