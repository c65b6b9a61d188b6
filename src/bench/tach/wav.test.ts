import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readWav, writeWav } from './wav.ts';

interface Made {
  readonly code: number;
  readonly bits: number;
  readonly channels: readonly (readonly number[])[];
  readonly extensible?: boolean;
  readonly before?: number;
}

/** A WAV file written by hand, apart from the product's own writer. */
function wavOf({ code, bits, channels, extensible = false, before = 0 }: Made): Uint8Array {
  const each = bits / 8;
  const formatLength = extensible ? 40 : 16;
  const extra = before > 0 ? 8 + before + (before & 1) : 0;
  const data = channels[0].length * channels.length * each;
  const bytes = new Uint8Array(12 + extra + 8 + formatLength + 8 + data);
  const view = new DataView(bytes.buffer);
  const text = (at: number, words: string) => [...words].forEach((c, i) => (bytes[at + i] = c.charCodeAt(0)));
  text(0, 'RIFF');
  view.setUint32(4, bytes.length - 8, true);
  text(8, 'WAVE');
  let at = 12;
  if (before > 0) {
    text(at, 'LIST');
    view.setUint32(at + 4, before, true);
    at += extra;
  }
  text(at, 'fmt ');
  view.setUint32(at + 4, formatLength, true);
  view.setUint16(at + 8, extensible ? 0xfffe : code, true);
  view.setUint16(at + 10, channels.length, true);
  view.setUint32(at + 12, 44_100, true);
  view.setUint32(at + 16, 44_100 * each * channels.length, true);
  view.setUint16(at + 20, each * channels.length, true);
  view.setUint16(at + 22, bits, true);
  if (extensible) view.setUint16(at + 32, code, true);
  at += 8 + formatLength;
  text(at, 'data');
  view.setUint32(at + 4, data, true);
  at += 8;
  for (let i = 0; i < channels[0].length; i++)
    for (const channel of channels) {
      const v = channel[i];
      if (code === 3) {
        if (bits === 32) view.setFloat32(at, v, true);
        else view.setFloat64(at, v, true);
      } else if (bits === 8) view.setUint8(at, Math.round(v * 127) + 128);
      else {
        const whole = Math.round(v * (2 ** (bits - 1) - 1));
        for (let b = 0; b < each; b++) bytes[at + b] = Math.floor(whole / 256 ** b) & 255;
      }
      at += each;
    }
  return bytes;
}

const WAVE = Array.from({ length: 50 }, (_, i) => 0.7 * Math.sin(i * 0.7));

describe('readWav', () => {
  for (const [code, bits] of [
    [1, 8],
    [1, 16],
    [1, 24],
    [1, 32],
    [3, 32],
    [3, 64],
  ])
    for (const extensible of [false, true])
      it(`reads ${code === 3 ? 'floating point' : 'PCM'} of ${bits} bits${extensible ? ', extensible' : ''}`, () => {
        const read = readWav(wavOf({ code, bits, channels: [WAVE], extensible, before: 5 }));
        if (!read.ok) throw new Error(read.message);
        expect(read.sampleRate).toBe(44_100);
        expect(read.samples.length).toBe(50);
        read.samples.forEach((v, i) =>
          expect(Math.abs(v - WAVE[i])).toBeLessThan(1.6 / 2 ** (Math.min(bits, 24) - 1)),
        );
      });

  it('mixes channels', () => {
    const read = readWav(
      wavOf({
        code: 3,
        bits: 32,
        channels: [
          [0.5, -0.5],
          [0.25, 0.5],
        ],
      }),
    );
    expect(read.ok && [...read.samples]).toEqual([0.375, 0]);
  });

  it('takes a data length that was never filled in as up to the end', () => {
    const bytes = wavOf({ code: 1, bits: 16, channels: [WAVE] });
    for (const stated of [0, 0xffffffff]) {
      new DataView(bytes.buffer).setUint32(40, stated, true);
      const read = readWav(bytes);
      expect(read.ok && read.samples.length).toBe(50);
    }
  });

  it('tells how much of a recording is cut off at full scale', () => {
    const read = readWav(wavOf({ code: 1, bits: 16, channels: [[1, -1, 0, 0.5]] }));
    expect(read.ok && read.clipped).toBe(0.5);
  });

  it('reads its own writer', () => {
    const read = readWav(writeWav(WAVE, 48_000));
    expect(read.ok && read.sampleRate).toBe(48_000);
    if (read.ok) read.samples.forEach((v, i) => expect(v).toBeCloseTo(WAVE[i], 4));
  });

  it('refuses in one sentence', () => {
    const message = (bytes: Uint8Array) => {
      const read = readWav(bytes);
      return read.ok ? '' : read.message;
    };
    expect(message(new Uint8Array())).toContain('This is no WAV file');
    expect(message(wavOf({ code: 85, bits: 16, channels: [WAVE] }))).toBe(
      'The WAV file has compression 85; PCM of 8, 16, 24 or 32 bits and floating point of 32 or 64 are read.',
    );
    expect(message(wavOf({ code: 1, bits: 16, channels: [WAVE] }).subarray(0, 44))).toContain(
      'holds no sound',
    );
    expect(message(wavOf({ code: 1, bits: 16, channels: [WAVE] }).subarray(0, 20))).toContain('cut off');
  });

  it('never throws: any bytes, and good files with bytes changed', () => {
    const good = wavOf({ code: 1, bits: 24, channels: [WAVE, WAVE], extensible: true });
    const told = (bytes: Uint8Array) => {
      const read = readWav(bytes);
      if (read.ok) expect(read.samples.every(Number.isFinite)).toBe(true);
      else expect(read.message).toMatch(/^[A-Z].*[.]$/);
    };
    fc.assert(fc.property(fc.uint8Array({ maxLength: 300 }), told), { seed: 7, numRuns: 300 });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(good.length - 1), fc.nat(255)), { minLength: 1, maxLength: 6 }),
        fc.nat(good.length),
        (changes, keep) => {
          const bytes = good.slice();
          for (const [at, value] of changes) bytes[at] = value;
          told(bytes);
          told(bytes.subarray(0, keep));
        },
      ),
      { seed: 8, numRuns: 800 },
    );
  });
});
