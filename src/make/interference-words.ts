import { formatNumber } from '../quantities/format.ts';
import type { Meeting } from './meeting.ts';

/** What is wrong where two pieces meet, as a sentence with the place; null where nothing is. `touch` [mm] counts as nothing. */
export function fitWords(meeting: Omit<Meeting, 'refused'>, touch: number): string | null {
  const { a, b, gap_mm, gapAtSpeed_mm, at_mm, pairs } = meeting;
  const others = pairs > 1 ? ` (and ${pairs - 1} more such ${pairs === 2 ? 'pair' : 'pairs'})` : '';
  const where = placeWords(at_mm);
  const who = `${capital(a)} and ${b}${others}`;
  if (gap_mm < -touch) return `${who} run into each other by about ${mm(-gap_mm)} mm: ${where}.`;
  if (gap_mm <= 0) return `${who} touch and are not meant to: ${where}.`;
  if (gapAtSpeed_mm !== null && gapAtSpeed_mm <= 0)
    return `${who} are ${mm(gap_mm)} mm apart at rest and touch at full speed, when the rotor has grown: ${where}.`;
  return null;
}

/** A place in the craft in words, its directions as the craft's: forward, to the right, below the mouth of the bore. */
export function placeWords([x, y, z]: readonly [number, number, number]): string {
  const part = (value: number, ahead: string, behind: string) =>
    Math.abs(value) < 0.05 ? '' : `${mm(Math.abs(value), 3)} mm ${value < 0 ? behind : ahead}`;
  const across = [part(x, 'ahead', 'behind'), part(y, 'right', 'left')].filter(Boolean).join(' and ');
  const height = part(z, 'below', 'above');
  return `${across ? `${across} of the middle` : 'in the middle'}, ${height ? `${height} the lower edge of the lip` : 'where lip and bore meet'}`;
}

const mm = (value: number, figures = 2): string => formatNumber(value, figures);
const capital = (text: string): string => text[0].toUpperCase() + text.slice(1);
