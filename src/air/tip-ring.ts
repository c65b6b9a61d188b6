import type { Air } from './atmosphere.ts';

/** A ring that joins the blade tips and turns with them [m]. */
export interface TipRing {
  readonly innerRadius: number;
  readonly outerRadius: number;
  readonly height: number;
}

/**
 * Torque coefficient C_m = M / (1/2 pi rho w^2 R^4 L) of a cylinder turning in a still shell, by the Couette Reynolds number
 * `reynolds` = w R t / nu and the gap over the radius `gapRatio` = t / R: four ranges
 *   10 (t/R)^0.3 / Re to Re 64, 2 (t/R)^0.3 Re^-0.6 to 500, 1.03 (t/R)^0.3 Re^-0.5 to 10^4, 0.065 (t/R)^0.3 Re^-0.2 beyond,
 * and never less than laminar flow between two cylinders asks, 4 (1 + t/R)^2 / ((1 + t/(2R)) Re).
 * Range: t/R 0.01 to 1, Re to 10^6. Source: Bilgen and Boulos, Functional dependence of torque coefficient of coaxial
 * cylinders on gap width and Reynolds numbers, J. Fluids Eng. 95 (1973) 122-126 (numbers from memory); laminar: Couette.
 */
export function cylinderTorqueCoefficient(reynolds: number, gapRatio: number): number {
  const re = Math.max(1e-6, reynolds);
  const wide = Math.max(1e-6, gapRatio);
  const laminar = (4 * (1 + wide) ** 2) / ((1 + wide / 2) * re);
  const measured =
    wide ** 0.3 *
    (re < 64 ? 10 / re : re < 500 ? 2 * re ** -0.6 : re < 1e4 ? 1.03 / Math.sqrt(re) : 0.065 * re ** -0.2);
  return Math.max(laminar, measured);
}

/**
 * The same coefficient without a shell: twice the friction coefficient c of a long cylinder in still air,
 * 1 / sqrt(c) = -0.8572 + 1.25 ln(Re sqrt(c)), Re = w R^2 / nu, times 2. Range: Re 1 000 to 10^6. Source: Theodorsen and
 * Regier, Experiments on drag of revolving disks, cylinders, and streamline rods at high speeds, NACA Report 793, 1944
 * (numbers from memory).
 */
export function freeCylinderTorqueCoefficient(reynolds: number): number {
  const re = Math.max(1e3, reynolds);
  let root = 0.1;
  for (let i = 0; i < 20; i++) root = 1 / Math.max(1, -0.8572 + 1.25 * Math.log(re * root));
  return 2 * root * root;
}

/**
 * Torque [N m] that turns the ring's outside at `omega` [rad/s], `gap` [m] from the wall of a duct, or in free air (null).
 * No more than in free air: a wall far away does not hold the air back.
 */
export function outsideTorque(ring: TipRing, gap: number | null, air: Air, omega: number): number {
  const { outerRadius: radius, height } = ring;
  if (!(omega > 0)) return 0;
  const perRadius = (air.density * omega * radius) / air.viscosity;
  const free = freeCylinderTorqueCoefficient(perRadius * radius);
  const coefficient =
    gap === null || gap > radius
      ? free
      : cylinderTorqueCoefficient(perRadius * Math.max(gap, 1e-5), Math.max(gap, 1e-5) / radius);
  return ((coefficient * Math.PI) / 2) * air.density * omega ** 2 * radius ** 4 * height;
}

/**
 * Torque [N m] on the ring's inside, along which the air runs at `axial` and, against the ring, `across` [m/s]: turbulent
 * plate friction 0.074 Re^-1/5 (Schlichting, Boundary-Layer Theory, ch. 21), Re on the path through the ring, above 10 000.
 */
export function insideTorque(ring: TipRing, air: Air, axial: number, across: number): number {
  const { innerRadius: radius, height } = ring;
  const speed = Math.hypot(axial, across);
  if (!(speed > 0)) return 0;
  const path = Math.min(2 * Math.PI * radius, (height * speed) / Math.max(1e-3, Math.abs(axial)));
  const friction = 0.074 * Math.max(1e4, (air.density * speed * path) / air.viscosity) ** -0.2;
  return friction * (air.density / 2) * speed * across * 2 * Math.PI * radius ** 2 * height;
}

/** Heads lost by what leaks past the ring where it enters and leaves the gap. Idelchik, sharp edges (from memory). */
const ENTRY_AND_EXIT = 1.5;

/**
 * Air that leaks back past the ring through the gap [m3/s], driven by `pressure` [Pa] over its height L:
 * pressure = 1/2 rho V^2 (1.5 + f L / (2 gap)), f of flow between plates, the larger of 96/Re and 0.316 Re^-1/4 with
 * Re = 2 V gap / nu (any text of fluid mechanics; White, Viscous Fluid Flow). Our simplification: the turning of the ring,
 * which holds the leak back further, is left out, so the leak is rather too large.
 */
export function ringLeak(ring: TipRing, gap: number, air: Air, pressure: number): number {
  if (!(pressure > 0 && gap > 0)) return 0;
  let speed = Math.sqrt((2 * pressure) / air.density / ENTRY_AND_EXIT);
  for (let i = 0; i < 30; i++) {
    const reynolds = Math.max(1e-3, (2 * air.density * speed * gap) / air.viscosity);
    const friction = Math.max(96 / reynolds, 0.316 * reynolds ** -0.25);
    const next = Math.sqrt(
      (2 * pressure) / air.density / (ENTRY_AND_EXIT + (friction * ring.height) / (2 * gap)),
    );
    speed = Math.sqrt(speed * next);
  }
  return 2 * Math.PI * ring.outerRadius * gap * speed;
}
