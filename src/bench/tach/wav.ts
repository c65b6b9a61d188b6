/** A recording from a WAV file, its channels mixed to one. */
export type WavRead =
  | {
      readonly ok: true;
      readonly samples: Float32Array;
      readonly sampleRate: number;
      readonly channels: number;
      /** Share of samples at full scale, where the recording is cut off. */
      readonly clipped: number;
    }
  | { readonly ok: false; readonly message: string };

/** Longest recording taken [samples of one channel]: half an hour at 48 kHz. */
const MOST_SAMPLES = 48_000 * 1800;

const PCM = 1;
const FLOAT = 3;
const EXTENSIBLE = 0xfffe;

type Sampler = (view: DataView, at: number) => number;

/** How a sample of so many bytes becomes a number from -1 to 1. 8 bits count from 0, the others are signed. */
const SAMPLERS: Readonly<Record<string, Sampler>> = {
  '1/8': (view, at) => view.getUint8(at) / 128 - 1,
  '1/16': (view, at) => view.getInt16(at, true) / 32_768,
  '1/24': (view, at) => ((view.getInt8(at + 2) << 16) | view.getUint16(at, true)) / 8_388_608,
  '1/32': (view, at) => view.getInt32(at, true) / 2_147_483_648,
  '3/32': (view, at) => view.getFloat32(at, true),
  '3/64': (view, at) => view.getFloat64(at, true),
};

const no = (message: string): WavRead => ({ ok: false, message });

/**
 * Reads a WAV file (RIFF; Microsoft and IBM, Multimedia Programming Interface and Data Specifications 1.0, 1991, with the
 * extensible format): PCM of 8, 16, 24 and 32 bits, floating point of 32 and 64. A length that was never filled in, as in a
 * recording broken off, is taken as up to the end. Total: any bytes give a recording or one sentence.
 */
export function readWav(bytes: Uint8Array): WavRead {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tag = (at: number) => String.fromCharCode(...bytes.subarray(at, at + 4));
  if (bytes.length < 12 || !['RIFF', 'RF64'].includes(tag(0)) || tag(8) !== 'WAVE')
    return no(
      'This is no WAV file; save the recording as WAV (PCM), or open it on the page, which reads what the browser plays.',
    );
  let format: Format | null = null;
  for (let at = 12; at + 8 <= bytes.length;) {
    const stated = view.getUint32(at + 4, true);
    const from = at + 8;
    const length = Math.min(stated, bytes.length - from);
    if (tag(at) === 'fmt ') {
      const read = readFormat(view, from, length);
      if (typeof read === 'string') return no(read);
      format = read;
    } else if (tag(at) === 'data') {
      if (!format) return no('The sound comes before its format in this WAV file; save it again.');
      return readSound(view, from, stated === 0 ? bytes.length - from : length, format);
    }
    // Chunks begin at even places.
    at = from + stated + (stated & 1);
  }
  return no('The WAV file holds no sound; it may have been cut off.');
}

interface Format {
  readonly kind: string;
  readonly channels: number;
  readonly sampleRate: number;
  readonly bytesEach: number;
  readonly block: number;
}

function readFormat(view: DataView, at: number, length: number): Format | string {
  if (length < 16) return 'The format of the WAV file is cut off.';
  let code = view.getUint16(at, true);
  const channels = view.getUint16(at + 2, true);
  const sampleRate = view.getUint32(at + 4, true);
  const block = view.getUint16(at + 12, true);
  const bits = view.getUint16(at + 14, true);
  if (code === EXTENSIBLE && length >= 26) code = view.getUint16(at + 24, true);
  const kind = `${code}/${bits}`;
  if (!(kind in SAMPLERS)) {
    const named = code === PCM || code === FLOAT ? `${bits} bits a sample` : `compression ${code}`;
    return `The WAV file has ${named}; PCM of 8, 16, 24 or 32 bits and floating point of 32 or 64 are read.`;
  }
  if (channels < 1 || channels > 64) return `The WAV file has ${channels} channels; 1 to 64 are read.`;
  if (sampleRate < 4000 || sampleRate > 400_000)
    return `The WAV file has ${sampleRate} samples a second; 4000 to 400 000 are read.`;
  const bytesEach = bits / 8;
  if (block !== channels * bytesEach)
    return `The WAV file says ${block} bytes for ${channels} samples of ${bits} bits; it is damaged.`;
  return { kind, channels, sampleRate, bytesEach, block };
}

function readSound(view: DataView, from: number, length: number, format: Format): WavRead {
  const { channels, sampleRate, bytesEach, block } = format;
  const count = Math.floor(length / block);
  if (count === 0) return no('The WAV file holds no sound; it may have been cut off.');
  if (count > MOST_SAMPLES)
    return no(
      `The recording lasts ${Math.round(count / sampleRate / 60)} min; up to ${Math.floor(MOST_SAMPLES / sampleRate / 60)} min are taken.`,
    );
  const sample = SAMPLERS[format.kind];
  const samples = new Float32Array(count);
  let clipped = 0;
  for (let i = 0, at = from; i < count; i++) {
    let sum = 0;
    for (let c = 0; c < channels; c++, at += bytesEach) {
      const value = sample(view, at);
      // A float file may hold what is no number; silence does no harm there.
      if (value > -1e6 && value < 1e6) sum += value;
      if (value >= 0.9999 || value <= -0.9999) clipped++;
    }
    samples[i] = sum / channels;
  }
  return { ok: true, samples, sampleRate, channels, clipped: clipped / (count * channels) };
}

/** A WAV file of 16 bits, one channel, from samples within -1 to 1. */
export function writeWav(samples: ArrayLike<number>, sampleRate: number): Uint8Array {
  const bytes = new Uint8Array(44 + 2 * samples.length);
  const view = new DataView(bytes.buffer);
  const put = (at: number, text: string) => {
    for (let i = 0; i < 4; i++) bytes[at + i] = text.charCodeAt(i);
  };
  put(0, 'RIFF');
  view.setUint32(4, bytes.length - 8, true);
  put(8, 'WAVE');
  put(12, 'fmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, PCM, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, 2 * sampleRate, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  put(36, 'data');
  view.setUint32(40, 2 * samples.length, true);
  for (let i = 0; i < samples.length; i++)
    view.setInt16(44 + 2 * i, Math.round(Math.max(-1, Math.min(1, samples[i])) * 32_767), true);
  return bytes;
}
