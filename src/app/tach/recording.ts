import { readWav } from '../../bench/tach/wav.ts';

/** Sound to be analysed, one channel. */
export interface Recording {
  readonly name: string;
  readonly samples: Float32Array;
  readonly sampleRate: number;
}

export type Decoded =
  { readonly ok: true; readonly recording: Recording } | { readonly ok: false; readonly message: string };

const LARGEST_MB = 300;

/** The sound of a file: WAV by our own reader, anything else as far as this browser plays it, channels mixed. */
export async function decodeFile(file: File): Promise<Decoded> {
  if (file.size > LARGEST_MB * 1e6)
    return {
      ok: false,
      message: `${file.name} has ${Math.round(file.size / 1e6)} MB; cut it to a minute or so (${LARGEST_MB} MB are taken).`,
    };
  const bytes = await file.arrayBuffer();
  const wav = readWav(new Uint8Array(bytes));
  if (wav.ok)
    return { ok: true, recording: { name: file.name, samples: wav.samples, sampleRate: wav.sampleRate } };
  try {
    const buffer = await new OfflineAudioContext(1, 1, 48_000).decodeAudioData(bytes);
    const samples = new Float32Array(buffer.length);
    for (let c = 0; c < buffer.numberOfChannels; c++) {
      const channel = buffer.getChannelData(c);
      for (let i = 0; i < samples.length; i++) samples[i] += channel[i] / buffer.numberOfChannels;
    }
    return { ok: true, recording: { name: file.name, samples, sampleRate: buffer.sampleRate } };
  } catch {
    return {
      ok: false,
      message: `${file.name} holds no sound this browser can play; save it as WAV, or record it again.`,
    };
  }
}
