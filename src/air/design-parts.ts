import type { Fan } from '../project/schema.ts';
import type { ChordBound } from './design-blade.ts';
import type { Wanted } from './design-flow.ts';
import type { BladePlace, Working } from './design-section.ts';
import type { RotorAir } from './rotor.ts';

/** What a request fixes before anything is chosen. */
export interface SetUp {
  readonly rings: readonly BladePlace[];
  readonly stations: readonly BladePlace[];
  readonly spans: Float64Array;
  readonly rotor: RotorAir;
  readonly stallMargin: number;
}

/** Flow and sections of a blade, each ring. */
export interface Drawn {
  readonly wanted: Wanted;
  readonly reached: boolean;
  readonly working: readonly Working[];
}

/** A blade with its stations, what held its chords, and the flow it was drawn for. */
export interface Blade {
  readonly fan: Fan;
  readonly bounds: readonly ChordBound[];
  readonly drawn: Drawn;
}
