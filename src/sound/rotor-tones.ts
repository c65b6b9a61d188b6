import { besselJ } from '../numerics/bessel.ts';
import type { SoundSource } from './source.ts';

/**
 * Gutin's sound of steady thrust and torque at order q (multiples of the shaft's turn), rms pressure [Pa]:
 *   p = q w / (2 sqrt2 pi c r) |T cos th - Q c / (w R_e^2)| J_q(q M_e sin th)
 * T, Q of all blades [N, N m]; R_e radius where they act [m]; th angle to the axis (0: ahead, where thrust points);
 * M_e = w R_e / c; r distance [m]. Points of a far, free field; M_e below 1.
 * Source: Gutin 1936, in English as NACA TM 1195, 1948; R_e = 0.8 R as in Hicks and Hubbard, NACA TN 1354, 1947 (from memory).
 */
export function gutinPressure(
  load: { readonly thrust: number; readonly torque: number; readonly radius: number },
  order: number,
  omega: number,
  soundSpeed: number,
  theta: number,
  distance = 1,
): number {
  const mach = (omega * load.radius) / soundSpeed;
  const pull = load.thrust * Math.cos(theta) - (load.torque * soundSpeed) / (omega * load.radius ** 2);
  const front = (order * omega) / (2 * Math.SQRT2 * Math.PI * soundSpeed * distance);
  return Math.abs(front * pull * besselJ(order, order * mach * Math.sin(theta)));
}

/** Effective radius over tip radius where a whole rotor is taken as one ring. Source: NACA TN 1354 (from memory). */
export const EFFECTIVE_RADIUS = 0.8;

/** Gauss-Legendre places on cos(theta) from 0 to 1, and their weights: means over all directions. */
const COSINES = [0.06943184420297, 0.33000947820757, 0.66999052179243, 0.93056815579703] as const;
const WEIGHTS = [0.17392742256873, 0.32607257743127, 0.32607257743127, 0.17392742256873] as const;

/** Mean square pressures at 1 m, averaged over all directions [Pa^2]. */
export interface SteadyTone {
  readonly loading: number;
  readonly thickness: number;
}

/**
 * Loading and thickness at order q, strip by strip, averaged over all directions (thrust and torque then add by energy: the
 * one is even about the disc's plane, the other odd). Load spread evenly over the chord takes the factor sin(x) / x,
 * x = q c cos(b) / (2 r). Thickness, a moving volume seen from afar:
 *   p = rho (q w)^2 B / (2 sqrt2 pi r) sum A dr J_q(q M sin th)
 * Sources: Gutin as above; Hanson, AIAA J. 18, 1980 (chord factor); Farassat's formulation 1A for a compact volume (NASA TM
 * 2007-214853), from memory.
 */
export function steadyTone(source: SoundSource, order: number): SteadyTone {
  const { omega, soundSpeed: c, strips, blades, density } = source;
  const front = (order * omega) / (2 * Math.SQRT2 * Math.PI * c);
  let [loading, thickness] = [0, 0];
  for (let k = 0; k < COSINES.length; k++) {
    const cos = COSINES[k];
    const sin = Math.sqrt(1 - cos * cos);
    let [thrust, torque, volume] = [0, 0, 0];
    for (const s of strips) {
      const bessel = besselJ(order, ((order * omega * s.radius) / c) * sin);
      const spread = sinc((order * s.chordAround) / (2 * s.radius)) * bessel;
      thrust += s.thrust * spread;
      torque += ((s.torque * c) / (omega * s.radius ** 2)) * spread;
      volume += s.area * s.width * bessel;
    }
    loading += WEIGHTS[k] * front ** 2 * ((thrust * cos) ** 2 + torque ** 2);
    thickness += WEIGHTS[k] * (front * order * omega * c * density * blades * volume) ** 2;
  }
  // The weights are those of the half from 0 to 1; both halves are alike.
  return { loading, thickness };
}

const sinc = (x: number): number => (Math.abs(x) < 1e-6 ? 1 : Math.sin(x) / x);

/**
 * A load that turns as a pattern of m lobes at order q, averaged over all directions, for a thrust amplitude `share` of the
 * whole (rms of the pattern's own half) acting at the effective radius [Pa^2 at 1 m]:
 *   p = q w / (2 sqrt2 pi c) |T cos th - (m / q) Q c / (w R_e^2)| share |J_m(q M_e sin th)|
 * Source: Lowson and Ollerhead, J. Sound Vib. 9, 1969 (from memory).
 */
export function patternTone(source: SoundSource, order: number, lobes: number, share: number): number {
  const { omega, soundSpeed: c, thrust, torque, tipRadius } = source;
  const radius = EFFECTIVE_RADIUS * tipRadius;
  const front = ((order * omega) / (2 * Math.SQRT2 * Math.PI * c)) * share;
  const around = ((lobes / order) * torque * c) / (omega * radius ** 2);
  let sum = 0;
  for (let k = 0; k < COSINES.length; k++) {
    const cos = COSINES[k];
    const bessel = besselJ(lobes, ((order * omega * radius) / c) * Math.sqrt(1 - cos * cos));
    sum += WEIGHTS[k] * (front * bessel) ** 2 * ((thrust * cos) ** 2 + around ** 2);
  }
  return sum;
}

/**
 * Response of a thin section to a gust it meets at reduced frequency s = w c / (2 U): |S|^2 = 1 / (1 + 2 pi s).
 * Source: Liepmann's approximation to Sears' function, J. Aeronaut. Sci. 19, 1952.
 */
export const gustResponse = (reducedFrequency: number): number =>
  1 / Math.sqrt(1 + 2 * Math.PI * Math.abs(reducedFrequency));
