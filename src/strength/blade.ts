import { interpolateLinear } from '../numerics/interpolate.ts';
import type { CarryingSection } from './section.ts';

/** What the air does to the whole rotor at one speed, hub to tip; SI. */
export interface AirLoad {
  readonly omega: number;
  readonly bladeCount: number;
  readonly radius: ArrayLike<number>;
  /** Of all blades, per metre of radius [N/m] */
  readonly thrustPerRadius: ArrayLike<number>;
  /** Of all blades, per metre of radius [N] */
  readonly torquePerRadius: ArrayLike<number>;
  /** Air met by the blade [m/s] */
  readonly relativeSpeed: ArrayLike<number>;
  readonly density: number;
}

/** Loads at each section, hub to tip; SI. Stresses follow from `sectionStress`. */
export interface BladeForces {
  /** Pull outward along the blade [N] */
  readonly pull: Float64Array;
  /** Bending about the chord axes as integrals of stress times x and times y [N m] */
  readonly bendingX: Float64Array;
  readonly bendingY: Float64Array;
  /** Force across the blade, square to the chord [N] */
  readonly shear: Float64Array;
  /** Twisting moment outboard, nose up positive [N m] */
  readonly twist: Float64Array;
}

/**
 * Forces in a blade at unit angular speed (all grow with its square; the air's are taken so too). Sections run hub to tip;
 * between them every load per length goes in a straight line. With a axial toward the suction side (along the thrust), t in
 * the direction of rotation, f = rho A w^2 r, and offsets of the centroids from the radial stacking line:
 *
 *   pull     N(r0)  = integral of f dr + tipPull
 *   bending  B_a(r0) = integral of f (a - a0) dr - integral of q_a (r - r0) dr
 *            B_t(r0) = integral of rho A w^2 (r0 t - r t0) dr - integral of q_t (r - r0) dr
 *   twist    m = -rho w^2 [(I_xx - I_yy) sin b cos b + I_xy (sin^2 b - cos^2 b)] + lift about the centroid + c_m q c^2
 *
 * q_a, q_t: thrust and minus torque over radius, of one blade, per length; lift acts a quarter of the chord behind the front
 * edge, c_m = -pi camber (thin circular arc, from memory). Beam theory of a straight blade (e.g. Timoshenko, Strength of
 * Materials); the relief of bending by deflection in the pull is left out, which is on the safe side.
 */
export function bladeForces(
  sections: readonly CarryingSection[],
  density: number,
  air: AirLoad | null,
  tipPull = 0,
): BladeForces {
  const n = sections.length;
  const out = {
    pull: new Float64Array(n),
    bendingX: new Float64Array(n),
    bendingY: new Float64Array(n),
    shear: new Float64Array(n),
    twist: new Float64Array(n),
  };
  const share = air && air.omega !== 0 ? 1 / (air.bladeCount * air.omega ** 2) : 0;
  const loads = sections.map((s) => sectionLoads(s, density, air, share));
  let pull = tipPull;
  let pullA = tipPull * loads[n - 1].a;
  let massT = tipPull > 0 ? (tipPull * loads[n - 1].t) / sections[n - 1].radius : 0;
  let forceA = 0;
  let forceT = 0;
  let momentA = 0;
  let momentT = 0;
  let twist = 0;
  for (let i = n - 1; i >= 0; i--) {
    const here = loads[i];
    const { radius, angle } = sections[i];
    if (i < n - 1) {
      const next = loads[i + 1];
      const d = sections[i + 1].radius - radius;
      const half = d / 2;
      pull += half * (here.f + next.f);
      pullA += half * (here.f * here.a + next.f * next.a);
      massT += half * (here.mass * here.t + next.mass * next.t);
      momentA += forceA * d + d * d * (here.qa / 6 + next.qa / 3);
      momentT += forceT * d + d * d * (here.qt / 6 + next.qt / 3);
      forceA += half * (here.qa + next.qa);
      forceT += half * (here.qt + next.qt);
      twist += half * (here.m + next.m);
    }
    const bendA = pullA - here.a * pull - momentA;
    const bendT = radius * massT - here.t * pull - momentT;
    const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
    out.pull[i] = pull;
    out.bendingX[i] = -cos * bendT - sin * bendA;
    out.bendingY[i] = cos * bendA - sin * bendT;
    out.shear[i] = Math.abs(cos * forceA - sin * forceT);
    out.twist[i] = twist;
  }
  return out;
}

function sectionLoads(s: CarryingSection, density: number, air: AirLoad | null, share: number) {
  const [sin, cos] = [Math.sin(s.angle), Math.cos(s.angle)];
  const a = -s.centroidX * sin + s.centroidY * cos;
  const t = -s.centroidX * cos - s.centroidY * sin;
  const mass = density * s.massArea;
  const m = -density * ((s.momentXX - s.momentYY) * sin * cos + s.momentXY * (sin * sin - cos * cos));
  if (!air || share === 0) return { a, t, mass, f: mass * s.radius, qa: 0, qt: 0, m };
  const qa = share * interpolateLinear(air.radius, air.thrustPerRadius, s.radius);
  const qt = (-share * interpolateLinear(air.radius, air.torquePerRadius, s.radius)) / s.radius;
  const speed = interpolateLinear(air.radius, air.relativeSpeed, s.radius);
  const lift = qa * cos - qt * sin;
  const head = ((air.density / 2) * speed * speed) / air.omega ** 2;
  const aero = lift * (s.centroidX + s.chord / 4) - Math.PI * s.camber * head * s.chord ** 2;
  return { a, t, mass, f: mass * s.radius, qa, qt, m: m + aero };
}

/**
 * Largest bending tension in a section [Pa]: stress linear over the section, sigma = K_x x + K_y y with
 * K_x I_xx + K_y I_xy = B_x and K_x I_xy + K_y I_yy = B_y (unsymmetric bending: the same as bending about both principal
 * axes), read at the points of the outline.
 */
export function bendingTension(s: CarryingSection, bendX: number, bendY: number): number {
  const determinant = s.momentXX * s.momentYY - s.momentXY ** 2;
  if (!(determinant > 0)) return 0;
  const kx = (bendX * s.momentYY - bendY * s.momentXY) / determinant;
  const ky = (bendY * s.momentXX - bendX * s.momentXY) / determinant;
  let most = 0;
  for (let i = 0; i < s.x.length; i++) most = Math.max(most, kx * s.x[i] + ky * s.y[i]);
  return most;
}

/** Growth of a blade's length [m] under its pull at `omega`: integral of N / (E A) over the radius. */
export function bladeStretch(
  sections: readonly CarryingSection[],
  pull: ArrayLike<number>,
  modulus: number,
  omega: number,
): number {
  return overSpan(sections, (i) => (pull[i] * omega * omega) / (modulus * sections[i].area));
}

/**
 * Turn of the tip by twisting at `omega` [rad], nose up positive: theta' = (T - N k^2 beta') / (G J + N k^2) with T the
 * twisting moment outboard, k^2 = (I_xx + I_yy) / A and beta' the built-in twist (the pull straightens a twisted bar;
 * Chu, The effect of initial twist on the torsional rigidity of thin prismatical bars and tubular members, 1951, from
 * memory).
 */
export function tipTurn(
  sections: readonly CarryingSection[],
  forces: BladeForces,
  modulus: number,
  poisson: number,
  omega: number,
): number {
  const shear = modulus / (2 * (1 + poisson));
  const w2 = omega * omega;
  const last = sections.length - 1;
  return overSpan(sections, (i) => {
    const s = sections[i];
    const [p, q] = [Math.max(0, i - 1), Math.min(last, i + 1)];
    const built = (sections[q].angle - sections[p].angle) / (sections[q].radius - sections[p].radius);
    const stiffening = (forces.pull[i] * w2 * (s.momentXX + s.momentYY)) / s.area;
    return (forces.twist[i] * w2 - stiffening * built) / (shear * s.torsion + stiffening);
  });
}

function overSpan(sections: readonly CarryingSection[], value: (i: number) => number): number {
  let sum = 0;
  let last = value(0);
  for (let i = 1; i < sections.length; i++) {
    const here = value(i);
    sum += ((last + here) / 2) * (sections[i].radius - sections[i - 1].radius);
    last = here;
  }
  return sum;
}
