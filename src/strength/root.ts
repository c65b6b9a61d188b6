/** Stress at a fillet over the stress in the bar beside it. */
export interface Concentration {
  readonly tension: number;
  readonly bending: number;
}

/**
 * Concentration of stress where a flat bar of thickness `thickness` meets a much thicker one with a fillet of radius
 * `fillet`, both in the same unit: K = A (r/d)^b with A = 1.100, b = -0.321 in tension and 0.907, -0.333 in bending, the
 * usual power fits to Peterson's charts of the shouldered flat bar at D/d of 2 and 3 (Peterson, Stress Concentration
 * Factors, 1974; fits as in Norton, Machine Design, appendix; coefficients from memory). Range of the fits r/d 0.02..0.3;
 * held at 0.02 below, at least 1 above. No relief for a tough material is taken.
 */
export function filletConcentration(fillet: number, thickness: number): Concentration {
  const ratio = Math.max(0.02, fillet / thickness);
  return {
    tension: Math.max(1, 1.1 * ratio ** -0.321),
    bending: Math.max(1, 0.907 * ratio ** -0.333),
  };
}
