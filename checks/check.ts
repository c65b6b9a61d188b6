/** Where their number comes from: read in the source, recalled, or worked out from numbers that were read. */
export type Status = 'read' | 'from memory' | 'computed';

/** One point of a comparison. */
export interface Point {
  /** Where on the curve or in the table, with its unit: "1000 m". */
  readonly at: string;
  /** The same as a number, for the plot. */
  readonly x?: number;
  readonly ours: number;
  /** Their number; a pair where the source gives only limits. */
  readonly theirs: number | readonly [number, number];
}

/** One thing the outside world measured or tabulated, held against what the tool computes. */
export interface Check {
  readonly id: string;
  /** The quantity in words, as it stands in the table. */
  readonly title: string;
  readonly unit: string;
  /** Full citation. */
  readonly source: string;
  readonly status: Status;
  /** Computes ours and brings theirs; called once. */
  readonly points: () => readonly Point[];
  /** How far off is good enough: relative to theirs, or in the unit. */
  readonly target: { readonly relative: number } | { readonly absolute: number };
  /** Whether the target binds the worst point (usual), or the mean or median size of the error along a curve. */
  readonly judged?: 'worst' | 'mean' | 'median';
  /** Set where the target is known to be missed: why, and a ceiling that keeps it from getting worse. */
  readonly missed?: { readonly why: string; readonly ceiling: number };
  readonly note?: string;
  /** Set for a curve: the axis it is drawn over. */
  readonly axis?: string;
  /** Set for a curve that stands in one of the topic's pictures instead of a plot of its own. */
  readonly inPicture?: boolean;
}

/** One line or one set of circles of a picture. */
export interface Series {
  /** Stands above the picture; empty where another series speaks for it. */
  readonly name: string;
  /** Theirs as circles, ours as a line, a second opinion of ours as a broken line. */
  readonly kind: 'circles' | 'line' | 'broken';
  /** Place in the list of colours. */
  readonly colour: number;
  readonly points: readonly { readonly x: number; readonly y: number }[];
}

/** A drawing of several curves in one frame. */
export interface Picture {
  readonly id: string;
  readonly title: string;
  readonly xLabel: string;
  readonly yLabel: string;
  readonly series: readonly Series[];
}

/** A table of words and numbers that explains a topic's checks. */
export interface Summary {
  readonly title: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** Checks that belong together, with what a reader should know before believing them. */
export interface Topic {
  readonly id: string;
  readonly title: string;
  readonly intro: string;
  readonly checks: readonly Check[];
  readonly pictures?: () => readonly Picture[];
  readonly summaries?: () => readonly Summary[];
}

/** A point with its error: a ratio where the target is relative, in the unit where it is absolute. */
export interface JudgedPoint extends Point {
  readonly error: number;
}

/** What came of a check. Only `met` and `missed, as declared` are in order. */
export interface Outcome {
  readonly check: Check;
  readonly points: readonly JudgedPoint[];
  readonly target: number;
  readonly relative: boolean;
  readonly mean: number;
  readonly median: number;
  readonly worst: number;
  /** The one of the three that the target binds. */
  readonly judged: number;
  readonly verdict:
    | 'met'
    | 'missed, as declared'
    | 'missed, not declared'
    | 'worse than the declared ceiling'
    | 'declared missed, but met';
}

/** Signed distance from theirs; nothing inside a pair of limits. */
function distance(ours: number, theirs: Point['theirs']): { off: number; scale: number } {
  if (typeof theirs === 'number') return { off: ours - theirs, scale: Math.abs(theirs) };
  const [low, high] = theirs;
  if (ours < low) return { off: ours - low, scale: Math.abs(low) };
  if (ours > high) return { off: ours - high, scale: Math.abs(high) };
  return { off: Number.isNaN(ours) ? NaN : 0, scale: 1 };
}

/** Runs a check. A number of ours that is not finite counts as infinitely far off. */
export function judge(check: Check): Outcome {
  const relative = 'relative' in check.target;
  const target = 'relative' in check.target ? check.target.relative : check.target.absolute;
  const points = check.points().map((point) => {
    const { off, scale } = distance(point.ours, point.theirs);
    const error = relative ? off / scale : off;
    return { ...point, error: Number.isNaN(error) ? Infinity : error };
  });
  if (points.length === 0) throw new Error(`The check ${check.id} compares nothing.`);
  const sizes = points.map((point) => Math.abs(point.error));
  const mean = sizes.reduce((sum, size) => sum + size, 0) / sizes.length;
  const worst = Math.max(...sizes);
  const sums = { mean, median: median(sizes), worst };
  const judged = sums[check.judged ?? 'worst'];
  return { check, points, target, relative, ...sums, judged, verdict: verdict(check, judged, target) };
}

/** Middle of a list, or the mean of its two middle ones. */
export function median(list: readonly number[]): number {
  const sorted = list.toSorted((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}

function verdict(check: Check, judged: number, target: number): Outcome['verdict'] {
  if (judged <= target) return check.missed ? 'declared missed, but met' : 'met';
  if (!check.missed) return 'missed, not declared';
  return judged <= check.missed.ceiling ? 'missed, as declared' : 'worse than the declared ceiling';
}
