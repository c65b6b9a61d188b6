/**
 * Largest share of blade pressure the gap may take, about what an open tip loses; toward it the share bends over smoothly.
 */
const LARGEST_SHARE = 0.22;

/**
 * Efficiency lost at the tip gap, as a fraction:
 *   d_eta = (0.7 lambda psi / cos b) (1 + 10 sqrt(phi lambda A / (psi cos b)))
 * lambda gap over blade height, psi pressure rise over 1/2 rho U_tip^2, phi axial velocity over tip speed, A blade height
 * over chord, b mean flow angle from the axis (tan b = 1/phi less half of the turning, here atan((1 - psi/4)/phi)).
 * Range: lambda to 0.05 in the source; psi's definition is the one that gives its published size (1.5 to 2 % for each
 * 1 % of height, NASA TP-1032). Source: Lakshminarayana, J. Basic Eng. 92 (1970) 467-480 (formula from memory).
 */
export function gapEfficiencyLoss(lambda: number, psi: number, phi: number, aspect: number): number {
  if (!(lambda > 0)) return 0;
  const pressure = Math.max(1e-6, psi);
  const flow = Math.max(1e-6, phi);
  const cosine = Math.cos(Math.atan(Math.max(0.2, 1 - pressure / 4) / flow));
  return (
    ((0.7 * lambda * pressure) / cosine) *
    (1 + 10 * Math.sqrt((flow * lambda * aspect) / (pressure * cosine)))
  );
}

/** The loss as a share of blade pressure, 0 to 0.22: equal to the loss while small, never past what a fan can lose. */
export function gapShare(loss: number): number {
  return LARGEST_SHARE * (1 - Math.exp(-loss / LARGEST_SHARE));
}

/** Gap over blade height at which half of the duct's hold on the stream is gone. Our estimate: no measured row was found. */
const HOLD_HALF = 0.4;

/**
 * How much of its hold on the stream a duct keeps with the gap `lambda` (over blade height): 1 sealed, 0.985 at the 5 % the
 * loss formula reaches, to 0 for a ring far away, where the fan is an open rotor (exit ratio 1/2, no duct losses).
 */
export function ductHold(lambda: number): number {
  return 1 / (1 + (Math.max(0, lambda) / HOLD_HALF) ** 2);
}
