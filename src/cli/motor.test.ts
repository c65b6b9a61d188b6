import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { motorSchema } from '../project/schema.ts';
import { run } from './run.ts';

const scout = fileURLToPath(
  new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url),
);
async function motor(...args: string[]) {
  let out = '';
  let err = '';
  const code = await run(['motor', ...args], { out: (t) => void (out += t), err: (t) => void (err += t) });
  return { code, out, err };
}
const two = ['--resistance', '190', '--no-load', '3.5:0.26:10500', '--no-load', '7:0.35:21150'];

describe('motor', () => {
  it('prints constants with their intervals and a block for the project file', async () => {
    const { code, out, err } = await motor(...two);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/Speed for each volt +3049 rpm\/V +\(3032 to 3066\)/);
    const block = JSON.parse(`{${/"motor": \{[^}]*\}/.exec(out)![0]}}`) as { motor: Record<string, number> };
    expect(block.motor.noLoadSteady_ratio).toBeCloseTo(0.489, 3);
    expect(motorSchema.partial().safeParse(block.motor).success).toBe(true);
  });

  it('gives the same as JSON, with what is usual for the stator where it is named', async () => {
    const plain = JSON.parse((await motor(...two, '--json')).out);
    expect(plain.typical).toBeNull();
    expect(plain.constants.velocityConstant_rpmPerV.value).toBeCloseTo(3048.93, 2);
    const named = JSON.parse((await motor(...two, '--stator', '13x4', '--json')).out);
    expect(named.constants).toEqual(plain.constants);
    expect(named.motor).toMatchObject(plain.motor);
    expect(named.motor.continuousCurrent_A).toBeGreaterThan(0);
    expect(named.typical.source).toBe('common practice, no source');
  });

  it('reads one no-load reading, a warm winding, and a stator without readings', async () => {
    const one = JSON.parse(
      (await motor('--resistance', '190', '--temperature', '45', '--no-load', '7:0.35:21150', '--json')).out,
    );
    expect(one.constants.resistance_mohm.value).toBeCloseTo(190 / 1.09825, 9);
    expect(one.constants.noLoadSteady_ratio).toBeNull();
    const bare = await motor('--stator', '14x4', '--velocity-constant', '3800');
    expect(bare.out).toMatch(/^Usual for this stator \(an estimate: common practice, no source\)/);
  });

  it('says what binds in a project and whether a larger fan would do', async () => {
    const { code, out } = await motor(scout);
    expect(code).toBe(0);
    expect(out).toMatch(/Along the throttle, battery half charged/);
    expect(out).toMatch(/Yes: this motor can handle a fan up to/);
    const weak = JSON.parse((await motor(scout, '--set', 'motor.continuousCurrent_A=1.5', '--json')).out);
    expect(weak.limits.first.kind).toBe('motor continuous');
    expect(weak.larger.largest).toBeNull();
  });

  it.each([
    [[], /^motor needs readings/],
    [['--resistance', '190'], /needs --no-load V:A:RPM too/],
    [['--no-load', '7:1:3'], /needs --resistance too/],
    [
      ['--resistance', '190', '--no-load', '7:x:3'],
      /^--no-load is "7:x:3"; it must be voltage, current and speed/,
    ],
    [['--resistance', '190', '--no-load', '7:0.35'], /it must be voltage, current and speed/],
    [[...two, '--no-load', '9:0.4:27000'], /noLoad holds 3 readings/],
    [[...two, '--velocity-constant', '3000'], /the readings give it/],
    [['--stator', '14x4'], /^--stator needs --velocity-constant/],
    [['--stator', 'big', '--velocity-constant', '3000'], /diameter and height in mm/],
    [['--stator', '3x3', '--velocity-constant', '3000'], /outside what the estimate knows/],
    [['--velocity-constant', '3000'], /says nothing of a motor/],
    [[scout, '--resistance', '3'], /not both/],
    [['--set', 'fan.bladeCount=3'], /belong to a project/],
    [
      ['--resistance', '190', '--no-load', '7:0.3:21150', '--no-load', '3.5:0.26:22000'],
      /turns faster at more voltage/,
    ],
    [['--resistence', '190'], /see `fanwright motor --help`/],
  ])('refuses in one sentence: %#', async (args, sentence) => {
    const { code, out, err } = await motor(...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/^[^\n]+[.?]\n$/);
    expect(err).toMatch(sentence);
  });
});
