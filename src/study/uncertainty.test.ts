import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { sobolPoints } from '../numerics/sobol.ts';
import { readProject } from '../project/read.ts';
import type { Project } from '../project/schema.ts';
import { drawableOf, drawInFull, type Drawn } from './draws.ts';
import { uncertaintyOf } from './uncertainty.ts';
import { unknownsOf, type Spreads } from './unknowns.ts';

const read = readProject(
  readFileSync(new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url)),
);
if (!read.ok) throw new Error('The example does not read.');
const { project } = read;

/** None of the spreads that the intervals of assess leave out. */
const AS_ASSESS: Spreads = { 'battery capacity': 0, 'air temperature': 0, 'material strength': 0 };

/** Largest relative difference of each answer between the fast draw and the one in full, over `count` even draws. */
function worstOf(of: Project, count: number): Record<keyof Drawn, number> {
  const unknowns = unknownsOf(of);
  const { at } = drawableOf(of, unknowns);
  const points = sobolPoints(unknowns.length, count, 9);
  const worst = { thrustToWeight: 0, hoverThrottle: 0, hover_min: 0, mass_g: 0, speedMargin: 0 };
  for (let i = 0; i < count; i++) {
    // Evenly within 1.3 half-widths: as wide as nearly all draws.
    const x = points.slice(i * unknowns.length, (i + 1) * unknowns.length).map((u) => 2.6 * u - 1.3);
    const [fast, full] = [at(x), drawInFull(of, unknowns, x)];
    for (const key of Object.keys(worst) as (keyof Drawn)[])
      worst[key] = Math.max(worst[key], Math.abs(fast[key] / full[key] - 1));
  }
  return worst;
}

describe('the fast draw', () => {
  it('stays near the one run in full, all unknowns moved at once', () => {
    const worst = worstOf(project, 30);
    expect(worst.thrustToWeight).toBeLessThan(0.01);
    expect(worst.hoverThrottle).toBeLessThan(0.01);
    expect(worst.hover_min).toBeLessThan(0.02);
    expect(worst.mass_g).toBeLessThan(1e-12);
    expect(worst.speedMargin).toBeLessThan(0.02);
  });

  it('does so for an open rotor', () => {
    const worst = worstOf({ ...project, fan: { ...project.fan, kind: 'open' } }, 10);
    expect(worst.thrustToWeight).toBeLessThan(0.01);
    expect(worst.speedMargin).toBeLessThan(0.02);
  });
});

describe('uncertaintyOf', () => {
  const usual = uncertaintyOf(project, { samples: 512 });

  it('agrees with the intervals of assess on what both count', () => {
    const { craft, strength } = assess(project);
    const { answers } = uncertaintyOf(project, { samples: 2000, spreads: AS_ASSESS });
    for (const [ours, theirs] of [
      [answers.thrustToWeight, craft.thrustToWeightInterval],
      [answers.hoverThrottle, craft.hoverThrottleInterval],
      [answers.hover_min, craft.hoverMinutesInterval],
    ] as const) {
      const width = theirs!.high - theirs!.low;
      expect(Math.abs(ours!.value - theirs!.value)).toBeLessThan(0.1 * width);
      expect(Math.abs(ours!.low - theirs!.low)).toBeLessThan(0.12 * width);
      expect(Math.abs(ours!.high - theirs!.high)).toBeLessThan(0.12 * width);
    }
    expect(answers.mass_g!.value / craft.mass_g).toBeCloseTo(1, 3);
    expect(answers.speedMargin!.value / strength!.speedMargin).toBeCloseTo(1, 1);
  });

  it('says the same again, and nearly the same for another seed', () => {
    expect(uncertaintyOf(project, { samples: 512 })).toEqual(usual);
    const other = uncertaintyOf(project, { samples: 512, seed: 2 });
    expect(other.answers.hover_min).not.toEqual(usual.answers.hover_min);
    expect(other.answers.hover_min!.low / usual.answers.hover_min!.low).toBeCloseTo(1, 1);
  });

  it('shrinks an interval by what it says where the spread is halved', () => {
    const [driver] = usual.drivers.hover_min;
    const was = usual.unknowns.find((u) => u.id === driver.id)!.halfWidth;
    const half = uncertaintyOf(project, { samples: 512, spreads: { [driver.id]: was / 2 } });
    const width = (u: typeof usual) => u.answers.hover_min!.high - u.answers.hover_min!.low;
    expect(driver.halved).toBeGreaterThan(0.05);
    expect(Math.abs(1 - width(half) / width(usual) - driver.halved!)).toBeLessThan(0.03);
  });

  it('gives a craft that is too heavy no chance, and one at the edge a part of one', () => {
    const heavier = (grams: number) => ({ ...project, brief: { ...project.brief, payload_g: grams } });
    expect(uncertaintyOf(heavier(600), { samples: 256 }).chances.lifts).toBe(0);
    // The mass at which the drawn fan just lifts: the chance is about even.
    const { craft } = assess(project);
    const grams = project.brief.payload_g + craft.mass_g * (craft.thrustToWeight - 1);
    const edge = uncertaintyOf(heavier(grams), { samples: 512 });
    expect(edge.chances.lifts).toBeGreaterThan(0.3);
    expect(edge.chances.lifts).toBeLessThan(0.7);
    expect(edge.words[0]).toMatch(/chance of \d\d\s%/);
  });

  it('is certain where everything is known', () => {
    const none = Object.fromEntries(unknownsOf(project).map((u) => [u.id, 0])) as Spreads;
    const { answers, unknowns } = uncertaintyOf(project, { samples: 64, spreads: none });
    expect(unknowns).toEqual([]);
    expect(answers.thrustToWeight!.low).toBe(answers.thrustToWeight!.high);
  });
});
