import { hashedUniform } from '../numerics/hash.ts';
import { MOST_SOBOL_DIMENSIONS, sobolPoints } from '../numerics/sobol.ts';
import { dominates, fittest, ranksOf, type Scored } from './front.ts';

/** One thing that may be chosen. */
export interface Variable {
  readonly name: string;
  readonly low: number;
  readonly high: number;
  /** Whole numbers only, both ends among them. */
  readonly whole: boolean;
}

/** A design that has been run. */
export interface Member extends Scored {
  readonly x: readonly number[];
}

/** Where a search stands. Plain data: kept in a file and read back, it goes on as if it had never stopped. */
export interface SearchState {
  readonly seed: number;
  readonly size: number;
  /** Rounds told so far. */
  readonly round: number;
  readonly evaluations: number;
  readonly members: readonly Member[];
}

/** A search not begun; `size` designs live at once. */
export const searchFrom = (seed: number, size: number): SearchState => ({
  seed,
  size,
  round: 0,
  evaluations: 0,
  members: [],
});

/** Scale of a step and share of variables it moves, drawn anew for each design. Our choice after trials on the test spaces. */
const SCALE = [0.35, 0.9] as const;
const SHARES = [0.1, 0.5, 0.9] as const;

/** How often a step starts from the best design where there is one objective alone. */
const FROM_BEST = 0.35;

/**
 * The designs to run next: in the first round `first` and evenly spread ones, then for each living design one that steps
 * away from others by the difference of two more (differential evolution, rand/1/bin and best/1/bin: Storn and Price, J. Global
 * Optim. 11, 1997, 341-359). Draws are fixed by seed, round and place, so the designs do not depend on who runs them.
 */
export function ask(
  variables: readonly Variable[],
  state: SearchState,
  first: readonly (readonly number[])[] = [],
): number[][] {
  const { seed, size, round, members } = state;
  if (round === 0) {
    const d = Math.min(variables.length, MOST_SOBOL_DIMENSIONS);
    const points = sobolPoints(d, size, seed);
    return Array.from({ length: size }, (_, i) =>
      variables.map((v, k) => {
        if (first[i]) return placed(v, first[i][k]);
        const u = k < d ? points[i * d + k] : hashedUniform(seed, 0, i, k);
        // A whole number gets the same room at the ends as in the middle.
        return placed(
          v,
          v.whole ? v.low - 0.499 + u * (v.high - v.low + 0.998) : v.low + u * (v.high - v.low),
        );
      }),
    );
  }
  const best = bestOf(members);
  return members.map((member, i) => stepped(variables, state, i, member, best));
}

function stepped(
  variables: readonly Variable[],
  { seed, round, members }: SearchState,
  i: number,
  member: Member,
  best: Member | null,
): number[] {
  let drawn = 0;
  const draw = () => hashedUniform(seed, round, i, drawn++);
  const other = () => members[Math.floor(draw() * members.length)];
  const base = best && draw() < FROM_BEST ? best : other();
  const [a, b] = [other(), other()];
  const scale = SCALE[0] + draw() * (SCALE[1] - SCALE[0]);
  const share = SHARES[Math.floor(draw() * SHARES.length)];
  const always = Math.floor(draw() * variables.length);
  return variables.map((v, k) => {
    const moves = draw() < share || k === always;
    if (!moves) return member.x[k];
    let value = base.x[k] + scale * (a.x[k] - b.x[k]);
    // Two designs alike leave no step: a whole number then tries its neighbour now and then.
    if (v.whole && Math.round(value) === Math.round(member.x[k]) && draw() < 0.2)
      value = member.x[k] + (draw() < 0.5 ? -1 : 1);
    // Past an end it comes back part of the way, so that the end itself can be reached but does not gather everything.
    if (value < v.low) value = v.low + (draw() < 0.5 ? 0 : draw() * (member.x[k] - v.low));
    if (value > v.high) value = v.high - (draw() < 0.5 ? 0 : draw() * (v.high - member.x[k]));
    return placed(v, value);
  });
}

const placed = (v: Variable, value: number): number =>
  Math.min(v.high, Math.max(v.low, v.whole ? Math.round(value) : value));

/**
 * The state after the designs of `ask` have been run. One objective: each lives on in the place of its parent where it is no
 * worse. Several: parents and children together, thinned to the front (Kukkonen and Lampinen, GDE3, CEC 2005).
 */
export function tell(
  state: SearchState,
  designs: readonly (readonly number[])[],
  scores: readonly Scored[],
): SearchState {
  const children: Member[] = designs.map((x, i) => ({
    x,
    objectives: scores[i].objectives,
    violation: scores[i].violation,
  }));
  const next = { ...state, round: state.round + 1, evaluations: state.evaluations + children.length };
  if (state.round === 0) return { ...next, members: children };
  const pool: Member[] = [];
  children.forEach((child, i) => {
    const parent = state.members[i];
    if (child.x.every((value, k) => value === parent.x[k]) || dominates(parent, child)) pool.push(parent);
    else if (dominates(child, parent) || child.objectives.length === 1) pool.push(child);
    else pool.push(parent, child);
  });
  return { ...next, members: pool.length > state.size ? fittest(pool, state.size) : pool };
}

/** The best design of a search with one objective; null with several. */
export function bestOf(members: readonly Member[]): Member | null {
  if (members.length === 0 || members[0].objectives.length !== 1) return null;
  return members.reduce((best, m) => (dominates(m, best) ? m : best));
}

/** Designs that no other one beats, each once. */
export function frontOf(members: readonly Member[]): readonly Member[] {
  const seen = new Set<string>();
  return (ranksOf(members)[0] ?? [])
    .map((i) => members[i])
    .filter(({ x }) => !seen.has(x.join()) && seen.add(x.join()));
}

/** Runs a search to about `evaluations` where it stands. Not the way to share it among cores: see `ask` and `tell`. */
export function search(
  variables: readonly Variable[],
  score: (x: readonly number[]) => Scored,
  from: SearchState,
  evaluations: number,
): SearchState {
  let state = from;
  while (state.evaluations + state.size <= evaluations) {
    const designs = ask(variables, state);
    state = tell(state, designs, designs.map(score));
  }
  return state;
}
