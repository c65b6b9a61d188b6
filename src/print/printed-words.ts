import { degreesFromRadians, millimetresFromMetres } from '../quantities/units.ts';
import { formatNumber as n, formatPercent } from '../quantities/format.ts';
import type { PrintedBlade, PrintedStation } from './printed-fan.ts';

const mm = (metres: number): string => `${n(millimetresFromMetres(metres), 2)} mm`;
const atRadius = ({ radius }: PrintedStation): string => `${n(millimetresFromMetres(radius), 3)} mm radius`;

/** A change smaller than this is not worth a word: lengths [m], angles [rad], shares. */
const WORTH = { length: 0.05e-3, angle: 0.005, share: 0.03 };

/** The chord a station loses at both edges [m]; negative where it gains. */
const chordLost = (s: PrintedStation): number => s.lostFront + s.lostBack;

/** What the printer makes of a blade, most serious first; one sentence where nothing is worth a word. */
export function printedWords({ stations, lay }: PrintedBlade): string[] {
  const words: string[] = [];
  const lost = stations.filter((s) => s.lost);
  const kept = stations.filter((s) => !s.lost);
  if (kept.length === 0)
    return ['Nothing of the blade comes out: it is thinner than one line and one layer everywhere.'];
  if (lost.length > 0)
    words.push(
      `From ${atRadius(lost[0])} to ${atRadius(lost[lost.length - 1])} nothing of the blade comes out: it is thinner than what this printer lays down.`,
    );
  const weak = kept.filter((s) => s.weak);
  if (weak.length > 0)
    words.push(
      `${weak.length === kept.length ? 'All along the blade' : `From ${atRadius(weak[0])} to ${atRadius(weak[weak.length - 1])}`} the walls are thinner than the least that comes out whole.`,
    );
  const most = (value: (s: PrintedStation) => number) =>
    kept.reduce((a, b) => (Math.abs(value(b)) > Math.abs(value(a)) ? b : a));
  const short = most((s) => Math.max(0, chordLost(s)));
  if (chordLost(short) > WORTH.length)
    words.push(
      `At ${atRadius(short)} the edges lose ${mm(chordLost(short))} of ${mm(short.drawn.chord)} chord, ${short.lostFront > short.lostBack ? 'most of it at the front' : 'most of it at the back'}.`,
    );
  const blunt = most((s) => s.edgeAdded);
  if (blunt.edgeAdded > WORTH.length)
    words.push(
      `The back edge comes out ${mm(blunt.drawn.edge + blunt.edgeAdded)} thick at ${atRadius(blunt)}, drawn ${mm(blunt.drawn.edge)}.`,
    );
  const turned = most((s) => s.turn);
  if (Math.abs(turned.turn) > WORTH.angle)
    words.push(
      `With the lost edge the chord turns by ${n(degreesFromRadians(Math.abs(turned.turn)), 2)}° ${turned.turn > 0 ? 'steeper' : 'flatter'} at ${atRadius(turned)}.`,
    );
  const thick = most((s) => s.thicknessFactor - 1);
  if (Math.abs(thick.thicknessFactor - 1) > WORTH.share)
    words.push(
      `The blade comes out ${formatPercent(Math.abs(thick.thicknessFactor - 1))} ${thick.thicknessFactor > 1 ? 'thicker' : 'thinner'} at ${atRadius(thick)}.`,
    );
  const stepped = most((s) => s.steps);
  if (stepped.steps > 0.5 * WORTH.length)
    words.push(
      `The layers leave steps ${mm(stepped.steps)} deep on the faces of the blades${lay === 'flat' ? ', as the rotor lies' : ''}.`,
    );
  return words.length > 0 ? words : ['The blade comes out as drawn.'];
}
