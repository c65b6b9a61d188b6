import { firstAnnularZero, highSlopeZero } from '../numerics/bessel.ts';

/** A round duct about a hub, as sound sees it. SI. */
export interface DuctForSound {
  readonly boreRadius: number;
  readonly hubRadius: number;
  /** From the rotor, and from the vanes, to the open ends: inlet and exit. */
  readonly fromRotor: readonly [number, number];
  readonly fromVanes: readonly [number, number];
}

/** How one spinning pattern of m lobes fares in a duct. */
export interface ModeFate {
  readonly lobes: number;
  /** Frequency over that at which it begins to travel; above 1: cut on. A pattern without lobes always travels. */
  readonly cutOnRatio: number;
  readonly cutOn: boolean;
  /** Decay along the duct [Np/m]; 0 when cut on. */
  readonly decay: number;
  /** Share of its energy that leaves by the ends. */
  readonly share: number;
}

/** Where (hub over bore)^2m is below this, the hub moves the cut-on of m lobes by less than that share. */
const HUB_FELT = 1e-3;

/**
 * Zeros of the hub ratio last asked for, by lobes: an assessment asks for the same ones several times over, and each takes
 * longer than all the rest. Kept values are the ones that would be worked out again.
 */
let kept: { readonly ratio: number; readonly zeros: Map<number, number> } = { ratio: NaN, zeros: new Map() };

function zerosOf(ratio: number): Map<number, number> {
  if (kept.ratio !== ratio) kept = { ratio, zeros: new Map() };
  return kept.zeros;
}

/** Says the fate of any pattern in this duct. */
export function ductModes(duct: DuctForSound, soundSpeed: number, axialSpeed: number) {
  const mach = Math.min(0.9, Math.abs(axialSpeed) / soundSpeed);
  const beta = Math.sqrt(1 - mach * mach);
  const ratio = Math.min(0.94, duct.hubRadius / duct.boreRadius);
  const zeros = zerosOf(ratio);
  const waveNumber = (m: number): number => {
    let first = zeros.get(m);
    if (first === undefined) {
      first = m > 3 && ratio ** (2 * m) < HUB_FELT ? highSlopeZero(m) : firstAnnularZero(m, ratio);
      zeros.set(m, first);
    }
    return first / duct.boreRadius;
  };
  /**
   * The fate of m lobes at `omega` [rad/s]. Cut on where w/c > beta kappa, beta = sqrt(1 - M_x^2), kappa the first wave number
   * across the duct; below, pressure falls as exp(-x sqrt(beta^2 kappa^2 - (w/c)^2) / beta^2).
   * Source: Tyler and Sofrin, SAE Transactions 70, 1962; with flow Morfey, J. Sound Vib. 1, 1964 (from memory).
   */
  return (m: number, omega: number, [up, down] = duct.fromRotor): ModeFate => {
    const lobes = Math.abs(m);
    if (lobes === 0) return { lobes, cutOnRatio: Infinity, cutOn: true, decay: 0, share: 1 };
    const k = omega / soundSpeed;
    const edge = beta * waveNumber(lobes);
    const cutOnRatio = k / edge;
    if (cutOnRatio > 1) return { lobes, cutOnRatio, cutOn: true, decay: 0, share: 1 };
    const decay = Math.sqrt(edge * edge - k * k) / (beta * beta);
    const out = (length: number) => Math.exp(-2 * decay * length);
    return {
      lobes,
      cutOnRatio,
      cutOn: false,
      decay,
      share: (out(up) + out(down)) / 2,
    };
  };
}

/** An interaction of rotor and vanes at one harmonic of the blades. */
export interface Interaction {
  readonly harmonic: number;
  readonly vaneTurns: number;
  /** Lobes, signed: negative turn against the rotor. */
  readonly lobes: number;
}

/** The patterns m = n B + k V of up to `most` lobes at harmonic n, fewest lobes first. Source: Tyler and Sofrin 1962. */
export function interactions(blades: number, vanes: number, harmonic: number, most: number): Interaction[] {
  const found: Interaction[] = [];
  const order = harmonic * blades;
  for (let k = Math.ceil((-most - order) / vanes); order + k * vanes <= most; k++)
    if (k !== 0) found.push({ harmonic, vaneTurns: k, lobes: order + k * vanes });
  return found.sort((a, b) => Math.abs(a.lobes) - Math.abs(b.lobes) || b.lobes - a.lobes);
}
