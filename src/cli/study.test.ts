import { readFileSync, writeFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import type { Slope } from '../study/slopes.ts';
import type { Uncertainty } from '../study/uncertainty-types.ts';
import { example, here, workshop } from '../../tests/program.ts';

const scout = example('greenhouse-scout');
const { at, child, leave } = workshop('study');
afterAll(leave);
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

describe('study --vary', () => {
  const vary = ['--vary', 'fan.tipDiameter_mm=55:70:50', '--vary', 'fan.bladeCount=4:6:3', '--no-sound'];

  it('prints a short sweep row by row', async () => {
    const { code, out } = await study(scout, '--vary', 'fan.tipDiameter_mm=55:75:3', '--jobs', '1');
    expect(code).toBe(0);
    expect(out).toMatch(/\n +55 +1\.\d+ .* met\n/);
    expect(out).toMatch(/\n +75 .*90\.0 mm.*\n/);
    const { out: json } = await study(scout, '--vary', 'fan.tipDiameter_mm=55:75:3', '--jobs', '1', '--json');
    expect(JSON.parse(json)).toHaveLength(3);
  });

  it('writes the same table on one core and two, and carries a cut one on', async () => {
    const one = await study(scout, ...vary, '--csv', at('one.csv'), '--jobs', '1');
    expect(one.code).toBe(0);
    // Threads need the real program.
    const two = child('study', scout, ...vary, '--csv', 'two.csv', '--jobs', '2');
    expect({ code: two.code, err: two.err }).toEqual({ code: 0, err: '' });
    const whole = readFileSync(at('one.csv'), 'utf8');
    expect(whole.split('\n')).toHaveLength(152);
    expect(readFileSync(at('two.csv'), 'utf8')).toBe(whole);
    writeFileSync(at('cut.csv'), whole.slice(0, 6000));
    const { code, out } = await study(scout, ...vary, '--resume', at('cut.csv'), '--jobs', '1');
    expect(code).toBe(0);
    expect(out).toMatch(/150 designs, \d+ of them done before/);
    expect(readFileSync(at('cut.csv'), 'utf8')).toBe(whole);
    const gap = ['--vary', 'fan.tipGap_mm=0.3:0.5:3'];
    const other = await study(scout, ...gap, '--resume', at('cut.csv'));
    expect(other.code).toBe(2);
    expect(other.err).toMatch(/cut.csv cannot be carried on: its heading/);
    expect(readFileSync(at('cut.csv'), 'utf8')).toBe(whole);
    expect((await study(scout, ...vary, '--csv', at('cut.csv'))).err).toMatch(/already there/);
  });
});

describe('study --best', () => {
  it('proposes, keeps its search, carries it on, and writes a proposal', async () => {
    const kept = at('search.json');
    const best = (...args: string[]) => study(scout, '--best', '--jobs', '1', '--resume', kept, ...args);
    const { code, out } = await best('--evaluations', '120');
    expect(code).toBe(0);
    expect(out).toMatch(/120 designs tried/);
    expect(out).toMatch(/Proposal 1, against the present design\n {2}- /);
    for (const line of out.split('\n')) expect(line.length, line).toBeLessThanOrEqual(110);
    const more = await best('--evaluations', '160', '--take', '1', '--out', at('better.fanwright.json'));
    expect(more.out).toMatch(/160 designs tried[^]*Wrote .*: proposal 1\.\n$/);
    expect((await here('check', at('better.fanwright.json'))).code).toBe(0);
    const other = await best('--set', 'brief.payload_g=20');
    expect(other.err).toMatch(/is about another design; name a new file\.\n$/);
  });
});

describe('study asked wrongly', () => {
  it('says in one sentence what would do', async () => {
    for (const [args, words] of [
      [[scout], /^Ask one thing at a time: .*--slopes/],
      [[scout, '--slopes', '--uncertainty'], /^Ask one thing at a time/],
      [[scout, '--slopes', '--samples', '100'], /^--samples goes with --uncertainty\.\n$/],
      [[scout, '--slopes', '--jobs', '2'], /go with --vary or --best\.\n$/],
      [[scout, '--vary', 'fan.tipGap_mm=0.3'], /path=from:to:n/],
      [[scout, '--vary', 'fan.tipGp_mm=0.3:0.5:3'], /did you mean fan.tipGap_mm/],
      [[scout, '--uncertainty', '--samples', '3'], /^--samples is 3; it must be a whole number from 64/],
    ] as const) {
      const { code, err, out } = await study(...args);
      expect({ code, out }).toEqual({ code: 2, out: '' });
      expect(err).toMatch(words);
    }
  });
});
