import type { Project } from '../project/schema.ts';
import { bestSpace } from './best-space.ts';
import { scoreOf } from './best.ts';
import type { Scored } from './front.ts';

/** The scores of designs given as numbers of the space about `project`: what a thread of a pool does for a search. */
export function scoresOf(project: Project, designs: readonly (readonly number[])[]): Scored[] {
  const { projectAt } = bestSpace(project);
  return designs.map((x) => scoreOf(projectAt(x)));
}
