import { expect, test } from 'vitest';
import { demo } from '../../tests/demo.ts';
import { benchRunSchema } from '../project/bench.ts';
import { frozenBuild } from '../project/builds.ts';
import { setPath } from '../project/path.ts';
import { compareRun } from './compare.ts';
import { comparedAir, expectedAir } from './expected-air.ts';
import { expectedCurves } from './expected.ts';
import { buildRecords } from './history.ts';
import { reduceRun } from './reduce.ts';

const run = benchRunSchema.parse({
  id: 'run-1',
  name: 'first',
  rig: { kind: 'fan pressing down', distanceToPan_mm: 400 },
  rows: [
    { throttle: 0, scale_g: 0, atRest: true },
    { throttle: 0.5, scale_g: 30, rpm: 12_000 },
    { throttle: 1, scale_g: 90, rpm: 20_000 },
  ],
  airReadings: [
    { kind: 'exit speed', value: 2, throttle: 1, radius_mm: 26 },
    { kind: 'thread angle', value: 70, throttle: 1, radius_mm: 26 },
    { kind: 'lip flow', value: 0.5 },
  ],
});
const reduced = reduceRun(demo, run);

test('the curves are the prediction the readings are held against, and rise', () => {
  const { byThrottle, byRpm } = expectedCurves(demo, run, reduced);
  const { points } = compareRun(demo, run, reduced);
  const half = byThrottle.find((p) => p.throttle === 0.5)!;
  expect(half.thrust_N).toEqual(points.find((p) => p.throttle === 0.5)!.predictedAtThrottle_N);
  for (const curve of [byThrottle, byRpm])
    for (let i = 1; i < curve.length; i++) {
      const { value, low, high } = curve[i].thrust_N;
      expect(value).toBeGreaterThan(curve[i - 1].thrust_N.value);
      expect(low).toBeLessThan(value);
      expect(high).toBeGreaterThan(value);
    }
  expect(byRpm.at(-1)!.rpm).toBeGreaterThanOrEqual(20_000);
});

test('exit speed and thread: more speed with more throttle, the same angle; a reading far off is said to be', () => {
  const [slow, fast] = expectedAir(demo, run, [0.5, 1]);
  slow.places.forEach((place, i) => {
    expect(fast.places[i].exit_mps.value / place.exit_mps.value).toBeCloseTo(fast.rpm / slow.rpm, 0);
    expect(Math.abs(fast.places[i].thread_deg.value - place.thread_deg.value)).toBeLessThan(4);
  });
  const [exit, thread, lip] = comparedAir(demo, run, reduced);
  expect(exit.expected!.value).toBeGreaterThan(10);
  expect(exit.words).toMatch(/\d+\u00a0% less than expected/);
  expect(thread.words).toContain('more turning than expected');
  expect(lip).toEqual({
    expected: null,
    words: 'The air leaves the lip over about 50\u00a0% of the way round.',
  });
});

test('a build beside what the bench found: as drawn stays, as learned falls with a fault, measured comes from the run', () => {
  const build = { ...frozenBuild(demo, { date: '2026-01-02', state: 'made' }), bench: [run] };
  const worse = setPath(build, 'design.calibration.bladeAngle_deg', -6);
  const [a, b] = buildRecords({ ...demo, builds: [build, { ...worse, id: 'build-2', bench: [] }] });
  expect(a.asLearned).toEqual(a.asDrawn);
  expect(b.asDrawn).toEqual(a.asDrawn);
  expect(b.asLearned.value).toBeLessThan(0.9 * b.asDrawn.value);
  expect(a.measured?.thrustToWeight.value).toBeCloseTo(reduced.hoverShare!.fullThrottle!.value, 9);
  expect(a.measured?.extrapolated).toBe(false);
  expect(b.measured).toBeNull();
});
