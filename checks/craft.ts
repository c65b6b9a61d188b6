import type { FanMap } from '../src/air/map.ts';
import { idealPower } from '../src/air/momentum.ts';
import { answersFrom } from '../src/assess/answers.ts';
import { massProperties, type Solid } from '../src/craft/solids.ts';
import { fanPlaces } from '../src/craft/stand.ts';
import { supplyAt } from '../src/drive/supply.ts';
import { shapeKeepingCubic } from '../src/numerics/interpolate.ts';
import type { Project } from '../src/project/schema.ts';
import { GRAVITY } from '../src/quantities/constants.ts';
import { longestHover, resizedBattery, type BatteryChoice } from '../src/study/battery-choice.ts';
import { demo } from '../tests/demo.ts';
import type { Point, Topic } from './check.ts';

const MOMENTUM =
  'Momentum theory of hover, power as weight^1.5, with battery energy in proportion to battery mass (computed): time ~ share √(1 − share), longest at a share of 2/3.';
const CLIMB =
  'Rankine-Froude momentum theory of an open rotor in axial climb; e.g. Leishman, Principles of Helicopter Aerodynamics, 2nd ed., Cambridge 2006, chapter 2.';
const MECHANICS =
  'Meriam and Kraige, Engineering Mechanics: Dynamics, table of moments of inertia of homogeneous solids (from memory; each is a short integral).';

/** A fan of constant coefficients: power is a constant times thrust^1.5. */
const constant = (value: number) => shapeKeepingCubic([0], [value]);
const map: FanMap = {
  thrustOverSquare: constant(3e-7),
  torqueOverSquare: constant(2.5e-9),
  massFlowOverSpeed: constant(1e-5),
  lowest: 10,
  highest: 20_000,
};

/** The demo's drive with every loss taken out, so that efficiency is the same at every load. */
const lossless: Project = {
  ...demo,
  craft: { ...demo.craft, auxiliaryPower_W: 0 },
  motor: { ...demo.motor, resistance_mohm: 0, noLoadCurrent_A: 0, velocityConstant_rpmPerV: 9000 },
  controller: { ...demo.controller, resistance_mohm: 0, switchingLoss_ratio: 0, rippleLoss_S: 0 },
  battery: { ...demo.battery, cellResistance_mohm: 0, leadResistance_mohm: 0 },
};

/** Hover on a battery of `factor` times the demo's, all else weighing `bare` [kg]. */
function hover(bare: number, factor: number): BatteryChoice {
  const battery = resizedBattery(lossless.battery, factor);
  const project = { ...lossless, battery };
  const mass = bare + battery.mass_g / 1000;
  const weightOfOne = (mass * GRAVITY) / project.craft.fanCount;
  const answers = answersFrom(project, supplyAt(project, 0.5), map, weightOfOne);
  return {
    capacity_mAh: battery.capacity_mAh,
    mass_g: battery.mass_g,
    share: battery.mass_g / 1000 / mass,
    hover_min: answers.hoverMinutes,
    thrustToWeight: answers.thrustToWeight,
  };
}

const bestShare = (bare: number): number => {
  const { longest } = longestHover((factor) => hover(bare, factor));
  if (!longest) throw new Error('the lossless craft does not lift');
  return longest.share;
};

/** Hover time at a battery share over that at 2/3. */
function timesOverBest(): readonly Point[] {
  const bare = 0.1;
  const atShare = (share: number) =>
    hover(bare, ((share / (1 - share)) * bare * 1000) / lossless.battery.mass_g).hover_min;
  const closed = (share: number) => share * Math.sqrt(1 - share);
  const best = atShare(2 / 3);
  return [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.75].map((share) => ({
    at: `share ${share}`,
    x: share,
    ours: atShare(share) / best,
    theirs: closed(share) / closed(2 / 3),
  }));
}

const SLICES = 400;

/** A body of revolution of 1 kg about z, cut in thin discs: `radius` over the height from `bottom` to `top` [m]. */
function turned(radius: (z: number) => number, bottom: number, top: number): readonly Solid[] {
  const height = (top - bottom) / SLICES;
  const discs = Array.from({ length: SLICES }, (_, i) => {
    const z = bottom + (i + 0.5) * height;
    return { z, outer: radius(z) };
  });
  const volume = discs.reduce((sum, d) => sum + d.outer ** 2, 0);
  return discs.map(({ z, outer }): Solid => {
    const shape = { kind: 'tube', inner: 0, outer, height } as const;
    return { name: 'disc', mass: outer ** 2 / volume, at: [0, 0, z], shape };
  });
}

function solids(): readonly Point[] {
  const ball = massProperties(turned((z) => Math.sqrt(0.01 - z * z), -0.1, 0.1));
  const cone = massProperties(turned((z) => z / 2, 0, 0.2));
  const rod = massProperties(
    Array.from({ length: 10 }, (_, i): Solid => {
      const shape = { kind: 'box', length: 0.1, width: 1e-4, height: 1e-4 } as const;
      return { name: 'piece', mass: 0.1, at: [0.05 + 0.1 * i, 0.3, -0.2], shape };
    }),
  );
  const hoop = massProperties([
    { name: 'hoop', mass: 1, at: [1, 2, 3], shape: { kind: 'tube', inner: 0.1, outer: 0.1, height: 0 } },
  ]);
  return [
    { at: 'ball of 1 kg, radius 0.1 m, of 400 discs: 2/5 m R²', ours: ball.yaw, theirs: 0.004 },
    { at: 'the same, across the discs', ours: ball.roll, theirs: 0.004 },
    { at: 'cone of 1 kg, radius 0.1 m: 3/10 m R²', ours: cone.yaw, theirs: 0.003 },
    {
      at: 'the same, 0.2 m high, across: 3/80 m (4 R² + h²)',
      ours: cone.pitch,
      theirs: (3 / 80) * (0.04 + 0.04),
    },
    { at: 'rod of 1 kg and 1 m in ten pieces: m L² / 12', ours: rod.pitch, theirs: 1 / 12 },
    { at: 'hoop of 1 kg, radius 0.1 m: m R²', ours: hoop.yaw, theirs: 0.01 },
    { at: 'the same, about a diameter: m R² / 2', ours: hoop.roll, theirs: 0.005 },
  ];
}

/** Circle through the middles of fans in a ring, over the way from neighbour to neighbour. */
const ringRadius = (fanCount: number): number => {
  const [first] = fanPlaces({ fanCount, layout: 'ring', tilt_deg: 0 }, 1);
  return Math.hypot(first.x, first.y);
};

/** Power of an open rotor in a climb over that in hover at the same thrust, by the tool's least-power relation. */
function climbs(): readonly Point[] {
  const [thrust, area, density] = [2, 0.004, 1.225];
  const induced = Math.sqrt(thrust / (2 * density * area));
  return [0.25, 0.5, 1, 2, 4].map((ratio) => ({
    at: `climb at ${ratio} of the hover inflow`,
    x: ratio,
    ours: idealPower(thrust, area, null, density, ratio * induced) / (thrust * induced),
    theirs: ratio / 2 + Math.sqrt((ratio / 2) ** 2 + 1),
  }));
}

export const craftTopic: Topic = {
  id: 'craft',
  title: 'The whole craft',
  intro: [
    'What follows from theory alone, with every loss taken out of the drive: the share of the craft that its battery should be, and the power of a',
    'climb; and how masses and places add up. The battery goes through the same search and the same emptying of the pack as any project; only the fan',
    'and drive are replaced by ideal ones. Wind, control, nearness and cost have no published craft of this kind to stand against:',
    'their figures are estimates, and [theory.md](theory.md) says which.',
  ].join('\n'),
  checks: [
    {
      id: 'craft-battery-share',
      title: 'Battery share of the longest hover, constant efficiency',
      unit: '',
      source: MOMENTUM,
      status: 'computed',
      points: () =>
        [0.05, 0.1, 0.2].map((bare) => ({
          at: `${bare * 1000} g without battery`,
          ours: bestShare(bare),
          theirs: 2 / 3,
        })),
      target: { relative: 0.002 },
      note: 'Found by the search over battery size. Resistance in copper, switches and cells brings the best share of a real craft well below.',
    },
    {
      id: 'craft-battery-time',
      title: 'Hover time over the longest, constant efficiency',
      unit: '',
      source: MOMENTUM,
      status: 'computed',
      points: timesOverBest,
      target: { relative: 0.001 },
      note: 'Half of the craft as battery already gives 92 % of the longest hover; the last 8 % cost as much battery again as the craft weighs bare.',
      axis: 'battery share of the craft',
    },
    {
      id: 'craft-climb-power',
      title: 'Power of an open rotor in climb over that in hover, equal thrust',
      unit: '',
      source: CLIMB,
      status: 'computed',
      points: climbs,
      target: { relative: 1e-6 },
    },
    {
      id: 'craft-inertia',
      title: 'Moments of inertia of simple solids, put together from pieces',
      unit: 'kg m²',
      source: MECHANICS,
      status: 'from memory',
      points: solids,
      target: { relative: 1e-4 },
      note: 'Boxes and tubes are all the tool knows; balls and cones made of them test the adding up.',
    },
    {
      id: 'craft-ring',
      title: 'Circle through the fans of a ring, over the spacing of neighbours',
      unit: '',
      source: 'Geometry of regular polygons: 1/√3, 1/√2, 1 and 1/(2 sin 22.5°) (computed).',
      status: 'computed',
      points: () =>
        [
          [3, 1 / Math.sqrt(3)],
          [4, Math.SQRT1_2],
          [6, 1],
          [8, Math.sqrt(1 + Math.SQRT1_2)],
        ].map(([fans, theirs]) => ({ at: `${fans} fans`, ours: ringRadius(fans), theirs })),
      target: { relative: 1e-9 },
    },
  ],
};
