import { describe, expect, it } from 'vitest';
import { randomCase } from './cases.ts';
import { addNoise, chanceFrom, makeRecording, makeVoice, type RecordingRequest } from './recordings.ts';
import { tachometer } from './tach.ts';

const RANGE = { low: 3000, high: 40_000 };
const steadyFan = (rpm: number, more: Partial<RecordingRequest> = {}): RecordingRequest => ({
  seed: 3,
  sampleRate: 44_100,
  duration_s: 3,
  fans: [{ rpm: () => rpm, blades: 5 }],
  noise_dB: 0,
  ...more,
});
const hear = (request: RecordingRequest, expect_rpm = RANGE) =>
  tachometer({
    samples: makeRecording(request),
    sampleRate: request.sampleRate,
    blades: request.fans[0].blades,
    expect_rpm,
  });

/** As many as a test has time for; scripts/tach-cases.ts runs more. */
const CASES = 80;

describe('tachometer', () => {
  it(`is within 0.5 % in ${CASES} random cases, with an octave wrong in fewer than one in a hundred`, () => {
    const sure = { count: 0, right: 0 };
    const missed: string[] = [];
    let octaves = 0;
    for (let seed = 0; seed < CASES; seed++) {
      const { request, blades, truth, expect_rpm } = randomCase(seed, 3);
      const samples = makeRecording(request);
      const { rpm, confidence } = tachometer({ samples, sampleRate: request.sampleRate, blades, expect_rpm });
      const error = rpm === null ? NaN : rpm / truth - 1;
      if (!(Math.abs(error) <= 0.005)) missed.push(`seed ${seed}: ${rpm} for ${truth}`);
      if (Math.abs(error) > 0.1) octaves++;
      if (confidence > 0.95) {
        sure.count++;
        if (Math.abs(error) <= 0.005) sure.right++;
      }
    }
    expect(octaves).toBeLessThan(0.01 * CASES);
    expect(missed.length, missed.join('\n')).toBeLessThanOrEqual(0.03 * CASES);
    // What it is sure of is right, and it is sure of most.
    expect(sure.count).toBeGreaterThan(0.75 * CASES);
    expect(sure.right / sure.count).toBeGreaterThan(0.97);
  }, 120_000);

  for (const sampleRate of [44_100, 48_000])
    it(`follows a ramp and gives the steady speed after it, at ${sampleRate} a second`, () => {
      const rpm = (t: number) => Math.min(18_000, 6000 + 6000 * t);
      const {
        rpm: heard,
        track,
        steady,
      } = hear({
        ...steadyFan(0, { sampleRate, duration_s: 5, gainDrift_dB: 12 }),
        fans: [{ rpm, blades: 5 }],
      });
      expect(Math.abs(heard! / 18_000 - 1)).toBeLessThan(0.005);
      expect(steady!.level).toBe(true);
      expect(steady!.from_s).toBeGreaterThan(1.7);
      const ramp = track.filter(({ t_s, confidence }) => t_s > 0.5 && t_s < 1.8 && confidence > 0.5);
      expect(ramp.length).toBeGreaterThan(8);
      for (const point of ramp) expect(Math.abs(point.rpm / rpm(point.t_s) - 1)).toBeLessThan(0.01);
    });

  it('is not taken in by whine louder than the blades, nor by hum', () => {
    const whine = { order: 42, level_dB: 10 };
    for (const hum of [null, { mains_Hz: 50, level_dB: 15 }, { mains_Hz: 60, level_dB: 15 }]) {
      const { rpm, hum_Hz } = hear(steadyFan(13_370, { whine, hum }));
      expect(Math.abs(rpm! / 13_370 - 1)).toBeLessThan(0.005);
      expect(hum_Hz).toBe(hum?.mains_Hz ?? null);
    }
  });

  it('hears a fan whose blade tone is a multiple of the mains', () => {
    const { rpm } = hear(steadyFan(6000, { hum: { mains_Hz: 50, level_dB: 5 } }));
    expect(Math.abs(rpm! / 6000 - 1)).toBeLessThan(0.005);
  });

  it('tells four fans from each other', () => {
    const speeds = [16_140, 15_605, 15_290, 14_770];
    const request = steadyFan(0, { duration_s: 5, noise_dB: 3, jitter: 0.0005 });
    const samples = makeRecording({
      ...request,
      fans: speeds.map((rpm, i) => ({ rpm: () => rpm, blades: 5, gain: 1 - 0.12 * i })),
    });
    const { fans } = tachometer({ samples, sampleRate: 44_100, blades: 5, expect_rpm: RANGE, fans: 4 });
    expect(fans.length).toBe(4);
    fans.forEach(({ rpm }, i) => expect(Math.abs(rpm / speeds[i] - 1)).toBeLessThan(0.002));
    // One fan with unlike blades is one fan.
    const one = makeRecording(steadyFan(15_000, { duration_s: 5, turns_dB: -12 }));
    const alone = tachometer({ samples: one, sampleRate: 44_100, blades: 5, expect_rpm: RANGE, fans: 4 });
    expect(alone.fans.length).toBe(1);
  });

  it('finds nothing where there is nothing: noise, hum, a whistle, silence', () => {
    const found: string[] = [];
    for (let seed = 0; seed < 30; seed++) {
      const c = chanceFrom(seed + 5000);
      const low = c.uniform(2000, 8000);
      const blank = { ...steadyFan(0), seed, fans: [], pink: c.uniform() };
      const whistle = new Float64Array(100_000);
      const pitch = c.uniform(300, 4000);
      whistle.forEach((_, i) => (whistle[i] = Math.sin((2 * Math.PI * pitch * i) / 44_100)));
      addNoise(whistle, 1, 0.5, c);
      const sounds: Readonly<Record<string, Float32Array>> = {
        noise: makeRecording(blank),
        hum: makeRecording({
          ...blank,
          noise_dB: c.uniform(-10, 20),
          hum: { mains_Hz: c.pick([50, 60]), level_dB: 0 },
        }),
        whistle: Float32Array.from(whistle),
      };
      for (const [name, samples] of Object.entries(sounds)) {
        const expect_rpm = { low, high: 5 * low };
        const result = tachometer({
          samples,
          sampleRate: 44_100,
          blades: c.pick([2, 3, 5, 7, 12]),
          expect_rpm,
        });
        if (result.found) found.push(`${name} ${seed}`);
        else expect(result.reason).toBeTruthy();
      }
    }
    // 90 sounds: a few in a hundred would be three.
    expect(found.length, found.join(', ')).toBeLessThanOrEqual(1);
    expect(tachometer({ samples: new Float32Array(90_000), sampleRate: 44_100, blades: 5 }).found).toBe(
      false,
    );
  }, 60_000);

  it('takes voices for no fan', () => {
    let found = 0;
    for (let seed = 0; seed < 30; seed++)
      if (
        tachometer({
          samples: makeVoice(seed, 44_100, 4),
          sampleRate: 44_100,
          blades: [2, 3, 5, 7][seed % 4],
          expect_rpm: { low: 3000, high: 20_000 },
        }).found
      )
        found++;
    expect(found).toBeLessThanOrEqual(1);
  }, 60_000);

  it('says when one tone alone stands out, and when the recording is too short', () => {
    const pure = Float64Array.from({ length: 132_300 }, (_, i) =>
      Math.sin((2 * Math.PI * 1000 * i) / 44_100),
    );
    addNoise(pure, 0.3, 0.5, chanceFrom(1));
    const samples = Float32Array.from(pure);
    const alone = tachometer({ samples, sampleRate: 44_100, blades: 5, expect_rpm: RANGE });
    expect(alone.found).toBe(false);
    expect(alone.reason).toMatch(/^One tone alone stands out \((999|1000|1001) Hz\)/);
    expect(tachometer({ samples: samples.subarray(0, 4000), sampleRate: 44_100, blades: 5 }).reason).toBe(
      'The recording lasts 0.09 s; 0.4 s is the least.',
    );
  });

  it('hears a short recording', () => {
    const { rpm } = hear(steadyFan(12_000, { duration_s: 0.8, noise_dB: 6 }));
    expect(Math.abs(rpm! / 12_000 - 1)).toBeLessThan(0.005);
  });

  it('refuses what cannot be', () => {
    const samples = new Float32Array(90_000);
    expect(() => tachometer({ samples, sampleRate: 44_100, blades: 2.5 })).toThrow('blades is 2.5');
    expect(() => tachometer({ samples, sampleRate: 10, blades: 5 })).toThrow('sampleRate is 10');
    expect(() =>
      tachometer({ samples, sampleRate: 44_100, blades: 5, expect_rpm: { low: 9, high: 3 } }),
    ).toThrow('low must be below high');
  });
});
