import { FIGURES } from './figures.ts';
import { valuesAt, type SweepBlock, type SweepPlan } from './sweep.ts';

/** Heading of the table of a sweep, without an end of line. */
export const sweepHeading = ({ varies }: SweepPlan): string =>
  [...varies.map((v) => v.path), ...FIGURES].join(',');

/** A block as lines of CSV, each with its end; a figure a design does not have is left empty. */
export function sweepLines(plan: SweepPlan, block: SweepBlock): string {
  const lines: string[] = [];
  for (let i = block.from; i < block.to; i++) {
    const at = (i - block.from) * FIGURES.length;
    const cells = Array.from(block.figures.subarray(at, at + FIGURES.length), cell);
    lines.push([...valuesAt(plan, i), ...cells].join(',') + '\n');
  }
  return lines.join('');
}

const cell = (value: number): string => (Number.isFinite(value) ? String(Number(value.toPrecision(8))) : '');

/** Why lines of a table can't be carried on, or how many designs they hold. */
export type TableState =
  { readonly ok: true; readonly done: number } | { readonly ok: false; readonly why: string };

/** How far a table written before has come. Its heading and the inputs of every line must be those of the plan. */
export function tableState(plan: SweepPlan, text: string): TableState {
  const [heading, ...lines] = text.split('\n');
  if (heading !== sweepHeading(plan)) return { ok: false, why: 'its heading is not that of this sweep' };
  // A last line without an end was cut while it was written: it is done again.
  const whole = lines.slice(0, -1);
  for (let i = 0; i < whole.length; i++) {
    const values = whole[i].split(',').slice(0, plan.varies.length).join(',');
    if (values !== valuesAt(plan, i).join(','))
      return { ok: false, why: `its line ${i + 2} is not that of this sweep` };
  }
  return { ok: true, done: whole.length };
}
