import { describe, expect, it } from 'vitest';
import { makeRecording } from './recordings.ts';
import { toneChange, tonesOf } from './tones.ts';

const RATE = 44_100;
const RPM = 12_000;

/** A sound of sines: pairs of times a turn and amplitude. */
const sines = (parts: readonly (readonly [number, number])[], noise = 1e-4) =>
  Float32Array.from(
    { length: 3 * RATE },
    (_, i) =>
      parts.reduce(
        (sum, [order, a]) => sum + a * Math.sin((2 * Math.PI * order * (RPM / 60) * i) / RATE + order),
        0,
      ) +
      noise * Math.sin(i * i * 0.7),
  );

describe('tonesOf', () => {
  it('gives the power of each tone, whatever stands beside it', () => {
    const { multiples, turns, uneven_dB } = tonesOf(
      sines([
        [5, 0.2],
        [10, 0.1],
        [7, 0.02],
      ]),
      RATE,
      RPM,
      5,
    );
    const level = (a: number) => 10 * Math.log10((a * a) / 2);
    expect(multiples[0].level_dB).toBeCloseTo(level(0.2), 1);
    expect(multiples[1].level_dB).toBeCloseTo(level(0.1), 1);
    expect(multiples[1].relative_dB).toBeCloseTo(-6.02, 1);
    expect(turns.find(({ order }) => order === 7)?.level_dB).toBeCloseTo(level(0.02), 1);
    expect(uneven_dB).toBeCloseTo(10 * Math.log10(0.0004 / 0.05), 1);
    expect(multiples[3].overNoise_dB).toBeLessThan(10);
  });

  it('tells even blades from uneven ones in noise', () => {
    const of = (turns_dB: number | null) =>
      tonesOf(
        makeRecording({
          seed: 2,
          sampleRate: RATE,
          duration_s: 4,
          fans: [{ rpm: () => RPM, blades: 5 }],
          noise_dB: 6,
          turns_dB,
        }),
        RATE,
        RPM,
        5,
      ).uneven_dB;
    expect(of(-10)).toBeGreaterThan(-12);
    expect(of(null) ?? -99).toBeLessThan(-15);
  });

  it('gives the change between two recordings', () => {
    const before = tonesOf(
      sines([
        [5, 0.2],
        [10, 0.1],
      ]),
      RATE,
      RPM,
      5,
    );
    const after = tonesOf(
      sines([
        [5, 0.1],
        [10, 0.1],
      ]),
      RATE,
      RPM,
      5,
    );
    const { multiples } = toneChange(before, after);
    expect(multiples[0].change_dB).toBeCloseTo(-6.02, 1);
    expect(multiples[1].change_dB).toBeCloseTo(0, 1);
  });
});
