import { framePlanOf } from '../craft/frame.ts';
import type { Project } from '../project/schema.ts';
import { fanPlacements } from './assembly-fans.ts';

import type { Placement } from './kind.ts';
import type { MadePart } from './make.ts';
import { presentKinds } from './part.ts';
import { combined } from './placement.ts';

/** Where every copy of a part stands in the craft: 4 by 4, column after column, from the bed [mm]. */
export function craftPlaces(project: Project, part: MadePart): Placement[] {
  const entry = presentKinds(project).find(({ kind }) => kind === part.kind);
  if (entry?.per === 'craft') return [...part.placements];
  const plan = framePlanOf(project);
  return fanPlacements(project, plan)
    .filter(({ hand }) => part.hand === null || hand === part.hand)
    .flatMap(({ placement }) => part.placements.map((place) => combined(placement, place)));
}
