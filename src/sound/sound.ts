import { craftSound } from './craft-sound.ts';
import { spreading, type Listener } from './levels.ts';
import { modeRows } from './mode-rows.ts';
import type { SoundSource } from './source.ts';
import type { Sound } from './types.ts';
import { BENCH_DISTANCE_M, soundCautions, soundWords, wishAnswer } from './words.ts';

/** Where the brief's wish is asked: 3 m away, the craft low over hard ground. */
export const WISHED_PLACE: Listener = { distance_m: 3, reflectingPlane: true };

/** What the sound of a craft is asked of. */
export interface SoundAsk {
  readonly hover: SoundSource | null;
  /** Whether the drive reaches that point. */
  readonly hovers: boolean;
  readonly full: SoundSource;
  readonly fans: number;
  /** null: none stated */
  readonly wish_dBA: number | null;
  readonly listener?: Listener;
}

/** The sound of a craft in hover and at full throttle, with its words. */
export function soundOf(ask: SoundAsk): Sound {
  const { fans, hovers, wish_dBA, listener = WISHED_PLACE } = ask;
  const full = craftSound(ask.full, fans, listener);
  const hover = ask.hover && craftSound(ask.hover, fans, listener);
  const modes = modeRows(ask.hover ?? ask.full);
  const { distance_m, reflectingPlane } = listener;
  const told = { hover, hovers, full, modes, distance_m, reflectingPlane };
  const shift = (to: Listener) => spreading(to) - spreading(listener);
  const move = (by: number, { value, low, high }: Sound['full']['overall_dBA']) => ({
    value: value + by,
    low: low + by,
    high: high + by,
  });
  const bench = move(shift({ distance_m: BENCH_DISTANCE_M, reflectingPlane: false }), full.overall_dBA);
  const wish =
    wish_dBA === null || !hover
      ? null
      : wishAnswer(move(shift(WISHED_PLACE), hover.overall_dBA), wish_dBA, WISHED_PLACE.distance_m);
  return {
    ...told,
    wish,
    words: [...(wish ? [wish.text] : []), ...soundWords(told, fans)],
    cautions: soundCautions(bench),
  };
}
