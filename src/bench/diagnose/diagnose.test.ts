import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../numerics/random.ts';
import { benchRunSchema, type BenchRun } from '../../project/bench.ts';
import { readProject } from '../../project/read.ts';
import { rpmFromAngularSpeed } from '../../quantities/units.ts';
import { GRAVITY } from '../../quantities/constants.ts';
import { drawTruth, specsOf, SWEEP } from '../synthetic/cases.ts';
import { syntheticRig } from '../synthetic/rig.ts';
import { scoreCases, tally } from '../synthetic/score.ts';
import type { CauseId } from './causes.ts';
import { diagnose } from './diagnose.ts';
import { chiSquareAbove, fitNormal, normalBelow } from './gaussian.ts';
import { information } from './next-test.ts';
import { prepare } from './prepare.ts';
import { NOTHING, type UnknownId } from './unknowns.ts';

const read = readProject(
  readFileSync(
    new URL('../../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url),
  ),
);
if (!read.ok) throw new Error('demo');
const project = read.project;
const prepared = prepare(project);

/** A run as it would stand in the project file, from an invented rig with one fault of a given size and no other scatter. */
function runWith(id: CauseId, value: number, throttles = SWEEP.throttles): BenchRun {
  const random = seededRandom(4);
  const spec = specsOf(prepared.model, SWEEP).find((s) => s.id === id)!;
  const drawn = drawTruth(prepared.model, SWEEP, [spec], random);
  const u: Record<UnknownId, number> = { ...NOTHING };
  if (spec.unknown) u[spec.unknown] = value;
  const plan = { ...SWEEP, throttles };
  const { evidence } = syntheticRig(prepared.model, { ...drawn, u, sign: 1 }, plan, random);
  return benchRunSchema.parse({
    rig: { kind: 'fan pressing down', scaleResolution_g: 0.1, massAtRest_g: 0 },
    battery: { charge_ratio: 0.8 },
    rows: evidence.points.map((p) => ({
      throttle: p.throttle,
      scale_g: (p.thrust / GRAVITY) * 1000,
      voltage_V: p.voltage,
      current_A: p.current,
      rpm: p.omega && rpmFromAngularSpeed(p.omega),
    })),
  });
}

describe('first-build failures from a sweep', () => {
  const cases: readonly (readonly [CauseId, number])[] = [
    ['backward', 0],
    ['upside down', 0],
    ['part throttle', Math.log(0.6)],
    ['pack', Math.log(5)],
    ['winding', Math.log(3)],
    ['limit', 0.5],
    ['angle', -0.14],
    ['rough', Math.log(2.8)],
  ];
  it.each(cases)('%s comes first', (id, value) => {
    const found = diagnose(project, runWith(id, value))!;
    expect(found.causes[0].id).toBe(id);
    expect(found.causes[0].chance).toBeGreaterThan(0.5);
    expect(found.unexplained.flagged).toBe(false);
  });

  it('tells a wide gap once it is measured, and says so', () => {
    const run = runWith('gap', 0.004);
    const found = diagnose(project, {
      ...run,
      observed: { ...run.observed, gap_mm: project.fan.tipGap_mm + 4 },
    })!;
    expect(found.causes[0].id).toBe('gap');
    const { interval } = found.causes[0].size!;
    expect(interval.low).toBeLessThan(0.004);
    expect(interval.high).toBeGreaterThan(0.004);
    expect(found.causes[0].for.join(' ')).toContain('feeler');
  });

  it('names the missing share by design where the craft could not lift as drawn', () => {
    const heavy = { ...project, brief: { ...project.brief, payload_g: 900 } };
    const found = diagnose(heavy, runWith('pack', 0))!;
    expect(found.design.predictedThrustToWeight).toBeLessThan(1);
    expect(found.sentences.join(' ')).toContain('matter of the design');
  });
});

describe('one reading', () => {
  it('leaves several causes open and asks for a measurement', () => {
    const run = runWith('part throttle', Math.log(0.6), [1]);
    const bare = {
      ...run,
      rows: run.rows.map((r) => ({ ...r, rpm: null, voltage_V: null, current_A: null })),
    };
    const found = diagnose(project, bare)!;
    expect(found.causes[0].chance).toBeLessThan(0.7);
    expect(found.next.length).toBeGreaterThan(0);
    expect(found.next[0].bits).toBeGreaterThan(0.05);
  });

  it('has nothing to say without one', () => {
    expect(diagnose(project, benchRunSchema.parse({}))).toBeNull();
  });
});

describe('invented rigs with known truth', () => {
  it(
    'keeps truth inside its 90 % intervals and ranks the dominating cause first',
    { timeout: 40_000 },
    () => {
      const got = tally(scoreCases([prepared], { count: 30, seed: 5, plan: SWEEP, tests: 1 }));
      expect(got.inside / got.intervals).toBeGreaterThan(0.83);
      expect(got.inside / got.intervals).toBeLessThan(0.96);
      expect(got.right.at(-1)! / got.dominated).toBeGreaterThanOrEqual(0.8);
      expect(got.unexplained).toBeLessThanOrEqual(1);
    },
  );

  it('says unexplained where the rig holds a fault it has no cause for', { timeout: 20_000 }, () => {
    const got = tally(scoreCases([prepared], { count: 8, seed: 6, plan: SWEEP, tests: 0, lacks: true }));
    expect(got.unexplained).toBeGreaterThanOrEqual(7);
  });
});

describe('the arithmetic below', () => {
  it('fits one number as the textbook does', () => {
    // z ~ N(0, 1), y = 2 z + e, e ~ N(0, 0.5): mean 2 y / (4 + 0.25), variance 0.25 / 4.25.
    const { mean, covariance, chiSquare, logLikelihood } = fitNormal([1], [0.5], Float64Array.of(2), 1);
    expect(mean[0]).toBeCloseTo(2 / 4.25, 12);
    expect(covariance[0]).toBeCloseTo(0.25 / 4.25, 12);
    expect(chiSquare).toBeCloseTo(1 / 4.25, 12);
    expect(logLikelihood).toBeCloseTo(-0.5 * (1 / 4.25 + Math.log(2 * Math.PI * 4.25)), 12);
  });
  it('agrees with tables of the normal and of chi-square', () => {
    expect(normalBelow(1.6449)).toBeCloseTo(0.95, 5);
    expect(chiSquareAbove(18.307, 10)).toBeCloseTo(0.05, 3);
  });
  it('tells one bit from far humps and none from the same', () => {
    const hump = (mean: number) => [{ weight: 1, mean, sd: 1 }];
    expect(information(hump(0), hump(20))).toBeCloseTo(1, 3);
    expect(information(hump(0), hump(0))).toBeCloseTo(0, 9);
  });
});
