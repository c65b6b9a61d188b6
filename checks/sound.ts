import { readFileSync } from 'node:fs';
import { firstSlopeZero } from '../src/numerics/bessel.ts';
import { readProject } from '../src/project/read.ts';
import { craftSound } from '../src/sound/craft-sound.ts';
import { ductModes } from '../src/sound/duct-modes.ts';
import { levelOf, sumLevels } from '../src/sound/levels.ts';
import { EFFECTIVE_RADIUS, gutinPressure } from '../src/sound/rotor-tones.ts';
import type { SoundSource, Strip } from '../src/sound/source.ts';
import { aWeighting } from '../src/sound/weighting.ts';
import { besselJ } from '../src/numerics/bessel.ts';
import { compareSound, openedProject } from '../src/study/sound-compare.ts';
import type { Topic } from './check.ts';

const HUBBARD =
  'Hicks and Hubbard, Comparison of Sound Emission from Two-Blade, Four-Blade, and Seven-Blade Propellers, NACA TN 1354, 1947';
const ZEROS =
  'Abramowitz and Stegun, Handbook of Mathematical Functions, 1972, p. 370, as tabulated by Weisstein, Bessel Function Zeros, MathWorld';

/** Third octaves of IEC 61672-1: name [Hz] and weighting [dB]. */
const A_TABLE = [
  [31.5, -39.4],
  [63, -26.2],
  [100, -19.1],
  [125, -16.1],
  [250, -8.6],
  [500, -3.2],
  [1000, 0],
  [2000, 1.2],
  [2500, 1.3],
  [4000, 1.0],
  [5000, 0.5],
  [8000, -1.1],
  [10_000, -2.5],
  [16_000, -6.6],
  [20_000, -9.3],
] as const;

/** First zeros of J'_m for m = 1 to 5. */
const SLOPE_ZEROS = [1.8412, 3.0542, 4.2012, 5.3175, 6.4156];

const SOUND_SPEED = 340;

/** Frequency [Hz] at which m lobes begin to travel in a hard pipe of 50 mm radius, found by asking the duct. */
function cutOnFrequency(lobes: number): number {
  const fate = ductModes(
    { boreRadius: 0.05, hubRadius: 0, fromRotor: [0.02, 0.02], fromVanes: [0.02, 0.02] },
    SOUND_SPEED,
    0,
  );
  let [low, high] = [100, 20_000];
  while (high - low > 1e-4) {
    const middle = (low + high) / 2;
    if (fate(lobes, 2 * Math.PI * middle).cutOn) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

/**
 * A plain propeller of 1.2 m with `blades` blades of 90 mm at tip Mach `mach`: the size of those of the note, its blades and
 * load our invention (lift coefficient 0.5 along the blade).
 */
function propeller(blades: number, mach: number): SoundSource {
  const tipRadius = 0.61;
  const omega = (mach * SOUND_SPEED) / tipRadius;
  const density = 1.225;
  const strips = Array.from({ length: 8 }, (_, i): Strip => {
    const width = (tipRadius * 0.8) / 8;
    const radius = 0.2 * tipRadius + (i + 0.5) * width;
    const speed = omega * radius;
    const thrust = (density / 2) * speed ** 2 * 0.5 * 0.09 * width * blades;
    return {
      radius,
      width,
      chord: 0.09,
      chordAround: 0.085,
      thrust,
      torque: thrust * 0.12 * radius,
      area: 0.685 * 0.08 * 0.09 ** 2,
      relativeSpeed: speed,
      alpha: 0.06,
      cl: 0.5,
      cd: 0.012,
      edge: 0.0005,
    };
  });
  const sum = (pick: (s: Strip) => number) => strips.reduce((total, s) => total + pick(s), 0);
  return {
    blades,
    omega,
    tipRadius,
    strips,
    thrust: sum((s) => s.thrust),
    torque: sum((s) => s.torque),
    axialSpeed: 10,
    soundSpeed: SOUND_SPEED,
    density,
    viscosity: 1.8e-5,
    edgeAngle_deg: 14,
    duct: null,
    vanes: null,
    bladeScatter: 0,
    placeScatter: 0,
    unevenAir: 0,
  };
}

/** How far the steady tones alone lie below everything [dB]. */
function missedByTones(blades: number, mach: number): number {
  const { energies } = craftSound(propeller(blades, mach), 1, { distance_m: 10, reflectingPlane: false });
  const { loading, thickness, broadband } = energies.plain;
  return levelOf(loading + thickness + broadband) - levelOf(loading + thickness);
}

/** Gutin's formula as the note writes it for engineers, feet, pounds and horsepower, in dyn/cm2, over ours. */
function noteOverOurs(
  order: number,
  blades: number,
  mach: number,
  theta: number,
): { ours: number; theirs: number } {
  const FOOT = 0.3048;
  const POUND = 4.4482;
  const HORSEPOWER = 745.7;
  const [radius, distance, pounds, power] = [2, 30, 120, 60];
  const speed = 1120;
  const theirs =
    Math.abs(
      ((169.3 * order * blades * radius * mach) / (distance * Math.PI * radius ** 2)) *
        ((0.76 * power) / mach ** 2 - pounds * Math.cos(theta)) *
        besselJ(order * blades, 0.8 * mach * order * blades * Math.sin(theta)),
    ) * 0.1;
  const omega = (mach * speed) / radius;
  const ours = gutinPressure(
    {
      thrust: pounds * POUND,
      torque: (power * HORSEPOWER) / omega,
      radius: EFFECTIVE_RADIUS * radius * FOOT,
    },
    order * blades,
    omega,
    speed * FOOT,
    theta,
    distance * FOOT,
  );
  return { ours: levelOf(ours ** 2), theirs: levelOf(theirs ** 2) };
}

function scout() {
  const read = readProject(
    readFileSync(new URL('../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url)),
  );
  if (!read.ok) throw new Error('The example project does not read.');
  return read.project;
}

export const soundTopic: Topic = {
  id: 'sound',
  title: 'Sound',
  intro:
    'What is exact is held exactly: weighting, energy sums, and the frequencies at which patterns begin to travel in a duct. What is estimated is held to what was published in words, for no table of measured levels of a small rotor of known geometry, ducted or open, could be read: absolute levels are not checked against a measurement, and their intervals are wide for it.',
  checks: [
    {
      id: 'sound-weighting',
      title: 'A weighting, rounded to a tenth',
      unit: 'dB',
      source: 'IEC 61672-1:2013, Electroacoustics, Sound level meters, part 1, table 3 (A weighting)',
      status: 'read',
      points: () =>
        A_TABLE.map(([name, theirs]) => {
          const exact = 1000 * 10 ** (Math.round(10 * Math.log10(name / 1000)) / 10);
          return { at: `${name} Hz`, ours: Math.round(10 * aWeighting(exact)) / 10, theirs };
        }),
      target: { absolute: 1e-9 },
    },
    {
      id: 'sound-zeros',
      title: 'First zero of the slope of a Bessel function',
      unit: '',
      source: ZEROS,
      status: 'read',
      points: () =>
        SLOPE_ZEROS.map((theirs, i) => ({ at: `order ${i + 1}`, ours: firstSlopeZero(i + 1), theirs })),
      target: { absolute: 6e-5 },
    },
    {
      id: 'sound-cut-on',
      title: 'Frequency at which a pattern begins to travel in a pipe of 50 mm radius',
      unit: 'Hz',
      source: `Tyler and Sofrin, Axial Flow Compressor Noise Studies, SAE Transactions 70, 1962: f = j'(m,1) c / (2 pi R), with zeros of ${ZEROS}; 340 m/s`,
      status: 'computed',
      points: () =>
        SLOPE_ZEROS.map((zero, i) => ({
          at: `${i + 1} lobe${i === 0 ? '' : 's'}`,
          ours: cutOnFrequency(i + 1),
          theirs: (zero * SOUND_SPEED) / (2 * Math.PI * 0.05),
        })),
      target: { relative: 1e-4 },
    },
    {
      id: 'sound-sums',
      title: 'Levels of sources together',
      unit: 'dB',
      source:
        'ISO 3744:2010, energy mean and sum: 10 lg sum 10^(L/10); two like sources 3.01, four 6.02, 60 and 50 dB 60.41',
      status: 'computed',
      points: () => [
        { at: 'two of 60 dB', ours: sumLevels([60, 60]), theirs: 63.01 },
        { at: 'four of 60 dB', ours: sumLevels([60, 60, 60, 60]), theirs: 66.02 },
        { at: '60 and 50 dB', ours: sumLevels([60, 50]), theirs: 60.41 },
      ],
      target: { absolute: 0.01 },
    },
    {
      id: 'sound-gutin',
      title: 'Gutin’s tones against their engineering form, a propeller of 4 feet at 30 feet',
      unit: 'dB',
      source: `${HUBBARD}: p = (169.3 m B R M / (s A)) (0.76 P / M^2 - T cos b) J_mB(0.8 M m B sin b), ft, lb, hp, dyn/cm2; 120 lb and 60 hp are ours`,
      status: 'from memory',
      points: () =>
        (
          [
            [1, 2, 0.5, 90],
            [2, 2, 0.7, 105],
            [1, 4, 0.6, 120],
            [1, 7, 0.9, 105],
          ] as const
        ).map(([order, blades, mach, degrees]) => ({
          at: `harmonic ${order}, ${blades} blades, Mach ${mach}, ${degrees}°`,
          ...noteOverOurs(order, blades, mach, (degrees * Math.PI) / 180),
        })),
      target: { absolute: 0.3 },
      note: 'The note’s rounded 0.76 stands for about 0.77 at this speed of sound.',
    },
    {
      id: 'sound-many-blades',
      title: 'How far the steady tones alone read low',
      unit: 'dB',
      source: `${HUBBARD}, summary: Gutin’s formula checks for two blades from tip Mach 0.3 to 0.9; for seven blades above 0.5 good, below 0.5 large discrepancies, vortex noise being a large part there. Limits in dB are our reading of those words: below 3 for good, above 3 for large.`,
      status: 'read',
      points: () => [
        ...[0.3, 0.5, 0.7, 0.9].map((mach) => ({
          at: `2 blades, Mach ${mach}`,
          ours: missedByTones(2, mach),
          theirs: [0, 3] as const,
        })),
        ...[0.3, 0.4].map((mach) => ({
          at: `7 blades, Mach ${mach}`,
          ours: missedByTones(7, mach),
          theirs: [3, 200] as const,
        })),
        ...[0.6, 0.7, 0.9].map((mach) => ({
          at: `7 blades, Mach ${mach}`,
          ours: missedByTones(7, mach),
          theirs: [0, 3] as const,
        })),
      ],
      target: { absolute: 0 },
      note: 'The propellers of the note are not tabulated in what could be read: ours is of their size, its blades and load are invented.',
    },
    {
      id: 'sound-shroud',
      title: 'A duct with struts close behind the blades against its rotor in the open, equal thrust',
      unit: 'dB(A) louder',
      source:
        'Oleson and Patrick, Small Aircraft Propeller Noise with Ducted Propeller, AIAA 98-2284, 1998, abstract: about 6 dB louder with the shroud, by strong rotor-stator interaction; another machine, so only sign and size within 6 dB are compared',
      status: 'read',
      points: () => {
        const project = scout();
        const { difference_dB } = compareSound(project, openedProject(project));
        return [
          {
            at: 'the example craft, 5 blades, 4 struts',
            ours: -(difference_dB?.value ?? NaN),
            theirs: [0, 12],
          },
        ];
      },
      target: { absolute: 0 },
    },
  ],
};
