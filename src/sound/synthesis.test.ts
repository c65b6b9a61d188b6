import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { readProject } from '../project/read.ts';
import { SAMPLE_RATE, synthesize, wavFile } from './synthesis.ts';

const read = readProject(
  readFileSync(new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url)),
);
if (!read.ok) throw new Error('The example does not read.');
const { hover, full } = assess(read.project).sound;

/** Amplitude at a frequency, by correlation with a sine and a cosine. */
function amplitude(samples: Float32Array, frequency: number): number {
  let [x, y] = [0, 0];
  samples.forEach((s, i) => {
    const phase = (2 * Math.PI * frequency * i) / SAMPLE_RATE;
    x += s * Math.cos(phase);
    y += s * Math.sin(phase);
  });
  return (2 * Math.hypot(x, y)) / samples.length;
}

describe('synthesis', () => {
  const one = synthesize(hover!, 1, 1);

  it('is the same for the same seed and another for another', () => {
    expect(synthesize(hover!, 1, 1)).toEqual(one);
    expect(synthesize(hover!, 1, 1, 2)).not.toEqual(one);
  });

  it('holds the tones where they belong, at their ratio', () => {
    const [a, b] = [3, 4].map((h) => hover!.tones.find((t) => t.harmonic === h)!);
    expect(amplitude(one, a.frequency_Hz)).toBeGreaterThan(20 * amplitude(one, a.frequency_Hz * 1.03));
    const heard = 20 * Math.log10(amplitude(one, a.frequency_Hz) / amplitude(one, b.frequency_Hz));
    expect(Math.abs(heard - (a.level.value - b.level.value))).toBeLessThan(0.5);
  });

  it('plays hover and full throttle equally loud, and stays within the range of a sample', () => {
    for (const at of [hover!, full]) {
      const samples = synthesize(at, 4, 1);
      expect(Math.max(...samples.map(Math.abs))).toBeLessThan(1);
      const tone = at.tones.find((t) => t.harmonic === 3)!;
      const loud = 10 ** ((tone.weighted_dBA - at.overall_dBA.value) / 20) * 0.06 * Math.SQRT2;
      const found = amplitude(synthesize(at, 1, 1), tone.frequency_Hz);
      expect(found / loud).toBeGreaterThan(0.3);
      expect(found / loud).toBeLessThan(1.7);
    }
  });

  it('is a WAV file that says what it is', () => {
    const bytes = wavFile(one, 'Test');
    const text = new TextDecoder('latin1').decode(bytes.slice(0, 120));
    expect(text.slice(0, 4) + text.slice(8, 12)).toBe('RIFFWAVE');
    expect(text).toContain('Test (synthesis, not a recording)');
    const view = new DataView(bytes.buffer);
    expect(view.getUint32(4, true)).toBe(bytes.length - 8);
    const at = text.indexOf('data');
    expect(view.getUint32(at + 4, true)).toBe(2 * one.length);
    expect(bytes.length).toBe(at + 8 + 2 * one.length);
    expect(view.getInt16(at + 8 + 2 * 5000, true)).toBe(Math.round(32767 * one[5000]));
  });
});
