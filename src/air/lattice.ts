import { findRoot } from '../numerics/root.ts';

/** Plates nearly in one line would gain without bound; blades that overlap so can't be built (our limit). */
const MOST_GAIN = 1.5;

/**
 * Lift slope of a flat plate in an endless row of such plates over that of the plate alone (Weinig's lattice coefficient):
 *
 *   c/s = (1/pi) [ cos b ln((q + 2 R cos b) / (q - 2 R cos b)) + 2 sin b atan(2 R sin b / q) ]
 *   K   = (4/pi) (s/c) R / q,      q = sqrt(R^4 + 2 R^2 cos 2b + 1)
 *
 * `chordOverPitch` c/s (the solidity), `stagger` b [rad] from the axis of the rotor to the chord, 0 to just under pi/2; R in
 * 0..1 is the parameter of the mapping. Unstaggered: K = (2/pi) (s/c) tanh(pi c / 2 s). Solidity is held at 3 and stagger at
 * 88 degrees.
 * Source: Weinig, Die Stroemung um die Schaufeln von Turbomaschinen, 1935; charts in Wallis, Axial Flow Fans and Ducts,
 * 1983, ch. 6 (relations from memory; the unstaggered limit and the single plate are held by tests).
 */
export function latticeCoefficient(chordOverPitch: number, stagger: number): number {
  const solidity = Math.min(3, chordOverPitch);
  if (!(solidity > 1e-3)) return 1;
  const b = Math.min((88 * Math.PI) / 180, Math.abs(stagger));
  const cos = Math.cos(b);
  const sin = Math.sin(b);
  const q = (R: number) => Math.sqrt(Math.max(1e-300, R ** 4 + 2 * R * R * Math.cos(2 * b) + 1));
  const reached = (R: number) => {
    const root = q(R);
    const ratio = (root + 2 * R * cos) / Math.max(1e-300, root - 2 * R * cos);
    return (cos * Math.log(ratio) + 2 * sin * Math.atan2(2 * R * sin, root)) / Math.PI;
  };
  const most = 1 - 1e-9;
  const R = reached(most) <= solidity ? most : findRoot((x) => reached(x) - solidity, 0, most, 1e-12);
  return Math.min(MOST_GAIN, ((4 / Math.PI) * R) / (solidity * q(R)));
}
