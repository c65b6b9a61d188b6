import { bendingTension, bladeForces, bladeStretch, type AirLoad } from '../src/strength/blade.ts';
import { blowOf, squeezedDuct } from '../src/strength/impact.ts';
import { ringBending, turningRing } from '../src/strength/ring.ts';
import type { CarryingSection } from '../src/strength/section.ts';
import type { Topic } from './check.ts';

const TIMOSHENKO = 'Timoshenko, Strength of Materials, parts I and II, Van Nostrand 1955 to 1956';
const GOODIER = 'Timoshenko and Goodier, Theory of Elasticity, 3rd ed., McGraw-Hill 1970';

/** A straight bar of rectangular section [m] cut into sections from `from` to `to`, lying flat in the plane of rotation. */
function bar(from: number, to: number, width: number, thickness: number, sections = 13): CarryingSection[] {
  const area = width * thickness;
  return Array.from({ length: sections }, (_, i) => ({
    radius: from + ((to - from) * i) / (sections - 1),
    chord: width,
    angle: 0,
    camber: 0,
    thickness,
    x: Float64Array.of(width / 2, -width / 2, -width / 2, width / 2),
    y: Float64Array.of(thickness / 2, thickness / 2, -thickness / 2, -thickness / 2),
    centroidX: 0,
    centroidY: 0,
    area,
    massArea: area,
    momentXX: (thickness * width ** 3) / 12,
    momentYY: (width * thickness ** 3) / 12,
    momentXY: 0,
    torsion: (width * thickness ** 3) / 3,
    perimeter: 2 * (width + thickness),
  }));
}

/** A load on one blade along the axis, `q(r)` [N/m], at 1 rad/s. */
const load = (sections: readonly CarryingSection[], q: (radius: number) => number): AirLoad => ({
  omega: 1,
  bladeCount: 1,
  radius: sections.map((s) => s.radius),
  thrustPerRadius: sections.map((s) => q(s.radius)),
  torquePerRadius: sections.map(() => 0),
  relativeSpeed: sections.map(() => 0),
  density: 1.2,
});

/** Steel bar of 1 m turned about its end at 100 rad/s. */
const STEEL = { density: 7850, modulus: 200e9, omega: 100 } as const;

/** Stress over rho w^2 b^2 of a disc of outer radius 1 with Poisson's ratio 0.3. */
const disc = (inner: number) =>
  turningRing({ inner, outer: 1, density: 1, modulus: 1, poisson: 0.3 }, 1).hoop;

export const strengthTopic: Topic = {
  id: 'strength',
  title: 'Strength of the rotor',
  intro:
    'Bars, discs, rings and cantilevers with answers in the textbooks, computed by the same functions that a printed blade goes through. They hold the mechanics only: strength of a print, its warmth, the fillet factor, the energy of a freed blade and a drop rest on rules of thumb and trade tables, and no burst rotor was at hand to hold them against.',
  checks: [
    {
      id: 'strength-bar',
      title: 'Stress along a uniform bar turned about its end',
      unit: 'MPa',
      source: `${TIMOSHENKO}: uniform bar rotating about an axis through its end, sigma = rho w^2 (L^2 - r^2) / 2. Worked for steel of 7850 kg/m3, 1 m, 100 rad/s.`,
      status: 'from memory',
      points: () => {
        const sections = bar(0, 1, 0.02, 0.005);
        const { pull } = bladeForces(sections, STEEL.density, null);
        return [
          [0, 39.25],
          [6, 29.4375],
          [9, 17.171875],
        ].map(([i, theirs]) => ({
          at: `${sections[i].radius} m`,
          ours: (1e-6 * pull[i] * STEEL.omega ** 2) / sections[i].area,
          theirs,
        }));
      },
      target: { relative: 0.01 },
    },
    {
      id: 'strength-bar-growth',
      title: 'Extension of that bar',
      unit: 'µm',
      source: `${TIMOSHENKO}: extension rho w^2 L^3 / (3 E) of the uniform bar rotating about its end; steel, 200 GPa.`,
      status: 'from memory',
      points: () => {
        const sections = bar(0, 1, 0.02, 0.005);
        const { pull } = bladeForces(sections, STEEL.density, null);
        return [
          {
            at: '1 m, 100 rad/s',
            ours: 1e6 * bladeStretch(sections, pull, STEEL.modulus, STEEL.omega),
            theirs: 130.8333,
          },
        ];
      },
      target: { relative: 0.01 },
    },
    {
      id: 'strength-cantilever',
      title: 'Cantilever under a spread load: stress at the root',
      unit: 'MPa',
      source: `${TIMOSHENKO}: largest moment q L^2 / 2 under an even load and q L^2 / 3 under one growing from the wall to q at the end, stress 6 M / (b t^2). Worked for 100 N/m on 0.1 m, 10 mm by 2 mm.`,
      status: 'from memory',
      points: () => {
        const sections = bar(0.05, 0.15, 0.01, 0.002);
        const root = (q: (radius: number) => number) => {
          const forces = bladeForces(sections, 0, load(sections, q));
          return 1e-6 * bendingTension(sections[0], forces.bendingX[0], forces.bendingY[0]);
        };
        return [
          { at: 'even load', ours: root(() => 100), theirs: 75 },
          { at: 'load growing to the end', ours: root((r) => (100 * (r - 0.05)) / 0.1), theirs: 50 },
        ];
      },
      target: { relative: 0.01 },
    },
    {
      id: 'strength-disc',
      title: 'Largest hoop stress in a turning disc',
      unit: 'rho w² b²',
      source: `${GOODIER}, art. 32: (3 + nu)/8 for a full disc, (3 + nu)/4 for one with a pinhole, 1 for a thin ring; nu = 0.3.`,
      status: 'from memory',
      points: () => [
        { at: 'full disc', ours: disc(0), theirs: 0.4125 },
        { at: 'pinhole', ours: disc(1e-4), theirs: 0.825 },
        { at: 'thin ring', ours: disc(0.999), theirs: 1 },
      ],
      target: { relative: 0.01 },
    },
    {
      id: 'strength-cylinder',
      title: 'Thick ring pulled outward at its rim: hoop stress at the bore',
      unit: 'of the pull',
      source: `${GOODIER}, art. 28 (Lame): 2 b^2 / (b^2 - a^2).`,
      status: 'from memory',
      points: () =>
        (
          [
            [0.5, 2.6667],
            [0.8, 5.5556],
          ] as const
        ).map(([inner, theirs]) => ({
          at: `a/b = ${inner}`,
          ours: turningRing({ inner, outer: 1, density: 0, modulus: 1, poisson: 0.3 }, 1, 1).hoop,
          theirs,
        })),
      target: { relative: 0.01 },
    },
    {
      id: 'strength-ring',
      title: 'Moment under each of equal forces on a ring',
      unit: 'F R',
      source: `${TIMOSHENKO}, part II, rings; Roark, Formulas for Stress and Strain, circular rings: 0.318 for two forces, 0.189 for three, 0.137 for four.`,
      status: 'from memory',
      points: () =>
        (
          [
            [2, 0.318],
            [3, 0.189],
            [4, 0.137],
          ] as const
        ).map(([count, theirs]) => ({ at: `${count} forces`, ours: ringBending(1, 1, count), theirs })),
      target: { relative: 0.01 },
    },
    {
      id: 'strength-squeezed',
      title: 'A thin ring squeezed by two forces: travel',
      unit: 'F R³/(E I)',
      source: `${TIMOSHENKO}, part II: 0.149 F R^3 / (E I) between the two forces.`,
      status: 'from memory',
      points: () => {
        const [radius, wall, length, modulus] = [0.1, 0.001, 0.02, 2e9];
        const inertia = (length * wall ** 3) / 12;
        const { stiffness } = squeezedDuct(radius, wall, length, 0, modulus);
        return [{ at: 'no lip', ours: (modulus * inertia) / radius ** 3 / stiffness, theirs: 0.149 }];
      },
      target: { relative: 0.01 },
    },
    {
      id: 'strength-sudden',
      title: 'Load set on a spring at once, over the same at rest',
      unit: '',
      source: `${TIMOSHENKO}, part I: a suddenly applied load acts twice.`,
      status: 'from memory',
      points: () => [
        { at: 'no fall', ours: blowOf(1, 0, { stiffness: 1000, stressPerForce: 1 }).load, theirs: 2 },
      ],
      target: { relative: 0.01 },
    },
  ],
};
