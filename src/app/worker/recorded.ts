import { ANY_SPEED, tachometer } from '../../bench/tach/tach.ts';
import { tonesOf, type Tones } from '../../bench/tach/tones.ts';
import { tachWords, unevenWords } from '../../bench/tach/words.ts';

/** What a recording shows, in words and as tones; null: no fan was found in it. */
export interface Recorded {
  readonly words: readonly string[];
  readonly tones: Tones | null;
}

/** Speed looked for above full throttle as reckoned: a fuller battery, and the spread of motors. */
const FASTER = 1.15;

/** Finds the fan in a recording and its tones; `full_rpm` null: any speed. */
export function recordedTones(
  samples: Float32Array,
  sampleRate: number,
  blades: number,
  full_rpm: number | null,
): Recorded {
  const high = full_rpm === null ? ANY_SPEED.high : Math.min(ANY_SPEED.high, FASTER * full_rpm);
  const expect_rpm = { low: Math.min(ANY_SPEED.low, high / 2), high };
  const result = tachometer({ samples, sampleRate, blades, expect_rpm });
  const words = tachWords(result, blades);
  if (result.rpm === null) return { words, tones: null };
  const tones = tonesOf(samples, sampleRate, result.rpm, blades);
  const uneven = unevenWords(tones);
  return { words: uneven === null ? words : [...words, uneven], tones };
}
