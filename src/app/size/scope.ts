import { batteries as genericPacks, motors as genericMotors } from '../../project/catalogue.ts';
import type { OwnPart } from '../../project/parts.ts';
import type { Battery, Motor, Project } from '../../project/schema.ts';
import { MOST_CELLS } from '../../study/size.ts';

/** How far a sizing looks; each stays within the most cells one map may have. */
export const SCOPES = {
  tips: 'your motor and battery only',
  near: 'your motor, those among your parts and the four nearest in mass',
  both: 'four motors and four batteries too, your parts first',
  all: 'your motor and every one of your parts and of the list',
} as const;
export type Scope = keyof typeof SCOPES;

const NEIGHBOURS = 4;

/** Motors times batteries that one map holds over the usual eight tip diameters. */
const MOST_PAIRS = Math.floor(MOST_CELLS / 8);

/** The motors and batteries a scope takes in: the project's own first, then those the user keeps, then generic ones. */
export function scopeOf(
  project: Project,
  scope: Scope,
  kept: readonly OwnPart[] = [],
): { readonly motors: readonly Motor[]; readonly batteries: readonly Battery[] } {
  const ownMotors = kept.flatMap((one) => (one.kind === 'motor' ? [one.part] : []));
  const ownPacks = kept.flatMap((one) => (one.kind === 'battery' ? [one.part] : []));
  const motors = listFor(
    project.motor,
    ownMotors,
    genericMotors.map(({ part }) => part),
    {
      tips: { own: 0, all: 0 },
      near: { own: NEIGHBOURS, all: 2 * NEIGHBOURS, generic: NEIGHBOURS },
      both: { own: NEIGHBOURS, all: NEIGHBOURS },
      all: { own: MOST_PAIRS - 1, all: MOST_PAIRS - 1 },
    }[scope],
  );
  const batteries = listFor(
    project.battery,
    ownPacks,
    genericPacks.map(({ part }) => part),
    {
      tips: { own: 0, all: 0 },
      near: { own: 0, all: 0 },
      both: { own: NEIGHBOURS, all: NEIGHBOURS },
      all: { own: 0, all: 0 },
    }[scope],
  );
  return { motors, batteries };
}

interface Most {
  /** Kept parts, all together, and generic ones where fewer. */
  readonly own: number;
  readonly all: number;
  readonly generic?: number;
}

function listFor<T extends Part>(
  present: T,
  kept: readonly T[],
  generic: readonly T[],
  most: Most,
): readonly T[] {
  const own = nearest(kept, [present], present, most.own);
  const left = Math.min(most.all - own.length, most.generic ?? Infinity);
  return [present, ...own, ...nearest(generic, [present, ...own], present, left)];
}

interface Part {
  readonly name: string;
  readonly mass_g: number;
}

const same = (a: Part, b: Part): boolean => a.name === b.name && a.mass_g === b.mass_g;

/** Those nearest to `to` in mass, in the order of the list; what stands in `taken` is not looked at twice. */
function nearest<T extends Part>(list: readonly T[], taken: readonly T[], to: T, most: number): readonly T[] {
  const distance = (part: T) => Math.abs(Math.log(part.mass_g / to.mass_g));
  const others = list.filter((part) => !taken.some((other) => same(part, other)));
  const near = [...others].sort((a, b) => distance(a) - distance(b)).slice(0, Math.max(0, most));
  return others.filter((part) => near.includes(part));
}
