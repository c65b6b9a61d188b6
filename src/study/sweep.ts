import { checkValue, describePath, getPath, setPath } from '../project/path.ts';
import type { Project } from '../project/schema.ts';
import { formatNumber as n } from '../quantities/format.ts';
import { FIGURES, figuresOf, type Figures, type FiguresOptions } from './figures.ts';

/** One input and the values it takes. */
export interface Vary {
  readonly path: string;
  readonly values: readonly number[];
}

/** A sweep: every value of the first input with every value of the second. Plain data, to be sent to another thread. */
export interface SweepPlan {
  readonly project: Project;
  /** One or two. */
  readonly varies: readonly Vary[];
  readonly options: FiguresOptions;
}

/** Figures of designs `from` up to, not including, `to`; FIGURES.length numbers a design. */
export interface SweepBlock {
  readonly from: number;
  readonly to: number;
  readonly figures: Float64Array;
}

/** More designs than this are refused. */
export const MOST_DESIGNS = 1_000_000;

export type PlanResult =
  { readonly ok: true; readonly plan: SweepPlan } | { readonly ok: false; readonly why: string };

/** `count` values from one end to the other, both among them; whole numbers where the input is one, each once. */
export function evenValues(path: string, from: number, to: number, count: number): readonly number[] {
  const values = Array.from({ length: count }, (_, i) =>
    count === 1 ? from : Number((from + ((to - from) * i) / (count - 1)).toPrecision(12)),
  );
  return describePath(path)?.kind === 'whole number' ? [...new Set(values.map(Math.round))] : values;
}

/** A plan whose every value is allowed, or one sentence why it isn't. */
export function sweepPlan(
  project: Project,
  varies: readonly Vary[],
  options: FiguresOptions = {},
): PlanResult {
  const refuse = (why: string): PlanResult => ({ ok: false, why });
  if (varies.length < 1 || varies.length > 2) return refuse('A sweep varies one or two inputs.');
  if (varies.length === 2 && varies[0].path === varies[1].path)
    return refuse(`${varies[0].path} is varied twice; give two different inputs.`);
  for (const { path, values } of varies) {
    const field = describePath(path);
    // An unknown path, and a value out of range, are told by the project itself.
    for (const value of values.length > 1 ? [values[0], values[values.length - 1]] : values) {
      const error = checkValue(path, value);
      if (error) return refuse(error.message);
    }
    if (!field || (field.kind !== 'number' && field.kind !== 'whole number'))
      return refuse(`${path} is no number and cannot be swept.`);
    if (getPath(project, path) === undefined) return refuse(`${path} is not there in this project.`);
    if (values.length === 0) return refuse(`${path} has no values to take.`);
  }
  const count = varies.reduce((product, v) => product * v.values.length, 1);
  if (count > MOST_DESIGNS)
    return refuse(`That makes ${n(count, 7)} designs; at most ${n(MOST_DESIGNS, 7)} can be swept.`);
  return { ok: true, plan: { project, varies, options } };
}

export const designCount = ({ varies }: SweepPlan): number =>
  varies.reduce((product, v) => product * v.values.length, 1);

/** The values of design number `index`, the last input turning fastest. */
export function valuesAt({ varies }: SweepPlan, index: number): readonly number[] {
  const values: number[] = [];
  let rest = index;
  for (const vary of [...varies].reverse()) {
    values.unshift(vary.values[rest % vary.values.length]);
    rest = Math.floor(rest / vary.values.length);
  }
  return values;
}

/** The project of design number `index`. */
export function designAt(plan: SweepPlan, index: number): Project {
  const values = valuesAt(plan, index);
  return plan.varies.reduce((project, { path }, i) => setPath(project, path, values[i]), plan.project);
}

/** Runs designs `from` up to, not including, `to`. */
export function sweepBlock(plan: SweepPlan, from: number, to: number): SweepBlock {
  const figures = new Float64Array((to - from) * FIGURES.length);
  for (let i = from; i < to; i++) {
    const one = figuresOf(designAt(plan, i), plan.options);
    FIGURES.forEach((key, k) => (figures[(i - from) * FIGURES.length + k] = one[key]));
  }
  return { from, to, figures };
}

/** One design of a block. */
export function figuresIn(block: SweepBlock, index: number): Figures {
  const at = (index - block.from) * FIGURES.length;
  return Object.fromEntries(FIGURES.map((key, k) => [key, block.figures[at + k]])) as unknown as Figures;
}

/**
 * The sweep in blocks, in order, from design number `from`: to stop it, ask for no more; to take it up again, start at the
 * `to` of the last block kept.
 */
export function* sweepBlocks(plan: SweepPlan, from = 0, size = 64): Generator<SweepBlock> {
  const count = designCount(plan);
  for (let at = from; at < count; at += size) yield sweepBlock(plan, at, Math.min(count, at + size));
}
