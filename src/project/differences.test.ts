import { expect, test } from 'vitest';
import { demo } from '../../tests/demo.ts';
import { designOf, frozenBuild } from './builds.ts';
import { differences } from './differences.ts';
import { setPath } from './path.ts';

test('differences: each leaf that differs, and none for a copy', () => {
  const design = designOf(demo);
  expect(differences(design, structuredClone(design))).toEqual([]);
  const other = setPath(setPath(design, 'fan.tipGap_mm', 1.5), 'fan.blade.1.chord_mm', 9);
  expect(differences(design, other).map((d) => [d.path, d.second])).toEqual([
    ['fan.blade.1.chord_mm', 9],
    ['fan.tipGap_mm', 1.5],
  ]);
});

test('differences: a list with one entry more shows the leaves of that entry on one side', () => {
  const shown = differences({ a: [{ x: 1 }] }, { a: [{ x: 1 }, { x: 2, y: 3 }] });
  expect(shown).toEqual([
    { path: 'a.1.x', first: undefined, second: 2 },
    { path: 'a.1.y', first: undefined, second: 3 },
  ]);
  expect(differences({ a: null }, { a: { b: 1 } })).toEqual([{ path: 'a', first: null, second: { b: 1 } }]);
});

test('a frozen build holds the design as it is and takes the next free name', () => {
  const first = frozenBuild(demo, { date: '2026-01-02' });
  const second = frozenBuild({ ...demo, builds: [first] }, { date: '2026-01-03', state: 'made' });
  expect([first.id, second.id]).toEqual(['build-1', 'build-2']);
  expect(first.state).toBe('planned');
  expect(differences(first.design, designOf(demo))).toEqual([]);
});
