import type { Model } from '../../assess/model.ts';
import { radiansFromDegrees } from '../../quantities/units.ts';
import type { Turn, UnknownId } from './unknowns.ts';

export type CauseId =
  | 'angle'
  | 'edge'
  | 'flat'
  | 'rough'
  | 'gap'
  | 'blocked'
  | 'backward'
  | 'upside down'
  | 'kv'
  | 'winding'
  | 'limit'
  | 'pack'
  | 'part throttle'
  | 'scale'
  | 'pan';

/** One place of a cause's range: the prior along the range is a row of normal humps, one at each place. */
export interface CausePlace {
  readonly value: number;
  /** Width (standard deviation) of the hump. */
  readonly width: number;
  /** Share of the cause's prior. */
  readonly weight: number;
}

/** Something that may be amiss, with how likely that is before any reading. */
export interface CauseSpec {
  readonly id: CauseId;
  /** What it moves; null where it is a matter of how the rotor turns. */
  readonly unknown: UnknownId | null;
  readonly turn: Turn;
  /** Chance on a first build, readings aside. */
  readonly prior: number;
  readonly places: readonly CausePlace[];
  /** Where in the truth of the build it belongs once accepted. */
  readonly belongsTo: 'printer' | 'motor' | 'battery' | 'build' | 'bench';
}

/** What about the rig makes some causes likelier. */
export interface RigFacts {
  /** The jet meets the pan or table within reach. */
  readonly jetOnPan: boolean;
  /** Throttle was not written down. */
  readonly throttleUnknown: boolean;
}

/** Humps at equal steps from `from` to `to`, their weights falling to `far` of the first at the end. */
function even(from: number, to: number, count: number, far = 0.4): CausePlace[] {
  const step = Math.abs(to - from) / (count - 1);
  const raw = Array.from({ length: count }, (_, i) => {
    const t = i / (count - 1);
    return { value: from + (to - from) * t, width: step / 2, weight: 1 + (far - 1) * t };
  });
  const sum = raw.reduce((s, p) => s + p.weight, 0);
  return raw.map((p) => ({ ...p, weight: p.weight / sum }));
}

/** Two ranges as one, the first with `share` of the weight. */
const both = (a: readonly CausePlace[], b: readonly CausePlace[], share: number): CausePlace[] => [
  ...a.map((p) => ({ ...p, weight: p.weight * share })),
  ...b.map((p) => ({ ...p, weight: p.weight * (1 - share) })),
];

const deg = radiansFromDegrees;

/** How the rotor turns takes no places. */
const NO_RANGE: readonly CausePlace[] = [{ value: 0, width: 0, weight: 1 }];

/**
 * The causes a first build is asked about. Their chances and ranges are judgement, written down so that they can be argued with:
 * common practice, no source. They decide where readings do not.
 */
export function causesFor({ project, layout }: Model, rig: RigFacts): CauseSpec[] {
  const list: CauseSpec[] = [
    cause('angle', 'angle', 0.07, both(even(deg(-2), deg(-11), 7), even(deg(2), deg(8), 5), 0.65), 'printer'),
    cause('edge', 'edge', 0.07, even(0.1, 0.5, 6), 'printer'),
    cause('flat', 'flat', 0.05, even(0.25, 1, 6, 0.8), 'printer'),
    cause('rough', 'drag', 0.06, even(Math.log(1.6), Math.log(4), 6), 'printer'),
    { ...cause('backward', null, 0.05, NO_RANGE, 'build'), turn: 'backward' },
    { ...cause('upside down', null, 0.05, NO_RANGE, 'build'), turn: 'upside down' },
    cause('kv', 'kv', 0.04, both(even(-0.1, -0.5, 6), even(0.1, 0.4, 5), 0.6), 'motor'),
    cause('winding', 'winding', 0.06, even(Math.log(1.4), Math.log(6), 7), 'motor'),
    cause('limit', 'limit', 0.04, even(0.12, 0.75, 7, 0.6), 'build'),
    cause('pack', 'pack', 0.09, even(Math.log(1.7), Math.log(8), 7), 'battery'),
    cause(
      'part throttle',
      'throttle',
      rig.throttleUnknown ? 0.25 : 0.07,
      even(Math.log(0.93), Math.log(0.35), 9, 0.5),
      'bench',
    ),
    cause('scale', 'scale', 0.05, both(even(-0.08, -0.9, 8), even(0.08, 0.7, 6), 0.6), 'bench'),
    cause('pan', 'pan', rig.jetOnPan ? 0.1 : 0.01, even(0.08, 0.6, 7, 0.5), 'bench'),
  ];
  if (project.fan.kind === 'ducted') {
    const height = layout.tipRadius - layout.hubRadius;
    const near = Math.max(0.025 * height, 2e-4);
    list.push(cause('gap', 'gap', 0.09, even(near, Math.max(0.22 * height, 3 * near), 8), 'build'));
    list.push(cause('blocked', 'blocked', 0.06, even(0.35, 3, 7), 'build'));
  }
  return list;
}

const cause = (
  id: CauseId,
  unknown: UnknownId | null,
  prior: number,
  places: readonly CausePlace[],
  belongsTo: CauseSpec['belongsTo'],
): CauseSpec => ({ id, unknown, turn: 'right', prior, places, belongsTo });
