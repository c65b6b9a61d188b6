/** Plates nearly in one line would gain without bound; blades that overlap so can't be built (our limit). */
const MOST_GAIN = 1.5;

/** Newton steps, and the mapping's parameter as close to its end as counts: tanh 10.7 = 1 - 1e-9. */
const MOST_STEPS = 60;
const LARGEST_Y = 10.7;

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
  const turn = 2 * Math.cos(2 * b);
  // Newton in y, R = tanh y: c/s rises with y ever more slowly, d(c/s)/dy = (4/pi) q / (1 + R^2), so no step goes too far.
  let y = (Math.PI / 4) * solidity;
  let R = 0;
  let q = 1;
  for (let i = 0; i < MOST_STEPS; i++) {
    R = Math.tanh(y);
    const square = R * R;
    q = Math.sqrt(Math.max(1e-300, square * square + turn * square + 1));
    const ratio = (q + 2 * R * cos) / Math.max(1e-300, q - 2 * R * cos);
    const reached = (cos * Math.log(ratio) + 2 * sin * Math.atan2(2 * R * sin, q)) / Math.PI;
    const step = (solidity - reached) / ((4 / Math.PI) * (q / (1 + square)));
    if (!(step > 1e-13 * y) || y > LARGEST_Y) break;
    y += step;
  }
  return Math.min(MOST_GAIN, ((4 / Math.PI) * R) / (solidity * q));
}
