import { expect, it } from 'vitest';
import { readMasses } from './masses.ts';

it.each([
  ['0.31, 0.30 0.29', [0.31, 0.3, 0.29]],
  ['0.31,0.30,0.29', [0.31, 0.3, 0.29]],
  ['0,31; 0,30', [0.31, 0.3]],
  ['0,31 0,30', [0.31, 0.3]],
  ['  ', []],
])('reads "%s"', (text, masses) => expect(readMasses(text)).toEqual({ ok: true, masses }));

it.each([
  ['0.31 x', 'Mass 2 is "x"'],
  ['0.31 -1', 'Mass 2'],
  ['0.31,0', 'Mass 2'],
  ['1 '.repeat(21), '21 masses'],
])('says what is wrong with "%s"', (text, words) => {
  const read = readMasses(text);
  expect(read.ok ? '' : read.why).toContain(words);
});
