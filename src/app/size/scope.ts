import { batteries, motors } from '../../project/catalogue.ts';
import type { Battery, Motor, Project } from '../../project/schema.ts';

/** How far a sizing looks; each stays within the most cells one map may have. */
export const SCOPES = {
  tips: 'your motor and battery only',
  near: 'your motor and the four nearest to it in mass',
  both: 'the nearest four motors and four batteries too',
  all: 'your motor and every one of the list',
} as const;
export type Scope = keyof typeof SCOPES;

const NEIGHBOURS = 4;

/** The motors and batteries a scope takes in, the project's own first. */
export function scopeOf(
  project: Project,
  scope: Scope,
): { readonly motors: readonly Motor[]; readonly batteries: readonly Battery[] } {
  const all = motors.map(({ part }) => part);
  const packs = batteries.map(({ part }) => part);
  return {
    motors: [
      project.motor,
      ...(scope === 'tips'
        ? []
        : scope === 'all'
          ? without(all, project.motor)
          : nearest(all, project.motor)),
    ],
    batteries: [project.battery, ...(scope === 'both' ? nearest(packs, project.battery) : [])],
  };
}

interface Part {
  readonly name: string;
  readonly mass_g: number;
}

/** A generic part the project already has is not looked at twice. */
function without<T extends Part>(list: readonly T[], own: T): readonly T[] {
  return list.filter((part) => part.name !== own.name || part.mass_g !== own.mass_g);
}

/** The four nearest in mass, in the order of the list. */
function nearest<T extends Part>(list: readonly T[], own: T): readonly T[] {
  const distance = (part: T) => Math.abs(Math.log(part.mass_g / own.mass_g));
  const others = without(list, own);
  const near = [...others].sort((a, b) => distance(a) - distance(b)).slice(0, NEIGHBOURS);
  return others.filter((part) => near.includes(part));
}
