import tapAddress from './tap.worklet.js?url&no-inline';

/** A microphone that is listened to. */
export interface Listening {
  readonly sampleRate: number;
  /** What was heard so far, the last `seconds` of it; all where left out. */
  readonly heard: (seconds?: number) => Float32Array;
  /** Lets the microphone go. */
  readonly stop: () => void;
}

export type Opened =
  { readonly ok: true; readonly listening: Listening } | { readonly ok: false; readonly message: string };

/** Longer takes forget their beginning [s]. */
export const LONGEST_TAKE_S = 60;

/**
 * Asks for the microphone and listens. What phones do for voices (cancelling echo and noise, evening the gain) is switched
 * off, as it takes fans for noise. The sound stays in this page.
 */
export async function openMicrophone(): Promise<Opened> {
  const no = (message: string): Opened => ({ ok: false, message });
  if (!navigator.mediaDevices?.getUserMedia)
    return no(
      'This browser gives no microphone to a page that comes over a plain connection; open the page on the machine it runs on, or record with the phone and open the file here.',
    );
  let stream: MediaStream;
  try {
    stream = await navigator.mediaDevices.getUserMedia({
      audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false, channelCount: 1 },
    });
  } catch (error) {
    const name = error instanceof DOMException ? error.name : '';
    return no(
      name === 'NotAllowedError'
        ? 'The browser was not allowed to use the microphone; allow it for this page in the address bar, or open a recording.'
        : name === 'NotFoundError'
          ? 'There is no microphone on this machine; open a recording instead.'
          : 'The microphone could not be opened; another program may hold it. Open a recording instead.',
    );
  }
  const context = new AudioContext();
  const letGo = () => {
    for (const track of stream.getTracks()) track.stop();
    void context.close();
  };
  try {
    await context.audioWorklet.addModule(tapAddress);
    await context.resume();
  } catch (error) {
    letGo();
    console.error(error);
    return no('This browser cannot hand the sound on; record with the phone and open the file here.');
  }
  const blocks: Float32Array[] = [];
  const tap = new AudioWorkletNode(context, 'tap', { numberOfOutputs: 0 });
  const { sampleRate } = context;
  tap.port.onmessage = ({ data }: MessageEvent<Float32Array>) => {
    blocks.push(data);
    if (blocks.length * data.length > LONGEST_TAKE_S * sampleRate) blocks.shift();
  };
  context.createMediaStreamSource(stream).connect(tap);
  return {
    ok: true,
    listening: { sampleRate, heard: (seconds) => joined(blocks, seconds, sampleRate), stop: letGo },
  };
}

function joined(blocks: readonly Float32Array[], seconds: number | undefined, rate: number): Float32Array {
  const each = blocks[0]?.length ?? 1;
  const wanted = seconds === undefined ? blocks.length : Math.ceil((seconds * rate) / each);
  const last = blocks.slice(-wanted);
  const out = new Float32Array(last.length * each);
  last.forEach((block, i) => out.set(block, i * each));
  return out;
}
