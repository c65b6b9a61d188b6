import { chanceFrom, type RecordingRequest } from './recordings.ts';

/** One made recording with what is true of it. */
export interface TachCase {
  readonly request: RecordingRequest;
  readonly blades: number;
  /** Speed of the steady part [rpm]. */
  readonly truth: number;
  readonly expect_rpm: { readonly low: number; readonly high: number };
}

/**
 * The random cases the tachometer is held to: 2 to 12 blades, 4000 to 40 000 rpm, noise as loud as all tones together (half
 * of the cases) or less, white to pink; hum, whine, unlike blades, drifting gain; steady, jittering, drifting, after a ramp
 * or a step. The expected range is as wide as a drive leaves it: half and double often lie in it.
 */
export function randomCase(seed: number, duration_s: number): TachCase {
  const c = chanceFrom(seed * 7919 + 13);
  const blades = c.pick([2, 3, 4, 5, 6, 7, 8, 9, 11, 12]);
  const sampleRate = c.pick([44_100, 48_000]);
  const speed = Math.exp(c.uniform(Math.log(4000), Math.log(40_000)));
  const kind = c.pick(['steady', 'jitter', 'ramp', 'step', 'drift']);
  const before = speed * c.uniform(0.5, 1);
  const rise = kind === 'ramp' ? [0, 0.35] : [0.3, 0.4];
  const rpm = (t_s: number): number => {
    const t = t_s / duration_s;
    if (kind === 'drift') return speed * (1 - 0.005 * (t - 0.5));
    if (kind === 'steady' || kind === 'jitter' || t > rise[1]) return speed;
    return before + (speed - before) * Math.max(0, (t - rise[0]) / (rise[1] - rise[0]));
  };
  const whine = c.pick([
    null,
    { order: 6 * c.pick([5, 6, 7]), level_dB: c.uniform(-10, 6) },
    { order: c.pick([5, 6, 7]), level_dB: c.uniform(-14, 0) },
  ]);
  const hum = c.pick([null, { mains_Hz: 50 }, { mains_Hz: 60 }]);
  return {
    blades,
    truth: speed,
    expect_rpm: { low: speed * c.uniform(0.2, 0.6), high: speed * c.uniform(1.15, 2.5) },
    request: {
      seed,
      sampleRate,
      duration_s,
      fans: [{ rpm, blades }],
      noise_dB: c.pick([0, 0, 6, 15]),
      pink: c.pick([0, 0.5, 1]),
      fall_dB: c.uniform(3, 8),
      stray_dB: c.uniform(1, 5),
      turns_dB: c.pick([null, -30, -20, -14]),
      whine: whine && whine.order % blades !== 0 ? whine : null,
      hum: hum && { ...hum, level_dB: c.uniform(-10, 10) },
      gainDrift_dB: c.uniform(0, 12),
      jitter: kind === 'jitter' ? c.uniform(0, 0.003) : 0,
    },
  };
}
