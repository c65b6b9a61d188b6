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
 * `settled` takes the sheet from these rules but lets the tip vortex go where the flow of the whole wake carries it,
 * in radius and depth, over its first turns (see settle.ts); it has no constant of its own.
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
  /** The tip vortex as the flow carries it, instead of the rule; beyond its end it sinks on at `tipLater`. */
  readonly carried?: CarriedTip;
}

/** Radius and depth of the tip vortex at ages 0, step, 2 step and so on. */
export interface CarriedTip {
  readonly step: number;
  readonly radius: Float64Array;
  readonly depth: Float64Array;
}

/** Measured range of the rules (from memory): twist [degrees], thrust coefficient, blades. */
export const RULE_RANGE = { twist: [-16, 0], thrust: [0.0015, 0.009], blades: [2, 8] } as const;

/** Least descent per radian, over sqrt(C_T/2): a wake that would rise into the disc is held just below it. */
const LEAST_DESCENT = 0.05;

/** The rules at one thrust coefficient (positive). `settled` without `carried` starts as Kocurek and Tangler. */
export function wakePath(rule: WakeRule, rotor: WakeRotor, ct: number, carried?: CarriedTip): WakePath {
  const t = rotor.twist_deg;
  const mean = Math.sqrt(ct / 2);
  const least = LEAST_DESCENT * mean;
  const landgrebe = rule === 'landgrebe';
  const [k1, k2] = landgrebe ? landgrebeDescent(rotor, ct) : kocurekTanglerDescent(rotor, ct);
  const firstPassage = (2 * Math.PI) / rotor.bladeCount;
  return {
    firstPassage,
    contraction: 0.78,
    rate: landgrebe ? 0.145 + 27 * ct : 4 * Math.sqrt(ct),
    tipFirst: carried ? carriedAt(carried, carried.depth, firstPassage) / firstPassage : Math.max(least, k1),
    tipLater: carried ? lastDescent(carried) : Math.max(least, k2),
    rimFirst: 2.2 * mean,
    rimLater: 2.7 * mean,
    axisLater: Math.max(0, (-t / 128) * (0.45 * t + 18) * mean),
    ...(carried && { carried }),
  };
}

/** Mean descent per radian over the second half of a carried tip vortex. */
function lastDescent({ step, depth }: CarriedTip): number {
  const last = depth.length - 1;
  const middle = last >> 1;
  return (depth[last] - depth[middle]) / ((last - middle) * step);
}

/** Straight between points, held beyond the last. */
function carriedAt({ step }: CarriedTip, values: Float64Array, psi: number): number {
  const x = Math.min(psi / step, values.length - 1);
  const k = Math.min(values.length - 2, Math.floor(x));
  return values[k] + (values[k + 1] - values[k]) * (x - k);
}

function landgrebeDescent({ solidity, twist_deg: t }: WakeRotor, ct: number): [number, number] {
  return [0.25 * (ct / solidity + 0.001 * t), (1 + 0.01 * t) * Math.sqrt(ct)];
}

function kocurekTanglerDescent({ bladeCount, twist_deg: t }: WakeRotor, ct: number): [number, number] {
  const b = -0.000729 * t;
  const c = -2.3 + 0.206 * t;
  const m = 1 - 0.25 * Math.exp(0.04 * t);
  const blades = bladeCount ** (0.5 - 0.0172 * t);
  const least = blades * (-b / c) ** (1 / m);
  return [-b - c * (ct / blades) ** m, Math.sqrt(Math.max(0, ct - least))];
}

/** How far the sheet of age `psi` has drawn in; by the rules also the radius of the tip vortex over R. */
export function drawnIn(path: WakePath, psi: number): number {
  return path.contraction + (1 - path.contraction) * Math.exp(-path.rate * psi);
}

/** Radius of the tip vortex of age `psi` over R. */
export function tipRadius(path: WakePath, psi: number): number {
  const { carried } = path;
  return carried ? carriedAt(carried, carried.radius, psi) : drawnIn(path, psi);
}

/** Depth of the tip vortex of age `psi` over R. */
export function tipDepth(path: WakePath, psi: number): number {
  const { carried } = path;
  if (carried) {
    const end = carried.step * (carried.depth.length - 1);
    return carriedAt(carried, carried.depth, psi) + path.tipLater * Math.max(0, psi - end);
  }
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
