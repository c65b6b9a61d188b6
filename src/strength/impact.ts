import { GRAVITY } from '../quantities/constants.ts';

/**
 * Energy that shears a plug out of a wall [J]: L t^2 tau, perimeter L [m] of what strikes, thickness t [m], shear strength
 * tau [Pa]. The form of the barrier rule used for metal containment (energy proportional to L t^2 and a shear constant;
 * from memory), with the static shear strength of the wall in place of a measured constant: an estimate, for a printed wall good
 * to a factor of about three either way.
 */
export const shearEnergy = (perimeter: number, thickness: number, shearStrength: number): number =>
  perimeter * thickness * thickness * shearStrength;

/** What a drop does to an elastic part: its peak force, how far it gives, and the stress there. SI. */
export interface Blow {
  readonly energy: number;
  readonly force: number;
  readonly travel: number;
  readonly stress: number;
  /** Peak deceleration over gravity. */
  readonly load: number;
}

/** An elastic part that takes a blow: its stiffness [N/m] and its stress for each newton [Pa/N]. */
export interface Spring {
  readonly stiffness: number;
  readonly stressPerForce: number;
}

/**
 * A mass [kg] that falls from `height` [m] on a spring: F = m g (1 + sqrt(1 + 2 h k / (m g))), from the balance of energy
 * m g (h + x) = k x^2 / 2 (suddenly applied load; e.g. Timoshenko, Strength of Materials, part I). Nothing is taken up by the
 * ground or by damping, so it is an upper estimate of an elastic blow.
 */
export function blowOf(mass: number, height: number, { stiffness, stressPerForce }: Spring): Blow {
  const weight = mass * GRAVITY;
  const load = weight > 0 ? 1 + Math.sqrt(1 + (2 * height * stiffness) / weight) : 0;
  const force = weight * load;
  return {
    energy: weight * height,
    force,
    travel: stiffness > 0 ? force / stiffness : 0,
    stress: force * stressPerForce,
    load,
  };
}

/**
 * A duct squeezed across its diameter, as when it lands on its side: a thin ring of radius R [m] under two opposite forces,
 * travel 0.1488 F R^3 / (E I), largest moment F R / pi under the force (Timoshenko, Strength of Materials, part II; Roark; from
 * memory). The wall bends over `wall` and `length`; a lip of quarter-circle section of radius `lip` adds
 * 0.149 lip^3 wall to I, its place beside the wall left out.
 */
export function squeezedDuct(
  radius: number,
  wall: number,
  length: number,
  lip: number,
  modulus: number,
): Spring {
  const rolled = lip > wall ? 0.149 * lip ** 3 * wall : 0;
  const inertia = (length * wall ** 3) / 12 + rolled;
  const far = rolled > 0 ? Math.max(wall / 2, 0.64 * lip) : wall / 2;
  return {
    stiffness: (modulus * inertia) / (0.1488 * radius ** 3),
    stressPerForce: ((radius / Math.PI) * far) / inertia,
  };
}

/**
 * `count` equal cantilevers of length, width and thickness [m] that share one force: stiffness 3 E I / L^3 each, stress
 * F L (t/2) / I at the root.
 */
export function armsOf(
  count: number,
  length: number,
  width: number,
  thickness: number,
  modulus: number,
): Spring {
  const inertia = (width * thickness ** 3) / 12;
  return {
    stiffness: (3 * count * modulus * inertia) / length ** 3,
    stressPerForce: (length * thickness) / (2 * inertia * count),
  };
}
