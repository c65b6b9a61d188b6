import { SAMPLE_RATE } from '../../sound/synthesis.ts';

let context: AudioContext | null = null;
let playing: AudioBufferSourceNode | null = null;

/** Stops what plays. */
export function hush(): void {
  playing?.stop();
  playing = null;
}

/** Plays samples once, in place of what plays; `ended` is called when it ends by itself or is stopped. */
export function play(samples: Float32Array<ArrayBuffer>, ended: () => void): void {
  hush();
  context ??= new AudioContext();
  void context.resume();
  const buffer = context.createBuffer(1, samples.length, SAMPLE_RATE);
  buffer.copyToChannel(samples, 0);
  const source = context.createBufferSource();
  source.buffer = buffer;
  source.connect(context.destination);
  source.onended = () => {
    if (playing === source) playing = null;
    ended();
  };
  playing = source;
  source.start();
}

/** The first channel of a recording in whatever form this browser plays; rejects where it can't. */
export async function decoded(bytes: ArrayBuffer): Promise<{ samples: Float32Array; sampleRate: number }> {
  context ??= new AudioContext();
  const buffer = await context.decodeAudioData(bytes);
  return { samples: buffer.getChannelData(0).slice(), sampleRate: buffer.sampleRate };
}
