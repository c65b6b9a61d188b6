import { differences, type Difference } from '../project/differences.ts';
import type { Project } from '../project/schema.ts';
import { formatMinutes, formatNumber as n } from '../quantities/format.ts';
import { limitsOf, robustFigures, type RobustFigures } from './best.ts';
import { bestSpace } from './best-space.ts';
import { ask, frontOf, searchFrom, tell, type Member, type SearchState } from './optimise.ts';
import type { StudyPool } from './pool/pool.ts';

/** One change of a proposal, with what it is for. */
export interface ProposedChange {
  readonly name: string;
  /** What the change means in the file. */
  readonly differences: readonly Difference[];
  /** What going back on this one alone would cost: low ends of the proposal less those without the change. */
  readonly hover_min: number;
  readonly thrustToWeight: number;
  /** Limits that the proposal keeps and that would be broken without it. */
  readonly needed: readonly string[];
  readonly words: string;
}

export interface BestProposal {
  readonly project: Project;
  readonly figures: RobustFigures;
  readonly changes: readonly ProposedChange[];
}

export interface BestAnswer {
  readonly evaluations: number;
  readonly present: RobustFigures;
  /** Limits the present design breaks. */
  readonly broken: readonly string[];
  /** From the longest hover to the most thrust; empty: no design tried keeps every limit. */
  readonly proposals: readonly BestProposal[];
  /** Of the design nearest to keeping them, where none does: what it still breaks. */
  readonly nearest: { readonly proposal: BestProposal; readonly broken: readonly string[] } | null;
}

/** Designs that live at once. */
export const BEST_SIZE = 40;

/** A search not begun. */
export const bestFrom = (seed = 1): SearchState => searchFrom(seed, BEST_SIZE);

/**
 * The search in rounds from a state, each round's designs shared among the pool: every state it gives may be kept and gone on
 * from later. The same seed gives the same states for any number of cores. It begins at the present design.
 */
export async function* bestRounds(
  project: Project,
  pool: StudyPool,
  from: SearchState,
  evaluations: number,
): AsyncGenerator<SearchState> {
  const { variables, here } = bestSpace(project);
  let state = from;
  while (state.evaluations + state.size <= evaluations) {
    const designs = ask(variables, state, [here]);
    const share = Math.ceil(designs.length / pool.size);
    const tasks = Array.from({ length: Math.ceil(designs.length / share) }, (_, i) =>
      pool.run({
        kind: 'best',
        project,
        designs: designs.slice(i * share, (i + 1) * share),
      }),
    );
    state = tell(state, designs, (await Promise.all(tasks)).flat());
    yield state;
  }
}

/** Proposals shown of a front. */
const SHOWN = 4;

/** What a search has found, as differences from the present design with their reasons. */
export function bestAnswer(project: Project, state: SearchState): BestAnswer {
  const present = robustFigures(project);
  const front = frontOf(state.members).toSorted((a, b) => a.objectives[0] - b.objectives[0]);
  const kept = front.filter((m) => m.violation === 0);
  const nearest = kept.length === 0 && front.length > 0 ? proposalOf(project, front[0]) : null;
  return {
    evaluations: state.evaluations,
    present,
    broken: brokenBy(project, present),
    proposals: spread(kept, SHOWN).map((m) => proposalOf(project, m)),
    nearest: nearest && {
      proposal: nearest,
      broken: brokenBy(nearest.project, nearest.figures),
    },
  };
}

const brokenBy = (project: Project, f: RobustFigures): string[] =>
  limitsOf(project, f)
    .filter(({ over }) => over > 0)
    .map(({ name }) => name);

/** Both ends of a list and evenly from between. */
const spread = <T>(list: readonly T[], count: number): readonly T[] =>
  list.length <= count
    ? list
    : Array.from({ length: count }, (_, i) => list[Math.round((i * (list.length - 1)) / (count - 1))]);

function proposalOf(project: Project, member: Member): BestProposal {
  const { variables, here, projectAt } = bestSpace(project);
  const proposed = projectAt(member.x);
  const figures = robustFigures(proposed);
  const broken = brokenBy(proposed, figures);
  const changes = variables.flatMap((variable, k): ProposedChange[] => {
    const back = projectAt(member.x.with(k, here[k]));
    const found = differences(back, proposed);
    if (found.length === 0) return [];
    const without = robustFigures(back);
    const change = {
      name: variable.name,
      differences: found,
      hover_min: figures.hover_min.low - without.hover_min.low,
      thrustToWeight: figures.thrustToWeight.low - without.thrustToWeight.low,
      needed: brokenBy(back, without).filter((name) => !broken.includes(name)),
    };
    return [{ ...change, words: changeWords(change, variable.name, here[k], member.x[k], back, proposed) }];
  });
  return { project: proposed, figures, changes };
}

/** "tip diameter 62 to 69.1 mm: without it 40 s less hover, 0.21 less thrust over weight" */
function changeWords(
  change: Omit<ProposedChange, 'words'>,
  name: string,
  from: number,
  to: number,
  back: Project,
  proposed: Project,
): string {
  const what = whatChanges(name, from, to, back, proposed);
  if (change.needed.length > 0)
    return `${what}: without it the limit "${change.needed[0]}" would not be kept`;
  const seconds = change.hover_min * 60;
  const parts = [
    ...(Math.abs(seconds) >= 1
      ? [`${formatMinutes(Math.abs(change.hover_min))} ${seconds > 0 ? 'less' : 'more'} hover`]
      : []),
    ...(Math.abs(change.thrustToWeight) >= 0.005
      ? [
          `${n(Math.abs(change.thrustToWeight), 2)} ${change.thrustToWeight > 0 ? 'less' : 'more'} thrust over weight`,
        ]
      : []),
  ];
  return `${what}: ${parts.length > 0 ? `without it ${parts.join(' and ')}` : 'hardly matters'}`;
}

function whatChanges(name: string, from: number, to: number, back: Project, proposed: Project): string {
  switch (name) {
    case 'motor':
    case 'battery':
      return `${name} "${back[name].name}" to "${proposed[name].name}"`;
    case 'blade angle':
      return `${name} everywhere ${to > 0 ? '+' : '−'}${n(Math.abs(to), 2)}°`;
    case 'chord':
    case 'camber':
      return `${name} everywhere ${to > 1 ? '+' : '−'}${n(Math.abs(to - 1) * 100, 2)}\u00a0%`;
    case 'blades':
    case 'vanes':
      return `${name} ${from} to ${to}`;
    default:
      return `${name} ${n(from)} to ${n(to)} mm`;
  }
}
