import { create } from 'zustand';
import type { BenchRun } from '../../project/bench.ts';
import type { Build, Project } from '../../project/schema.ts';
import type { ReadKey } from './runs.ts';

/** What stands in the fields of the entry. */
export type Draft = Readonly<Partial<Record<ReadKey, string>>>;

interface Chosen {
  readonly build: string | null;
  readonly run: string | null;
  /** Runs for which the cautions were confirmed on this page. */
  readonly minded: ReadonlySet<string>;
  readonly draft: Draft;
}

/** Which run the bench shows; no part of the project. */
export const useChosen = create<Chosen>()(() => ({ build: null, run: null, minded: new Set(), draft: {} }));

export const choose = (build: string, run: string | null): void => useChosen.setState({ build, run });

export const mind = (key: string): void =>
  useChosen.setState(({ minded }) => ({ minded: new Set([...minded, key]) }));

/** Puts something into the fields of the entry; it stays there whichever stage is shown. */
export const type = (typed: Draft): void =>
  useChosen.setState(({ draft }) => ({ draft: { ...draft, ...typed } }));

export const emptyDraft = (): void => useChosen.setState({ draft: {} });

/** A run and where it stands in the project. */
export interface RunPlace {
  readonly build: Build;
  readonly run: BenchRun;
  /** `builds.0.bench.1` */
  readonly path: string;
  readonly key: string;
}

/** The chosen run; where that is gone, the last run of the last build that has one. */
export function placeOf(project: Project, { build, run }: Pick<Chosen, 'build' | 'run'>): RunPlace | null {
  const at = (b: number, r: number): RunPlace => {
    const owner = project.builds[b];
    return {
      build: owner,
      run: owner.bench[r],
      path: `builds.${b}.bench.${r}`,
      key: `${owner.id} ${owner.bench[r].id}`,
    };
  };
  const b = project.builds.findIndex(({ id }) => id === build);
  const chosen = b < 0 ? -1 : project.builds[b].bench.findIndex(({ id }) => id === run);
  if (chosen >= 0) return at(b, chosen);
  if (b >= 0 && project.builds[b].bench.length > 0) return at(b, project.builds[b].bench.length - 1);
  const last = project.builds.findLastIndex(({ bench }) => bench.length > 0);
  return last < 0 ? null : at(last, project.builds[last].bench.length - 1);
}
