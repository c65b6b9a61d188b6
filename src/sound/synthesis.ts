import { seededRandom } from '../numerics/random.ts';
import { aFactor, THIRD_OCTAVES } from './weighting.ts';
import { meanSquareOf } from './levels.ts';
import type { SoundAt } from './types.ts';

/** Samples a second of a rendering. */
export const SAMPLE_RATE = 44_100;

/** What a rendering is and is not, for whoever hears it. */
export const SYNTHESIS_NOTE =
  'A synthesis from predicted levels, not a recording: it shows pitch and mixture of tones and hiss, not how loud the craft is, nor its flutter in flight.';

/** Sines that stand for a band of noise, and how far fans differ in speed so that they beat as they do in flight. */
const SINES_A_BAND = 24;
const SPEED_SPREAD = 0.004;

/**
 * A predicted sound as samples: each tone once a fan, at speeds a little apart, and each third octave of noise as a cluster of
 * sines at random places and phases. Scaled so that its A-weighted mean square is `reference`^2, the same for any design: two
 * renderings are heard at equal level and differ in kind alone. Plain samples, largest near 1 or below; the same for a seed.
 */
export function synthesize(
  at: SoundAt,
  fans: number,
  seconds: number,
  seed = 1,
  reference = 0.06,
): Float32Array<ArrayBuffer> {
  const random = seededRandom(seed).even;
  const parts: { frequency: number; meanSquare: number }[] = [];
  for (const tone of at.tones) {
    if (tone.frequency_Hz > SAMPLE_RATE / 2.3) continue;
    for (let fan = 0; fan < fans; fan++)
      parts.push({
        frequency: tone.frequency_Hz * (1 + SPEED_SPREAD * (fans > 1 ? (2 * fan) / (fans - 1) - 1 : 0)),
        meanSquare: meanSquareOf(tone.level.value) / fans,
      });
  }
  at.thirdOctaves.forEach(({ broadband_dB }, b) => {
    const { low, high } = THIRD_OCTAVES[b];
    for (let i = 0; i < SINES_A_BAND; i++)
      parts.push({
        frequency: low * (high / low) ** ((i + random()) / SINES_A_BAND),
        meanSquare: meanSquareOf(broadband_dB) / SINES_A_BAND,
      });
  });
  const weighted = parts.reduce((sum, p) => sum + p.meanSquare * aFactor(p.frequency), 0);
  const samples = new Float32Array(Math.round(seconds * SAMPLE_RATE));
  if (!(weighted > 0)) return samples;
  const scale = reference / Math.sqrt(weighted);
  for (const { frequency, meanSquare } of parts) {
    const amplitude = scale * Math.sqrt(2 * meanSquare);
    if (amplitude < 1e-6 || frequency > SAMPLE_RATE / 2.05) continue;
    addSine(samples, frequency, amplitude, 2 * Math.PI * random());
  }
  const fade = Math.min(samples.length / 2, 0.05 * SAMPLE_RATE);
  for (let i = 0; i < fade; i++) {
    samples[i] *= i / fade;
    samples[samples.length - 1 - i] *= i / fade;
  }
  return samples;
}

/** Adds a sine by turning a pointer, which is many times faster than a call of sin a sample. */
function addSine(samples: Float32Array, frequency: number, amplitude: number, phase: number): void {
  const step = (2 * Math.PI * frequency) / SAMPLE_RATE;
  const [cos, sin] = [Math.cos(step), Math.sin(step)];
  let [x, y] = [amplitude * Math.cos(phase), amplitude * Math.sin(phase)];
  for (let i = 0; i < samples.length; i++) {
    samples[i] += y;
    [x, y] = [x * cos - y * sin, x * sin + y * cos];
  }
}

/** Samples as a WAV file of one channel, 16 bits, its title saying that it is a synthesis. Source: RIFF WAVE, PCM. */
export function wavFile(samples: Float32Array, title: string): Uint8Array {
  const name = new TextEncoder().encode(`${title} (synthesis, not a recording)\0`);
  const padded = name.length + (name.length % 2);
  const info = 4 + 8 + padded;
  const data = samples.length * 2;
  const bytes = new Uint8Array(12 + 24 + 8 + info + 8 + data);
  const view = new DataView(bytes.buffer);
  let at = 0;
  const text = (word: string) => {
    for (const letter of word) bytes[at++] = letter.charCodeAt(0);
  };
  const u32 = (value: number) => {
    view.setUint32(at, value, true);
    at += 4;
  };
  const u16 = (value: number) => {
    view.setUint16(at, value, true);
    at += 2;
  };
  text('RIFF');
  u32(bytes.length - 8);
  text('WAVEfmt ');
  u32(16);
  u16(1);
  u16(1);
  u32(SAMPLE_RATE);
  u32(2 * SAMPLE_RATE);
  u16(2);
  u16(16);
  text('LIST');
  u32(info);
  text('INFOINAM');
  u32(name.length);
  bytes.set(name, at);
  at += padded;
  text('data');
  u32(data);
  for (const sample of samples) {
    view.setInt16(at, Math.round(32767 * Math.max(-1, Math.min(1, sample))), true);
    at += 2;
  }
  return bytes;
}
