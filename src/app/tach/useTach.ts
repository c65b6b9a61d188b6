import { useEffect, useRef, useState } from 'react';
import type { TachRequest } from '../../bench/tach/tach.ts';
import { askTach, type Heard } from './ask.ts';
import { openMicrophone, type Listening } from './microphone.ts';
import { decodeFile, type Recording } from './recording.ts';

export type Ask = Pick<TachRequest, 'blades' | 'expect_rpm' | 'fans'>;

export interface TachState {
  readonly phase: 'idle' | 'asking' | 'listening' | 'working';
  /** The newest answer, and the sound it is about. */
  readonly heard: Heard | null;
  readonly about: string;
  readonly trouble: string | null;
  /** Of what the microphone heard last, 0 to 1. */
  readonly loudness: number;
}

const IDLE: TachState = { phase: 'idle', heard: null, about: '', trouble: null, loudness: 0 };
/** How often the live number is taken, and from how much sound. */
const EVERY_MS = 400;
const LIVE_S = 2;

/** The tachometer's sound: a file or the microphone, analysed in the worker. `ask` is what is known of the fan now. */
export function useTach(ask: Ask) {
  const [state, set] = useState(IDLE);
  const newest = useRef(ask);
  const listening = useRef<Listening | null>(null);
  const take = useRef<Recording | null>(null);
  const patch = (change: Partial<TachState>) => set((old) => ({ ...old, ...change }));

  useEffect(() => {
    newest.current = ask;
  });
  useEffect(
    () => () => {
      listening.current?.stop();
      listening.current = null;
    },
    [],
  );

  async function analyse(recording: Recording, phase: 'idle' | 'listening'): Promise<void> {
    const { samples, sampleRate, name } = recording;
    try {
      const heard = await askTach((at) => at.hear({ samples, sampleRate, ...newest.current }));
      // A live answer that comes after the take has ended is about less than the take.
      if (phase === 'listening' && !listening.current) return;
      patch({ phase, heard, about: name, trouble: null });
    } catch (error) {
      console.error(error);
      patch({ phase, trouble: 'The sound could not be analysed; try a shorter recording.' });
    }
  }

  async function open(file: File): Promise<void> {
    patch({ phase: 'working', trouble: null });
    const decoded = await decodeFile(file);
    if (!decoded.ok) return patch({ phase: 'idle', trouble: decoded.message });
    take.current = decoded.recording;
    await analyse(decoded.recording, 'idle');
  }

  async function listen(): Promise<void> {
    patch({ phase: 'asking', trouble: null });
    const opened = await openMicrophone();
    if (!opened.ok) return patch({ phase: 'idle', trouble: opened.message });
    const now = opened.listening;
    listening.current = now;
    patch({ phase: 'listening', heard: null, about: 'the microphone', loudness: 0 });
    while (listening.current === now) {
      await new Promise((resume) => setTimeout(resume, EVERY_MS));
      if (listening.current !== now) return;
      const samples = now.heard(LIVE_S);
      patch({ loudness: loudnessOf(samples) });
      if (samples.length > 0.6 * now.sampleRate)
        await analyse({ name: 'the microphone', samples, sampleRate: now.sampleRate }, 'listening');
    }
  }

  async function stop(): Promise<void> {
    const now = listening.current;
    if (!now) return;
    listening.current = null;
    const recording = { name: 'the whole take', samples: now.heard(), sampleRate: now.sampleRate };
    now.stop();
    take.current = recording;
    patch({ phase: 'working' });
    await analyse(recording, 'idle');
  }

  /** The same sound once more, for another blade count or range. */
  async function again(): Promise<void> {
    if (!take.current || listening.current) return;
    patch({ phase: 'working' });
    await analyse(take.current, 'idle');
  }

  return { state, open, listen, stop, again };
}

/** Root mean square on a scale of 60 dB. */
function loudnessOf(samples: Float32Array): number {
  const last = samples.subarray(-8192);
  let sum = 0;
  for (const value of last) sum += value * value;
  const level = 10 * Math.log10(sum / Math.max(1, last.length) + 1e-9);
  return Math.min(1, Math.max(0, 1 + level / 60));
}
