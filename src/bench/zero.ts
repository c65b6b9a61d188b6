import type { BenchRow, BenchRun } from '../project/bench.ts';
import { GRAVITY } from '../quantities/constants.ts';
import { together } from './errors.ts';
import type { BenchRemark, Zero } from './types.ts';

/** The fans stood still: marked so, or no throttle and no speed. */
export const isAtRest = (row: BenchRow): boolean =>
  row.atRest || (row.throttle === 0 && (row.rpm === null || row.rpm < 60));

export const isUsed = (row: BenchRow): boolean => !row.leftOut && row.scale_g !== null;

/** Whether thrust makes the reading of this rig rise, where nobody says otherwise. */
const USUALLY_RISES: Record<BenchRun['rig']['kind'], boolean> = {
  'craft on the scale': false,
  'fan lifting off': false,
  'fan pressing down': true,
  lever: true,
  'load cell': true,
};

/** Half of the 90 % interval of a reading rounded to steps: 0.45 of one (evenly spread error). */
const STEP_SHARE = 0.45;

export interface ZeroLine {
  readonly zero: Zero;
  /** Reading with the fans at rest at the place of a row [g] */
  at(row: number): number;
}

/**
 * Where the scale stands with the fans at rest, along the run: straight lines between readings at rest, so that drift is
 * taken out; else the mass at rest; else, with the craft on the scale, its mass; else zero.
 * `craftMass_g`: weighed, or the project's.
 */
export function zeroLine(
  run: BenchRun,
  craftMass_g: { readonly value: number; readonly error: number },
  remarks: BenchRemark[],
): ZeroLine {
  const { rig, rows } = run;
  const rests = rows.flatMap((row, i) => (isUsed(row) && isAtRest(row) ? [i] : []));
  const step = STEP_SHARE * rig.scaleResolution_g;
  const fixed = (from: Zero['from'], value: number, error_g: number): ZeroLine => ({
    zero: { from, first_g: value, last_g: value, error_g },
    at: () => value,
  });
  if (rests.length > 0) return throughRests(run, rests, step, remarks);
  if (rig.massAtRest_g !== null) return fixed('mass at rest', rig.massAtRest_g, together(step, 2 * step));
  if (rig.kind === 'craft on the scale') {
    remarks.push({
      weight: 'care',
      path: 'rig.massAtRest_g',
      text: `No reading with the fans at rest; the mass of the craft (${craftMass_g.value.toFixed(0)} g) was taken as the zero. Note the scale before you start: it makes thrust much surer.`,
    });
    return fixed('mass of the craft', craftMass_g.value, together(step, craftMass_g.error));
  }
  remarks.push({
    weight: 'care',
    path: 'rig.massAtRest_g',
    text: 'No reading with the fans at rest; the scale was taken to show zero then. Note it before you start and when you end.',
  });
  return fixed('taken as zero', 0, together(step, 2 * step));
}

function throughRests(
  run: BenchRun,
  rests: readonly number[],
  step: number,
  remarks: BenchRemark[],
): ZeroLine {
  const { rows, rig } = run;
  const timed = rows.every((row) => row.t_s !== null);
  const place = (i: number) => (timed ? rows[i].t_s! : i);
  // Readings at rest one after the other are one knot.
  const knots: { at: number; value: number; last: number; n: number }[] = [];
  for (const i of rests) {
    const knot = knots.at(-1);
    if (knot && knot.last === i - 1) {
      knot.value += (rows[i].scale_g! - knot.value) / ++knot.n;
      knot.at += (place(i) - knot.at) / knot.n;
      knot.last = i;
    } else knots.push({ at: place(i), value: rows[i].scale_g!, last: i, n: 1 });
  }
  const first = knots[0].value;
  const last = knots[knots.length - 1].value;
  const drift = Math.abs(last - first);
  if (knots.length === 1 && rows.length > rests.length + 2)
    remarks.push({
      weight: 'note',
      path: 'rows',
      text: 'One rest only: how far the scale drifted is not known. Read it once more at the end, fans at rest.',
    });
  if (knots.length > 1 && drift > Math.max(3 * rig.scaleResolution_g, 0))
    remarks.push({
      weight: 'note',
      path: 'rows',
      text: `The scale drifted by ${drift.toFixed(1)} g from the first rest to the last; it was taken out along the way.`,
    });
  const unknownDrift = knots.length === 1 ? 2 * step : drift / 4;
  return {
    zero: { from: 'readings at rest', first_g: first, last_g: last, error_g: together(step, unknownDrift) },
    at: (row) => onLine(knots, place(row)),
  };
}

function onLine(knots: readonly { at: number; value: number }[], x: number): number {
  const after = knots.findIndex((knot) => knot.at >= x);
  if (after === 0) return knots[0].value;
  if (after < 0) return knots[knots.length - 1].value;
  const [a, b] = [knots[after - 1], knots[after]];
  return b.at > a.at ? a.value + ((b.value - a.value) * (x - a.at)) / (b.at - a.at) : b.value;
}

/**
 * Thrust of one fan for each gram the reading rises above its zero [N/g], with its sign. A lever or load cell may be
 * hung either way round, so there the readings themselves decide where nobody says; a scale under a fan may not.
 */
export function newtonsPerGram(run: BenchRun, line: ZeroLine, remarks: BenchRemark[]): number {
  const { rig, rows } = run;
  let rises = rig.reading === null ? USUALLY_RISES[rig.kind] : rig.reading === 'rises';
  let change = 0;
  rows.forEach((row, i) => {
    if (isUsed(row) && !isAtRest(row)) change += row.scale_g! - line.at(i);
  });
  const against = rises ? change < 0 : change > 0;
  if (against && rig.reading === null && (rig.kind === 'lever' || rig.kind === 'load cell')) {
    rises = !rises;
    remarks.push({
      weight: 'note',
      path: 'rig.reading',
      text: `The reading ${rises ? 'rises' : 'falls'} as the fan runs; that was taken as thrust. Is the fan blowing the right way?`,
    });
  } else if (against)
    remarks.push({
      weight: 'care',
      path: 'rig.reading',
      text: `The reading ${rises ? 'falls' : 'rises'} as the fan runs, where this rig should see it ${rises ? 'rise' : 'fall'}: thrust comes out negative. Either the rotor blows the wrong way (turned the wrong way round, or upside down), or the rig is another kind than was said.`,
    });
  const sign = rises ? 1 : -1;
  return (sign * rig.leverRatio * GRAVITY * 1e-3) / rig.fansRunning;
}
