import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { topics } from './all.ts';
import { FITTED } from '../src/air/section-constants.ts';
import { judge, type Check } from './check.ts';
import { renderChecks } from './render.ts';
import { STATIC_ROTORS } from './rotor-data.ts';
import { fitOfAll, fitWithout } from './rotor-fits.ts';

for (const topic of topics)
  describe(topic.title, () => {
    test.each(topic.checks.map((check) => [check.title, check] as const))('%s', (_, check) => {
      const { verdict, judged, target } = judge(check);
      expect(
        ['met', 'missed, as declared'],
        `${check.id}: ${verdict} (${judged} against a target of ${target})`,
      ).toContain(verdict);
    });
  });

test('every check has its own id and a source', () => {
  const checks = topics.flatMap((topic) => topic.checks);
  expect(new Set(checks.map((check) => check.id)).size).toBe(checks.length);
  for (const check of checks) expect(check.source.length, check.id).toBeGreaterThan(20);
});

describe('the constants of the section form', () => {
  test('those in use are those of the fit to everything, digit for digit', () => {
    expect(FITTED).toEqual(fitOfAll.constants);
  });
  test('each rotor has a fit that never saw its geometry, and it differs', () => {
    for (const rotor of STATIC_ROTORS) expect(fitWithout(rotor)).not.toEqual(fitOfAll);
  });
});

describe('docs/checks.md and its plots are what `npm run docs` writes today', () => {
  const fresh = renderChecks();
  test.each([...fresh.keys()])('%s', (path) => {
    expect(readFileSync(new URL(`../${path}`, import.meta.url), 'utf8')).toBe(fresh.get(path));
  });
  test('no plot is left over', () => {
    const there = readdirSync(new URL('../docs/plots', import.meta.url)).map((name) => `docs/plots/${name}`);
    expect(there.filter((path) => !fresh.has(path))).toEqual([]);
  });
});

describe('the judge', () => {
  const check = (ours: number, more: Partial<Check> = {}): Check => ({
    id: 'made-up',
    title: 'made up',
    unit: 'm',
    source: 'invented for this test',
    status: 'computed',
    points: () => [{ at: 'here', ours, theirs: 10 }],
    target: { relative: 0.1 },
    ...more,
  });
  const missed = { why: 'for the test', ceiling: 0.5 };
  test.each([
    ['met', check(10.5)],
    ['missed, not declared', check(12)],
    ['missed, not declared', check(NaN)],
    ['missed, as declared', check(12, { missed })],
    ['worse than the declared ceiling', check(16, { missed })],
    ['worse than the declared ceiling', check(NaN, { missed })],
    ['declared missed, but met', check(10, { missed })],
    ['met', check(10.9, { target: { absolute: 1 } })],
    ['missed, not declared', check(11.1, { target: { absolute: 1 } })],
    ['met', check(0, { points: () => [{ at: 'here', ours: 5, theirs: [4, 6] }] })],
    ['missed, not declared', check(0, { points: () => [{ at: 'here', ours: 7, theirs: [4, 6] }] })],
    ['missed, not declared', check(0, { points: () => [{ at: 'here', ours: NaN, theirs: [4, 6] }] })],
  ] as const)('says "%s"', (verdict, made) => {
    expect(judge(made).verdict).toBe(verdict);
  });

  test('the mean of a curve is judged where that is asked for', () => {
    const points = () => [
      { at: 'a', ours: 10, theirs: 10 },
      { at: 'b', ours: 11.5, theirs: 10 },
    ];
    expect(judge(check(0, { points })).verdict).toBe('missed, not declared');
    expect(judge(check(0, { points, judged: 'mean' })).verdict).toBe('met');
  });

  test('the median of a curve is judged where that is asked for', () => {
    const points = () => [
      { at: 'a', ours: 10, theirs: 10 },
      { at: 'b', ours: 10.5, theirs: 10 },
      { at: 'c', ours: 20, theirs: 10 },
    ];
    expect(judge(check(0, { points, judged: 'mean' })).verdict).toBe('missed, not declared');
    expect(judge(check(0, { points, judged: 'median' })).verdict).toBe('met');
    expect(judge(check(0, { points, judged: 'median', target: { relative: 0.04 } })).verdict).toBe(
      'missed, not declared',
    );
  });

  test('a check that compares nothing is refused', () => {
    expect(() => judge(check(0, { points: () => [] }))).toThrow('The check made-up compares nothing.');
  });
});
