import type { DesignWish } from '../../study/design.ts';
import { describeField, type FieldFacts } from '../field/describe.ts';
import { readEntry } from '../field/entry.ts';

export type SpeedBy = 'throttle' | 'rpm';
export type Loading = NonNullable<DesignWish['loading']>;

/** What stands in the form, as typed or chosen; `blades` null: as many as the fan has. */
export interface TypedWish {
  readonly loading: Loading;
  readonly speedBy: SpeedBy;
  readonly throttle: string;
  readonly rpm: string;
  readonly blades: string | null;
  readonly lift: string;
}

export type WishNumber = 'throttle' | 'rpm' | 'blades' | 'lift';

export const firstWish: TypedWish = {
  loading: 'printable',
  speedBy: 'throttle',
  throttle: '55',
  rpm: '',
  blades: null,
  lift: '',
};

export const LOADINGS: Readonly<Record<Loading, { readonly name: string; readonly help: string }>> = {
  printable: {
    name: 'what prints well',
    help: 'A chord that runs straight from root to tip, with the load moved outward as far as that saves power.',
  },
  uniform: {
    name: 'uniform',
    help: 'The same pressure rise at every radius: the most even jet, at the price of a wide root.',
  },
  'free vortex': {
    name: 'free vortex',
    help: 'The same swirl times radius everywhere: the air behind the rotor turns evenly, the load sits at the root.',
  },
};

export const wishFacts: Readonly<Record<WishNumber, FieldFacts>> = {
  throttle: {
    label: 'Throttle in hover',
    unit: '%',
    help: 'At which the drive, battery half full, carries the craft.',
    min: 5,
    max: 100,
    whole: false,
    nullable: false,
  },
  rpm: {
    label: 'Speed in hover',
    unit: 'rpm',
    help: 'Speed of the rotor that carries the craft.',
    min: 10,
    max: 200_000,
    whole: false,
    nullable: false,
  },
  blades: describeField('fan.bladeCount'),
  lift: {
    label: 'Lift coefficient',
    unit: '',
    help: 'Of the sections; left free, the one with the least drag.',
    min: 0.05,
    max: 3,
    whole: false,
    nullable: true,
  },
};

export type CheckedWish =
  | { readonly ok: true; readonly wish: DesignWish }
  | { readonly ok: false; readonly wrong: Partial<Record<WishNumber, string>> };

/** The wish, or what is wrong with each number. `blades` are those of the fan in hand. */
export function checkWish(typed: TypedWish, blades: number): CheckedWish {
  const speed = readEntry(typed[typed.speedBy], wishFacts[typed.speedBy]);
  const count = readEntry(typed.blades ?? String(blades), wishFacts.blades);
  const lift = readEntry(typed.lift, wishFacts.lift);
  if (!speed.ok || !count.ok || !lift.ok)
    return {
      ok: false,
      wrong: {
        ...(!speed.ok && { [typed.speedBy]: speed.why }),
        ...(!count.ok && { blades: count.why }),
        ...(!lift.ok && { lift: lift.why }),
      },
    };
  const value = speed.value ?? 0;
  return {
    ok: true,
    wish: {
      loading: typed.loading,
      ...(typed.speedBy === 'throttle' ? { throttle: value / 100 } : { rpm: value }),
      bladeCount: count.value ?? blades,
      ...(lift.value !== null && { lift: lift.value }),
    },
  };
}
