import { seededRandom } from '../../numerics/random.ts';

/**
 * Recordings made of numbers, for the tests of the tachometer and for rigs that are made up whole: every tone of a fan with
 * its disturbers, invented but for the physics. The same seed gives the same sound.
 */
export interface RecordingRequest {
  readonly seed: number;
  readonly sampleRate: number;
  readonly duration_s: number;
  /** Each fan's speed over time [rpm], and blades. */
  readonly fans: readonly {
    readonly rpm: (t_s: number) => number;
    readonly blades: number;
    readonly gain?: number;
  }[];
  /** Power of all tones of the first fan over that of the noise [dB]; null: no noise. */
  readonly noise_dB: number | null;
  /** How the noise falls with pitch: 0 white, 1 pink. */
  readonly pink?: number;
  /** Fall of the blade tone's multiples [dB each], and how far each strays from it (one standard deviation). */
  readonly fall_dB?: number;
  readonly stray_dB?: number;
  /** Level of the tones once a turn below the blade tone [dB]; null: all blades alike. */
  readonly turns_dB?: number | null;
  /** Whine of the motor: multiple of the turn, and level over the blade tone [dB]. */
  readonly whine?: { readonly order: number; readonly level_dB: number } | null;
  /** Mains hum: frequency and level over the blade tone [dB]. */
  readonly hum?: { readonly mains_Hz: number; readonly level_dB: number } | null;
  /** Gain runs up and down by so many dB over the recording. */
  readonly gainDrift_dB?: number;
  /** Speed jitters by this share (one standard deviation, over tenths of a second). */
  readonly jitter?: number;
}

/** Repeatable chance: mulberry32 for the stream, polar-free Box-Muller for the normal. */
export interface Chance {
  readonly uniform: (low?: number, high?: number) => number;
  readonly normal: () => number;
  readonly pick: <T>(list: readonly T[]) => T;
}

export function chanceFrom(seed: number): Chance {
  const { even: next } = seededRandom(seed ^ 0x9e3779b9);
  const uniform = (low = 0, high = 1) => low + (high - low) * next();
  return {
    uniform,
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    pick: (list) => list[Math.min(list.length - 1, Math.floor(next() * list.length))],
  };
}

const fromDecibel = (level: number): number => 10 ** (level / 20);

export function makeRecording(request: RecordingRequest): Float32Array {
  const { sampleRate, duration_s, fans } = request;
  const chance = chanceFrom(request.seed);
  const count = Math.round(sampleRate * duration_s);
  const sound = new Float64Array(count);
  let tonePower = 0;
  fans.forEach((fan, i) => {
    const power = addFan(sound, request, fan, chance);
    if (i === 0) tonePower = power;
  });
  if (request.hum) addHum(sound, sampleRate, request.hum, chance);
  if (request.noise_dB !== null)
    addNoise(
      sound,
      Math.sqrt((tonePower || 1) / fromDecibel(request.noise_dB) ** 2),
      request.pink ?? 0,
      chance,
    );
  const drift = (request.gainDrift_dB ?? 0) / 2;
  const phase = chance.uniform(0, 2 * Math.PI);
  const out = new Float32Array(count);
  let peak = 1e-9;
  for (let i = 0; i < count; i++) {
    sound[i] *= fromDecibel(drift * Math.sin(phase + (2 * Math.PI * i) / count));
    peak = Math.max(peak, Math.abs(sound[i]));
  }
  for (let i = 0; i < count; i++) out[i] = (0.5 * sound[i]) / peak;
  return out;
}

/** Adds the tones of a fan; gives their power. */
function addFan(
  sound: Float64Array,
  request: RecordingRequest,
  { rpm, blades, gain = 1 }: RecordingRequest['fans'][number],
  chance: Chance,
): number {
  const { sampleRate, fall_dB = 5, stray_dB = 3, turns_dB = null, whine = null, jitter = 0 } = request;
  const tones: { order: number; size: number; phase: number }[] = [];
  const add = (order: number, level_dB: number) =>
    tones.push({ order, size: gain * fromDecibel(level_dB), phase: chance.uniform(0, 2 * Math.PI) });
  for (let n = 1; n <= 10; n++)
    add(n * blades, -fall_dB * (n - 1) + (n > 1 ? stray_dB : stray_dB / 2) * chance.normal());
  if (turns_dB !== null)
    for (let k = 1; k <= 3 * blades; k++) if (k % blades !== 0) add(k, turns_dB + 4 * chance.normal());
  if (whine) add(whine.order, whine.level_dB);
  let turn = chance.uniform(0, 2 * Math.PI);
  let wander = 0;
  const keep = Math.exp(-1 / (0.15 * sampleRate));
  const kick = jitter * Math.sqrt(1 - keep * keep);
  const nyquist = sampleRate / 2;
  for (let i = 0; i < sound.length; i++) {
    if (kick > 0) wander = wander * keep + kick * chance.normal();
    const speed = (rpm(i / sampleRate) / 60) * (1 + wander);
    turn += (2 * Math.PI * speed) / sampleRate;
    for (const { order, size, phase } of tones)
      if (order * speed < 0.95 * nyquist) sound[i] += size * Math.sin(order * turn + phase);
  }
  return tones.reduce((sum, { size }) => sum + (size * size) / 2, 0);
}

function addHum(
  sound: Float64Array,
  sampleRate: number,
  { mains_Hz, level_dB }: NonNullable<RecordingRequest['hum']>,
  chance: Chance,
): void {
  const exact = mains_Hz + 0.03 * chance.normal();
  for (let n = 1; n <= 8; n++) {
    const size = fromDecibel(level_dB - 4 * (n - 1) + 4 * chance.normal() + (n % 2 === 0 ? 0 : 2));
    const phase = chance.uniform(0, 2 * Math.PI);
    for (let i = 0; i < sound.length; i++)
      sound[i] += size * Math.sin((2 * Math.PI * n * exact * i) / sampleRate + phase);
  }
}

/** White noise, mixed with noise that falls by 10 dB a decade (sum of first-order filters an octave or so apart). */
export function addNoise(sound: Float64Array, size: number, pink: number, chance: Chance): void {
  const poles = [0.99, 0.963, 0.57].map((pole) => ({ pole, state: 0, gain: 0.1 / Math.sqrt(1 - pole) }));
  const noise = new Float64Array(sound.length);
  let power = 0;
  for (let i = 0; i < noise.length; i++) {
    const white = chance.normal();
    let coloured = 0.05 * white;
    for (const filter of poles) {
      filter.state = filter.pole * filter.state + (1 - filter.pole) * white;
      coloured += filter.gain * filter.state * 10;
    }
    noise[i] = (1 - pink) * white + pink * coloured;
    power += noise[i] ** 2;
  }
  const scale = size / Math.sqrt(power / noise.length);
  for (let i = 0; i < noise.length; i++) sound[i] += scale * noise[i];
}

/** A voice that says nothing: pulses of a wandering pitch through three resonances, in syllables. */
export function makeVoice(seed: number, sampleRate: number, duration_s: number): Float32Array {
  const chance = chanceFrom(seed);
  const out = new Float32Array(Math.round(sampleRate * duration_s));
  const sound = new Float64Array(out.length);
  let at = 0;
  const base = chance.uniform(90, 230);
  while (at < out.length) {
    const length = Math.round(sampleRate * chance.uniform(0.12, 0.35));
    const [from, to] = [base * chance.uniform(0.8, 1.3), base * chance.uniform(0.7, 1.25)];
    const formants = [chance.uniform(300, 800), chance.uniform(900, 2200), chance.uniform(2300, 3200)];
    let turn = 0;
    for (let i = 0; i < length && at + i < out.length; i++) {
      const pitch = from + ((to - from) * i) / length;
      turn += (2 * Math.PI * pitch) / sampleRate;
      const shape = Math.sin((Math.PI * i) / length);
      for (let n = 1; n * pitch < 4000; n++) {
        const level = formants.reduce((sum, f) => sum + 1 / (1 + ((n * pitch - f) / 90) ** 2), 0.02);
        sound[at + i] += shape * level * Math.sin(n * turn);
      }
    }
    at += length + Math.round(sampleRate * chance.uniform(0.02, 0.3));
  }
  addNoise(sound, 0.02, 0.5, chance);
  for (let i = 0; i < out.length; i++) out[i] = 0.2 * sound[i];
  return out;
}
