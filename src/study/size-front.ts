import type { SizeDesign } from './size-types.ts';

/** More is better in each: minutes, thrust over weight, and the outer width and tip speed turned round. */
const merits = (d: SizeDesign): readonly number[] => [
  d.hover_min,
  d.thrustToWeight,
  -d.outerWidth_mm,
  -(d.tipSpeed_mps ?? Infinity),
];

/** Differences smaller than this are none: a front of near copies helps nobody. As shares of the value. */
const SAME = 1e-3;

function beats(a: readonly number[], b: readonly number[]): boolean {
  let better = false;
  for (let i = 0; i < a.length; i++) {
    const slack = SAME * Math.abs(b[i]);
    if (a[i] < b[i] - slack) return false;
    if (a[i] > b[i] + slack) better = true;
  }
  return better;
}

/**
 * The designs that none of the others beats: at least as good in minutes, thrust over weight, outer width and tip speed in
 * hover, and better in one. Longest hover first; of equals the earlier stays.
 */
export function frontOf(designs: readonly SizeDesign[]): SizeDesign[] {
  const rows = designs.map((design) => ({ design, merit: merits(design) }));
  return rows
    .filter(({ merit }) => !rows.some((other) => beats(other.merit, merit)))
    .map(({ design }) => design)
    .sort((a, b) => b.hover_min - a.hover_min);
}

/**
 * A handful of a front that still spans it: the best in each of the four respects, then each time the one farthest from all
 * chosen, every respect measured over its range. Longest hover first.
 */
export function spreadOf(front: readonly SizeDesign[], count: number): SizeDesign[] {
  if (front.length <= count) return [...front];
  const all = front.map(merits);
  const low = all[0].map((_, i) => Math.min(...all.map((m) => m[i])));
  const range = low.map((least, i) => Math.max(...all.map((m) => m[i])) - least || 1);
  const scaled = all.map((m) => m.map((value, i) => (value - low[i]) / range[i]));
  const chosen = new Set<number>();
  for (let i = 0; i < low.length && chosen.size < count; i++)
    chosen.add(scaled.reduce((best, m, at) => (m[i] > scaled[best][i] ? at : best), 0));
  const nearest = (at: number) =>
    Math.min(...[...chosen].map((c) => Math.hypot(...scaled[c].map((v, i) => v - scaled[at][i]))));
  while (chosen.size < count) {
    const free = scaled.map((_, at) => at).filter((at) => !chosen.has(at));
    chosen.add(free.reduce((a, b) => (nearest(b) > nearest(a) ? b : a)));
  }
  return [...chosen].sort((a, b) => a - b).map((at) => front[at]);
}
