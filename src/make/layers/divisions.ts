import type { Design } from '../../project/schema.ts';
import { materialAndTime } from '../../print/material-time.ts';
import { formatNumber as n, formatPercent } from '../../quantities/format.ts';
import type { Kernel } from '../kernel.ts';
import { make } from '../make.ts';
import { solidOf } from '../mesh.ts';
import { isGeometryFaultError } from '../part.ts';
import { bodiesOf, shapeFacts } from './geometry.ts';
import { judged } from './orientation.ts';
import { lyingPart } from './part-check.ts';
import { hoursInWords } from './set-words.ts';
import { contours, cut, rulesOf } from './slice.ts';

/** One way to divide a craft into parts, on the score by which parts are laid. */
export interface Division {
  readonly name: string;
  /** The present design. */
  readonly present: boolean;
  readonly kinds: number;
  readonly pieces: number;
  readonly mass_g: number;
  readonly time_h: number;
  /** Score of the pieces as they lie, by their share of the mass; lower is better. */
  readonly cost: number;
  /** Share of the faces the air works on that leans past the limit [mm2], all pieces. */
  readonly airOverhang_mm2: number;
  /** Parts that the bed does not take. */
  readonly unfit: readonly string[];
}

export interface Divisions {
  /** Best first. */
  readonly ways: readonly Division[];
  /** Ways that cannot be built, with the first reason. */
  readonly refused: readonly { readonly name: string; readonly why: string }[];
  readonly words: readonly string[];
}

/** Slices for material and time: coarse, for whole craft are compared [mm]. */
const SLICE = 0.5;

/** Scores closer than this say nothing. */
const ALIKE = 0.03;

/** The present design beside the same with the other frame, the other rotor and the lip on or off, each in one change. */
export function divisionsOf(design: Design): readonly { name: string; design: Design; present: boolean }[] {
  const { craft, fan } = design;
  const ways = [{ name: 'as it is', design, present: true }];
  const add = (name: string, other: Design) => ways.push({ name, design: other, present: false });
  for (const kind of ['one body', 'modular'] as const)
    if (craft.frame.kind !== kind)
      add(kind === 'modular' ? 'frame of parts' : 'frame and ducts in one body', {
        ...design,
        craft: { ...craft, frame: { ...craft.frame, kind } },
      });
  const parts = fan.rotorParts === 'one piece' ? 'blades apart' : 'one piece';
  add(`rotor with ${parts === 'one piece' ? 'its blades in one piece' : parts}`, {
    ...design,
    fan: { ...fan, rotorParts: parts },
  });
  if (fan.kind === 'ducted')
    add(fan.duct.lipApart ? 'lip and duct in one' : 'lip apart from the duct', {
      ...design,
      fan: { ...fan, duct: { ...fan.duct, lipApart: !fan.duct.lipApart } },
    });
  return ways;
}

/**
 * Makes each way, coarse, and scores it. Ways that cannot be built are named with the reason. Yields before each way how
 * far it is; leave it there by `return()`.
 */
export async function* divisionSteps(
  kernel: Kernel,
  design: Design & { readonly name: string },
): AsyncGenerator<{ readonly done: number; readonly part: string }, Divisions, void> {
  const ways: Division[] = [];
  const refused: { name: string; why: string }[] = [];
  const all = divisionsOf(design);
  for (const [i, way] of all.entries()) {
    yield { done: i / all.length, part: way.name };
    try {
      ways.push(await scored(kernel, { ...way.design, name: design.name }, way.name, way.present));
    } catch (error) {
      if (!isGeometryFaultError(error)) throw error;
      refused.push({ name: way.name, why: error.faults[0].text });
    }
  }
  ways.sort((a, b) => a.cost - b.cost);
  return { ways, refused, words: divisionWords(ways) };
}

/** The same in one go. */
export async function compareDivisions(
  kernel: Kernel,
  design: Design & { readonly name: string },
): Promise<Divisions> {
  const steps = divisionSteps(kernel, design);
  for (;;) {
    const step = await steps.next();
    if (step.done) return step.value;
  }
}

async function scored(
  kernel: Kernel,
  design: Design & { readonly name: string },
  name: string,
  present: boolean,
): Promise<Division> {
  const { printer, material } = design;
  const { parts } = await make(design, { kernel, quality: 'coarse' });
  const { tolerance } = rulesOf(printer);
  let [mass, time, cost, pieces, air] = [0, 0, 0, 0, 0];
  const unfit: string[] = [];
  for (const part of parts) {
    const { quantity } = part;
    const solid = solidOf(kernel, part);
    const height = part.boundingBox_mm.max[2];
    const count = Math.max(1, Math.round(height / SLICE));
    const layers = Array.from({ length: count }, (_, i) => {
      const z_mm = ((i + 0.5) * height) / count;
      const section = cut(solid, z_mm, tolerance);
      const outlines = contours(section);
      section.delete();
      const { area, perimeter } = shapeFacts(outlines);
      return { z_mm, area_mm2: area, perimeter_mm: perimeter, bodies: bodiesOf(outlines) };
    });
    solid.delete();
    const print = materialAndTime(layers, height / count, printer, material);
    const lie = judged(lyingPart(part, design), [0, 0, -1], printer, material);
    if (!lie.fits) unfit.push(part.name);
    pieces += quantity;
    mass += quantity * print.mass_g;
    time += quantity * print.time_h;
    cost += quantity * print.mass_g * lie.cost;
    air += quantity * lie.airOverhang_mm2;
  }
  return {
    name,
    present,
    kinds: parts.length,
    pieces,
    mass_g: mass,
    time_h: time,
    cost: mass > 0 ? cost / mass : 0,
    airOverhang_mm2: air,
    unfit,
  };
}

function divisionWords(ways: readonly Division[]): string[] {
  const now = ways.find(({ present }) => present);
  if (!now) return [];
  const words = ways
    .filter((way) => !way.present)
    .map((way) => {
      const gain = now.cost - way.cost;
      const score =
        Math.abs(gain) < ALIKE * Math.max(now.cost, 1e-9)
          ? 'prints about as well'
          : gain > 0
            ? 'prints better'
            : 'prints worse';
      const mass = way.mass_g - now.mass_g;
      const hours = way.time_h - now.time_h;
      const signed = (value: number, unit: string) =>
        `${n(Math.abs(value), 2)} ${unit} ${value < 0 ? 'less' : 'more'}`;
      const heavier =
        Math.abs(mass) < 0.005 * now.mass_g
          ? 'the same mass'
          : `${signed(mass, 'g')} (${formatPercent(Math.abs(mass) / now.mass_g)})`;
      const longer =
        Math.abs(hours) < 1 / 60
          ? 'the same time'
          : `${hoursInWords(Math.abs(hours))} ${hours < 0 ? 'less' : 'more'}`;
      const bed = way.unfit.length ? ` The bed does not take its ${way.unfit.join(' and ')}.` : '';
      return `${way.name[0].toUpperCase()}${way.name.slice(1)}: ${score} (${n(way.cost, 2)} against ${n(now.cost, 2)}), ${heavier}, ${longer}, ${way.pieces} pieces instead of ${now.pieces}.${bed}`;
    });
  return [
    'Score: steps, overhang, contact and strength of the pieces as they lie, by their share of the mass; faces of the air weigh most, lower is better.',
    ...words,
  ];
}
