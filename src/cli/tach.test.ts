import { writeFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { example, here, workshop } from '../../tests/program.ts';
import { makeRecording } from '../bench/tach/recordings.ts';
import { writeWav } from '../bench/tach/wav.ts';

const scout = example('greenhouse-scout');
const { leave, at } = workshop('tach');
afterAll(leave);

const RPM = 14_200;
const fan = at('fan.wav');
writeFileSync(
  fan,
  writeWav(
    makeRecording({
      seed: 4,
      sampleRate: 48_000,
      duration_s: 3,
      fans: [{ rpm: () => RPM, blades: 5 }],
      noise_dB: 0,
      hum: { mains_Hz: 50, level_dB: 0 },
    }),
    48_000,
  ),
);
const quiet = at('quiet.wav');
writeFileSync(
  quiet,
  writeWav(makeRecording({ seed: 5, sampleRate: 44_100, duration_s: 2, fans: [], noise_dB: 0 }), 44_100),
);
const log = at('log.csv');
writeFileSync(
  log,
  'time_s,acc_x,acc_y,acc_z\n' +
    Array.from({ length: 3000 }, (_, i) => {
      const t = i / 400;
      return [
        t,
        2 * Math.sin(2 * Math.PI * 100 * t),
        0.3 * Math.cos(2 * Math.PI * 100 * t),
        9.81 + 0.1 * Math.sin(i * i),
      ]
        .map((v) => v.toFixed(5))
        .join(',');
    }).join('\n'),
);

describe('tach', () => {
  it('gives found, rpm, confidence and the track as JSON', async () => {
    const { code, out, err } = await here(
      'tach',
      fan,
      '--blades',
      '5',
      '--expect-rpm',
      '4000:30000',
      '--json',
    );
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const { found, rpm, confidence, track } = JSON.parse(out);
    expect(found).toBe(true);
    expect(Math.abs(rpm / RPM - 1)).toBeLessThan(0.005);
    expect(confidence).toBeGreaterThan(0.9);
    expect(Object.keys(track[0])).toEqual(['t_s', 'rpm', 'confidence']);
  });

  it('takes blades and speeds from a project, and says it in words', async () => {
    const { out } = await here('tach', fan, '--project', scout, '--blades', '5', '--tones');
    expect(out).toMatch(/14 (19|20)\d rpm, right with a chance of/);
    expect(out).toContain('Mains hum at 50 Hz was taken away first.');
    expect(out).toContain('(blades x 1)');
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(96);
    expect(out).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('answers "not found" with code 0', async () => {
    const { code, out } = await here('tach', quiet, '--blades', '5', '--json');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ found: false, rpm: null, track: [] });
    expect((await here('tach', quiet, '--blades', '5')).out).toContain('No fan found.');
  });

  it('refuses in one sentence', async () => {
    const refusal = async (...args: string[]) => {
      const { code, out, err } = await here('tach', ...args);
      expect({ code, out }).toEqual({ code: 2, out: '' });
      expect(err).toMatch(/^[^\n]+[.]\n$/);
      return err;
    };
    expect(await refusal(fan)).toContain('Say how many blades the fan has with --blades');
    expect(await refusal(scout, '--blades', '5')).toContain('This is no WAV file');
    expect(await refusal(fan, '--blades', '5', '--expect-rpm', '9000:4000')).toContain('the lower first');
    expect(await refusal(at('none.wav'), '--blades', '5')).toContain('none.wav');
  });
});

describe('shake', () => {
  it('gives the level once a turn, and the run of the balance it makes', async () => {
    const { code, out } = await here('shake', log, '--rpm', '6000');
    expect(code).toBe(0);
    expect(out).toMatch(/2\.0\d m\/s² once a turn at (6000|5999|6001) rpm/);
    expect(out).toMatch(/--run 2\.0\d for the rotor as it came/);
    const { level, unit } = JSON.parse((await here('shake', log, '--rpm', '6000', '--json')).out);
    expect(unit).toBe('m/s2');
    expect(Math.abs(level.value / Math.hypot(2, 0.3) - 1)).toBeLessThan(0.02);
  });

  it('refuses a speed the log cannot hold, and tables that are none', async () => {
    const fast = await here('shake', log, '--rpm', '20000');
    expect(fast.code).toBe(2);
    expect(fast.err).toContain('Run below 10800 rpm, or log faster.');
    expect((await here('shake', scout, '--rpm', '6000')).err).toContain('There is no line of names');
    expect((await here('shake', log)).code).toBe(2);
  });
});
