import { useEffect } from 'react';
import type { Project } from '../../project/schema.ts';
import { useApp } from '../state/store.ts';
import { useAsked, type Asked } from './useAsked.ts';

/** Stillness after an edit before a worker is asked again [ms]. */
const IDLE_MS = 500;

/** A question about the project that is put again whenever the hands rest. `solved`: the answer is of this very project. */
export function useResting<Out>(
  run: (project: Project) => Promise<Out>,
  project: Project,
): Asked<Project, Out> & { readonly solved: boolean } {
  const [asked, ask] = useAsked(run);
  const dragging = useApp((s) => s.dragging !== null);
  const solved = asked.answer?.input === project;
  useEffect(() => {
    if (dragging || solved) return undefined;
    const timer = setTimeout(() => ask(project), IDLE_MS);
    return () => clearTimeout(timer);
  }, [project, dragging, solved, ask]);
  return { ...asked, solved };
}
