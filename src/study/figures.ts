import { mapSpeedFor } from '../air/map.ts';
import { answersFrom } from '../assess/answers.ts';
import { mapOf, modelOf, quotedSupply } from '../assess/model.ts';
import { strengthOfModel } from '../assess/strength.ts';
import type { Project } from '../project/schema.ts';
import { millimetresFromMetres } from '../quantities/units.ts';
import { geometryFaults } from '../shape/faults.ts';
import { soundAtThrust } from './sound-compare.ts';

/** The few figures of one design that a study compares. NaN: it has none (no hover, no blade left). */
export interface Figures {
  readonly thrustToWeight: number;
  /** Of one fan, at full throttle. */
  readonly thrust_N: number;
  readonly hoverThrottle: number;
  readonly hover_min: number;
  readonly mass_g: number;
  readonly outerWidth_mm: number;
  /** Speed at which the rotor fails over its fastest. */
  readonly speedMargin: number;
  /** In hover at 3 m over hard ground. */
  readonly level_dBA: number;
  /** What keeps it from being built or printed; 0: nothing. */
  readonly faults: number;
}

export const FIGURES = [
  'thrustToWeight',
  'thrust_N',
  'hoverThrottle',
  'hover_min',
  'mass_g',
  'outerWidth_mm',
  'speedMargin',
  'level_dBA',
  'faults',
] as const satisfies readonly (keyof Figures)[];

/** What to leave out for speed; the figure is NaN then. */
export interface FiguresOptions {
  readonly sound?: boolean;
  readonly strength?: boolean;
}

/** Runs one design from its map, as `assess` would but without points, intervals and sentences. Some 3 to 5 ms with everything. */
export function figuresOf(project: Project, { sound = true, strength = true }: FiguresOptions = {}): Figures {
  const model = modelOf(project);
  const map = mapOf(model);
  const answers = answersFrom(project, quotedSupply(project), map, model.needed);
  const lifts = answers.thrustToWeight >= 1;
  const omega = sound && lifts ? mapSpeedFor(map, model.needed) : null;
  const level = omega === null ? null : soundAtThrust(model, model.needed, undefined, omega);
  const stations = model.printed?.stations ?? [];
  const unprinted = stations.some((s) => s.lost) ? 1 : 0;
  return {
    thrustToWeight: answers.thrustToWeight,
    thrust_N: answers.fullThrust,
    hoverThrottle: lifts ? (answers.hoverThrottle ?? NaN) : NaN,
    hover_min: answers.hoverMinutes,
    mass_g: model.mass * 1000,
    outerWidth_mm: millimetresFromMetres(
      2 * (model.passage ? model.layout.outerRadius : model.layout.tipRadius),
    ),
    speedMargin: strength ? marginOf(strengthOfModel(model, map)?.speedMargin) : NaN,
    level_dBA: level?.overall_dBA.value ?? NaN,
    faults: geometryFaults(project.fan, project.motor).length + unprinted,
  };
}

const marginOf = (margin: number | undefined): number =>
  margin !== undefined && Number.isFinite(margin) ? margin : NaN;
