/** A turning ring or disc with a hole. SI. */
export interface TurningRing {
  readonly inner: number;
  readonly outer: number;
  readonly density: number;
  readonly modulus: number;
  readonly poisson: number;
}

/**
 * Hoop stress at the bore [Pa] (the largest) and growth of the outer radius [m] of a ring or disc of even thickness at
 * `omega` [rad/s] with an outward pull `pull` [Pa] spread over its rim:
 *
 *   hoop  = (3+nu)/4 rho w^2 (b^2 + (1-nu)/(3+nu) a^2) + 2 p b^2 / (b^2 - a^2)
 *   u(b)  = rho w^2 b / (4 E) ((1-nu) b^2 + (3+nu) a^2) + p b / E ((b^2 + a^2) / (b^2 - a^2) - nu)
 *
 * (Timoshenko and Goodier, Theory of Elasticity, 3rd ed., arts. 28 and 32: thick cylinder and rotating disc, from memory).
 * A disc without a hole (a = 0) has half the hoop stress, in its middle. Range: 0 <= a < b, thin along the axis.
 */
export function turningRing(
  { inner: a, outer: b, density, modulus, poisson }: TurningRing,
  omega: number,
  pull = 0,
): { readonly hoop: number; readonly growth: number } {
  if (!(b > a && a >= 0))
    throw new Error(`turningRing needs 0 <= inner < outer; got inner ${a} and outer ${b} m`);
  const load = density * omega * omega;
  if (a === 0)
    return {
      hoop: ((3 + poisson) / 8) * load * b * b + pull,
      growth: ((load * b ** 3) / (4 * modulus) + (pull * b) / modulus) * (1 - poisson),
    };
  const ring = b * b - a * a;
  return {
    hoop:
      ((3 + poisson) / 4) * load * (b * b + ((1 - poisson) / (3 + poisson)) * a * a) +
      (2 * pull * b * b) / ring,
    growth:
      ((load * b) / (4 * modulus)) * ((1 - poisson) * b * b + (3 + poisson) * a * a) +
      ((pull * b) / modulus) * ((b * b + a * a) / ring - poisson),
  };
}

/**
 * Bending moment [N m] in a thin ring of radius `radius` [m] under `count` equal outward forces `force` [N], each spread
 * evenly over the angle `half` [rad] to both sides; at the middle of a force. With theta = pi / count:
 *
 *   M = F R / 2 [ 1/theta - (sin theta - sin(theta - half)) / (half sin theta) ]
 *
 * from the ring under point forces, M(x) = F R / 2 [ 1/theta - cos(theta - x) / sin theta ] (Timoshenko, Strength of
 * Materials, part II; Roark, formulas for circular rings; from memory), averaged over the spread. Two point forces give
 * F R / pi. Range: count >= 2, half from 0 to theta (wider is held there: no bending is left).
 */
export function ringBending(force: number, radius: number, count: number, half = 0): number {
  const theta = Math.PI / Math.max(2, count);
  const spread = Math.min(theta, Math.max(0, half));
  const peak =
    spread < 1e-6
      ? -Math.cos(theta) / Math.sin(theta)
      : -(Math.sin(theta) - Math.sin(theta - spread)) / (spread * Math.sin(theta));
  return Math.abs((force * radius * (1 / theta + peak)) / 2);
}
