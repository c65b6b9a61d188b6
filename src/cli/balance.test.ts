import { writeFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { example, here, workshop } from '../../tests/program.ts';

const scout = example('greenhouse-scout');
const { child, leave, at } = workshop('balance');
afterAll(leave);
const balance = (...args: string[]) => here('balance', scout, ...args);
const figures = async (...args: string[]) => JSON.parse((await balance(...args, '--json')).out);
const APART = ['--set', 'fan.rotorParts=blades apart', '--set', 'fan.bladeCount=5'];
const RUNS = ['--run', '10', '--run', '7:0.05:8:0', '--run', '12:0.05:8:120', '--run', '18:0.05:8:240'];

describe('balance', () => {
  it('says what the grade permits, what the printer leaves and what it shakes with', () => {
    const { code, out, err } = child('balance', scout);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    for (const text of [
      'Grade G 16',
      'As printed, expect',
      'At hover',
      "the motor's own unbalance",
      '--card',
    ])
      expect(out).toContain(text);
    expect(out).not.toMatch(/NaN|Infinity|undefined|unlimited/);
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(96);
  });

  it('takes the grade, and draws that agree with the closed form', async () => {
    const plain = await figures();
    const fine = await figures('--grade', '6.3', '--draws', '20000');
    expect(fine.balance.permissible_gmm / plain.balance.permissible_gmm).toBeCloseTo(6.3 / 16, 9);
    expect(plain.drawn).toBeNull();
    expect(fine.drawn.mean_gmm / fine.balance.expected_gmm.value).toBeGreaterThan(0.98);
    expect(fine.drawn.mean_gmm / fine.balance.expected_gmm.value).toBeLessThan(1.02);
  });

  it('orders weighed blades', async () => {
    const { order, orderFault } = await figures(...APART, '--blades', '0.312,0.298,0.305,0.320,0.301');
    expect(orderFault).toBeNull();
    expect(order.order).toHaveLength(5);
    expect(order.after_gmm).toBeLessThan(order.before_gmm / 2);
    const { out } = await balance(...APART, '--blades', '0.312,0.298');
    expect(out).toContain('There are 2 masses for 5 blades');
  });

  it('reads runs from options and from a table alike', async () => {
    const typed = await figures(...RUNS);
    expect(typed.trial.method).toBe('without phase');
    expect(typed.trial.correction.angle_deg).toBeGreaterThan(38);
    expect(typed.trial.correction.angle_deg).toBeLessThan(44);
    writeFileSync(
      at('runs.csv'),
      '# read on the bench\namplitude;trialMass_g;trialRadius_mm;trialAngle_deg\n10,0;0;;\n7;0,05;8;0\n12;0,05;8;120\n18;0,05;8;240\n',
    );
    const read = await figures('--runs', at('runs.csv'));
    expect(read.trial.correction).toEqual(typed.trial.correction);
    const phased = await figures('--run', '3.4:0:0:0:116', '--run', '1.8:2:10:0:42');
    expect(phased.trial.method).toBe('with phase');
  });

  it('prints a card with its cautions before the work', async () => {
    const { out } = await balance('--card');
    expect(out.indexOf('Eye protection')).toBeGreaterThan(0);
    expect(out.indexOf('Eye protection')).toBeLessThan(out.indexOf('The work'));
    expect(out).toContain('Local rules');
    expect(out).toContain('______');
    expect((await balance(...APART, '--card')).out).toContain('blade 5 ______ g');
  });

  it.each([
    [['--blades', '0.3,x'], 'mass 2 is "x"'],
    [['--run', '10:1'], 'must be the vibration alone'],
    [['--run', '-3'], '--run'],
    [['--grade', '0'], '--grade is 0'],
    [['--run', '1', '--runs', 'a.csv'], 'not both'],
    [['--runs', 'nowhere.csv'], 'nowhere.csv'],
  ])('refuses %j in one sentence', async (args, words) => {
    const { code, out, err } = await balance(...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(words);
    expect(err.trim().split('\n')).toHaveLength(1);
  });

  it('says where a table of runs fails', async () => {
    writeFileSync(at('bad.csv'), 'amplitude,trialMass_g\n10,0\n7,heavy\n');
    const { code, err } = await balance('--runs', at('bad.csv'));
    expect(code).toBe(2);
    expect(err).toContain('Line 3: trialMass_g is "heavy"');
  });
});
