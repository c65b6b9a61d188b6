import { describe, expect, it } from 'vitest';
import type { Slope } from '../study/slopes.ts';
import type { Uncertainty } from '../study/uncertainty.ts';
import { example, here } from '../../tests/program.ts';

const scout = example('greenhouse-scout');
const study = (...args: string[]) => here('study', ...args);

describe('study --uncertainty', () => {
  it('tells intervals, chances and drivers, the same as text and as JSON', async () => {
    const asked = [scout, '--uncertainty', '--samples', '256', '--seed', '3'];
    const { code, out } = await study(...asked);
    expect(code).toBe(0);
    expect(out).toMatch(/256 draws of 14 unknowns/);
    expect(out).toMatch(/lifts itself +over 99/);
    expect(out).toMatch(/Halve the doubt about /);
    const u = JSON.parse((await study(...asked, '--json')).out) as Uncertainty;
    expect(u.answers.thrustToWeight!.low).toBeLessThan(u.answers.thrustToWeight!.value);
    expect(out).toContain(u.answers.thrustToWeight!.value.toPrecision(3));
    for (const line of out.split('\n')) expect(line.length, line).toBeLessThanOrEqual(110);
  });
});

describe('study --slopes', () => {
  it('has a row for each number', async () => {
    const { code, out } = await study(scout, '--slopes');
    expect(code).toBe(0);
    expect(out).toMatch(/\+1\smm +tip diameter +\+[\d.]+ % /);
    for (const line of out.split('\n')) expect(line.length, line).toBeLessThanOrEqual(110);
    const slopes = JSON.parse((await study(scout, '--slopes', '--json')).out) as Slope[];
    expect(slopes.length).toBeGreaterThan(15);
  });
});

describe('study asked wrongly', () => {
  it('says in one sentence what would do', async () => {
    for (const [args, words] of [
      [[scout], /^Ask one thing at a time: .*--slopes/],
      [[scout, '--slopes', '--uncertainty'], /^Ask one thing at a time/],
      [[scout, '--slopes', '--samples', '100'], /^--samples goes with --uncertainty\.\n$/],
      [[scout, '--uncertainty', '--samples', '3'], /^--samples is 3; it must be a whole number from 64/],
    ] as const) {
      const { code, err, out } = await study(...args);
      expect({ code, out }).toEqual({ code: 2, out: '' });
      expect(err).toMatch(words);
    }
  });
});
