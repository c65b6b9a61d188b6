import { intervalFrom, type Interval } from '../quantities/interval.ts';
import { DUCT_HALF_WIDTH_DB, isTone, PART_HALF_WIDTHS_DB } from './craft-sound.ts';
import { levelOf } from './levels.ts';
import { PARTS, type Part, type SoundAt } from './types.ts';

/**
 * How much of a part's error two designs share: the same formulas, constants and habits are wrong in the same direction for
 * both. An estimate, no source; what is left, sqrt(1 - 0.8^2) = 0.6 of each half-width, is taken as each design's own.
 */
export const SHARED = 0.8;

/** Direction and posture change the difference of two like craft by less than their levels [dB, 90 %]. Estimate. */
const DIRECTION_DB = 1.5;

/** A sound with how many fans make it and whether they stand in ducts. */
export interface Heard {
  readonly at: SoundAt;
  readonly fans: number;
  readonly ducted: boolean;
}

/**
 * A-weighted level of `b` less that of `a` [dB] with its 90 % interval. Each part's error is moved once in both designs together
 * (0.8 of its half-width) and once in either alone (0.6); the duct's error on tones in both where both have ducts, else in the
 * one that has. Where the same part rules both designs, most of its error falls out of the difference.
 */
export function levelDifference(a: Heard, b: Heard): Interval {
  type Shift = (part: Part) => number;
  const none: Shift = () => 0;
  const level = ({ at, fans }: Heard, shift: Shift) =>
    levelOf(PARTS.reduce((sum, p) => sum + at.energies.weighted[p] * 10 ** (shift(p) / 10), 0)) +
    10 * Math.log10(fans);
  const difference = (ofA: Shift, ofB: Shift) => level(b, ofB) - level(a, ofA);
  const value = difference(none, none);
  const own = Math.sqrt(1 - SHARED ** 2);
  const swings: [number, number][] = [[value - DIRECTION_DB, value + DIRECTION_DB]];
  const swing = (touched: (part: Part) => boolean, half: number, inA: boolean, inB: boolean) => {
    const by =
      (size: number): Shift =>
      (p) =>
        touched(p) ? size : 0;
    const moved = (size: number) => difference(inA ? by(size) : none, inB ? by(size) : none);
    swings.push([moved(-half), moved(half)]);
  };
  const each = (touched: (part: Part) => boolean, half: number) => {
    swing(touched, SHARED * half, true, true);
    swing(touched, own * half, true, false);
    swing(touched, own * half, false, true);
  };
  for (const part of PARTS) each((p) => p === part, PART_HALF_WIDTHS_DB[part]);
  if (a.ducted && b.ducted) each(isTone, DUCT_HALF_WIDTH_DB);
  else if (a.ducted || b.ducted) swing(isTone, DUCT_HALF_WIDTH_DB, a.ducted, b.ducted);
  return intervalFrom(value, swings);
}
