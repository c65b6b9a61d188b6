import { framePlanOf } from '../craft/frame.ts';
import type { Project } from '../project/schema.ts';
import { fanPlacements } from './assembly-fans.ts';

import type { Placement } from './kind.ts';
import type { Made, MadePart } from './make.ts';
import { presentKinds, type PartKind } from './part.ts';
import { combined } from './placement.ts';

const TURNING: readonly PartKind[] = ['rotor', 'blade', 'hub', 'hubCap', 'spinner'];

/** Where every copy of a part stands in the craft: 4 by 4, column after column, from the bed [mm]. */
export function craftPlaces(project: Project, made: Made, part: MadePart): Placement[] {
  const entry = presentKinds(project).find(({ kind }) => kind === part.kind);
  if (entry?.per === 'craft') return [...part.placements];
  const plan = framePlanOf(project);
  const bothHands = made.parts.some(({ hand }) => hand === 'left');
  return fanPlacements(project, plan)
    .filter(({ hand }) => part.hand === null || !bothHands || hand === part.hand)
    .flatMap(({ placement, upright }) =>
      part.placements.map((place) => combined(TURNING.includes(part.kind) ? upright : placement, place)),
    );
}
