/**
 * Least power [W] that momentum allows for thrust `thrust` [N].
 *
 * In a duct (`exitRatio` sigma = effective exit area over disc area; null: open rotor), with A_e = sigma A:
 *   T = rho A_e V_e (V_e - V_0),   P = T (V_e + V_0) / 2,   at rest P = T^1.5 / sqrt(4 sigma rho A)
 * open rotor:
 *   T = 2 rho A V_x (V_x - V_0),   P = T V_x,                       at rest P = T^1.5 / sqrt(2 rho A)
 * Thrust below zero at rest: the same for its size. Thrust below zero in a stream: 0 (the stream can pay for it).
 * Source: Rankine-Froude theory; e.g. Leishman, Principles of Helicopter Aerodynamics, 2006, ch. 2.
 */
export function idealPower(
  thrust: number,
  discArea: number,
  exitRatio: number | null,
  density: number,
  axialSpeed: number,
): number {
  if (thrust < 0 && axialSpeed !== 0) return 0;
  const size = Math.abs(thrust);
  const v0 = axialSpeed;
  if (exitRatio === null) {
    return size * (v0 / 2 + Math.sqrt((v0 / 2) ** 2 + size / (2 * density * discArea)));
  }
  const exit = v0 / 2 + Math.sqrt((v0 / 2) ** 2 + size / (density * discArea * exitRatio));
  return (size * (exit + v0)) / 2;
}
