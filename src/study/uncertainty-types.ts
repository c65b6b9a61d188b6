import type { Interval } from '../quantities/interval.ts';
import type { Unknown, UnknownId } from './unknowns.ts';

/** The answers that get an interval, in the order they are told. */
export const ANSWERS = ['thrustToWeight', 'hoverThrottle', 'hover_min', 'mass_g', 'speedMargin'] as const;
export type AnswerId = (typeof ANSWERS)[number];

/** How much of an answer's spread one unknown brings. */
export interface Driver {
  readonly id: UnknownId;
  readonly name: string;
  /** Share of the variance it brings by itself, 0 to 1. */
  readonly first: number;
  /** The same with everything it does together with others. */
  readonly total: number;
  /** What the interval's width shrinks by where its spread is halved, 0 to 1; null where not tried (the smaller ones). */
  readonly halved: number | null;
}

export interface Uncertainty {
  readonly samples: number;
  readonly seed: number;
  readonly unknowns: readonly Unknown[];
  /** Median with the 5 and 95 % points; null where fewer than 9 in 10 draws have the answer. */
  readonly answers: Readonly<Record<AnswerId, Interval | null>>;
  /** Chances, 0 to 1. */
  readonly chances: {
    readonly lifts: number;
    /** Hovers as long as the brief wants. */
    readonly minutes: number;
    /** Full throttle stays within the safety factor. */
    readonly strength: number;
    readonly all: number;
  };
  /** Largest total share first. */
  readonly drivers: Readonly<Record<AnswerId, readonly Driver[]>>;
  readonly words: readonly string[];
}
