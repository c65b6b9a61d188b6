import type { Interval } from '../../quantities/interval.ts';
import type { CauseId, CauseSpec } from './causes.ts';
import type { TestId } from './tests.ts';
import type { UnknownId } from './unknowns.ts';

/** One cause as the readings leave it. */
export interface CauseFinding {
  readonly id: CauseId;
  readonly name: string;
  /** Chance that it is at work, alone or beside another. */
  readonly chance: number;
  /** "about 4 to 1" */
  readonly odds: string;
  /** Share of the shortfall it explains if it is at work; null where there is no shortfall. */
  readonly share: Interval | null;
  /** How large it is if it is at work: in the unit of its unknown, and in words; null where it has no size. */
  readonly size: { readonly unknown: UnknownId; readonly interval: Interval; readonly words: string } | null;
  readonly for: readonly string[];
  readonly against: readonly string[];
  readonly fix: string;
  readonly belongsTo: CauseSpec['belongsTo'];
}

/** A measurement worth making next. */
export interface NextMeasurement {
  readonly test: TestId;
  readonly minutes: number;
  /** Expected information between the two it tells apart, 0 to 1 bit. */
  readonly bits: number;
  readonly words: string;
  readonly how: string;
  readonly caution: string | null;
}

/** What falls short by design, before anything that went wrong in the making. */
export interface DesignFinding {
  /** Thrust over need at full throttle as predicted; need as weighed where the craft was weighed. */
  readonly predictedThrustToWeight: number;
  /** Mass as weighed over mass as planned, minus 1; null: not weighed. */
  readonly heavier: number | null;
  readonly sentences: readonly string[];
}

/** Why a fan on the bench gives what it gives. */
export interface Diagnosis {
  /** The whole in a few sentences, the most important first. */
  readonly sentences: readonly string[];
  /** At the reading with most throttle. */
  readonly at: {
    readonly throttle: number | null;
    readonly measured_N: number;
    readonly predicted_N: number;
    /** 1 - measured / predicted */
    readonly shortfall: number;
  };
  /** Causes with a chance worth a line, likeliest first. */
  readonly causes: readonly CauseFinding[];
  /** Chance that nothing is amiss beyond ordinary scatter. */
  readonly nothingAmiss: number;
  readonly unexplained: {
    readonly flagged: boolean;
    readonly chance: number;
    /** Chance of readings as odd as these under the explanation that fits best. */
    readonly fit: number;
  };
  readonly design: DesignFinding;
  /** Best first: expected information a minute between the two likeliest explanations. */
  readonly next: readonly NextMeasurement[];
  /** The change that would bring most thrust, the likeliest cause taken as true. */
  /** `gain`: thrust more, over thrust now; null: it gives nothing now. */
  readonly bestChange: { readonly words: string; readonly gain: number | null } | null;
  readonly cautions: readonly string[];
}
