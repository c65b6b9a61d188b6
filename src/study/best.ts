import { mapSpeedFor, mapTorque } from '../air/map.ts';
import { answersFrom, type Answers } from '../assess/answers.ts';
import { mapOf, modelOf, quotedSupply } from '../assess/model.ts';
import { movedAnswers } from '../assess/spread.ts';
import { strengthOfModel } from '../assess/strength.ts';
import { dischargeLimit } from '../drive/battery.ts';
import { driveAt } from '../drive/supply.ts';
import type { Project } from '../project/schema.ts';
import { intervalFrom, type Interval } from '../quantities/interval.ts';
import { millimetresFromMetres } from '../quantities/units.ts';
import { geometryFaults } from '../shape/faults.ts';
import type { Scored } from './front.ts';
import { soundAtThrust } from './sound-compare.ts';

/** What one design is judged by: the low ends of the intervals that `assess` gives, so that a lucky middle wins nothing. */
export interface RobustFigures {
  readonly hover_min: Interval;
  readonly thrustToWeight: Interval;
  readonly mass_g: number;
  readonly outerWidth_mm: number;
  readonly speedMargin: number;
  /** Largest current over what motor, controller and pack allow: at full throttle for seconds, in hover for minutes. */
  readonly currentShare: number;
  /** null where nobody asked for a level, or it does not hover. */
  readonly level_dBA: number | null;
  /** What keeps it from being built or printed, in sentences. */
  readonly faults: readonly string[];
}

/** Runs one design with its intervals: some 6 to 9 ms. */
export function robustFigures(project: Project): RobustFigures {
  const model = modelOf(project);
  const map = mapOf(model);
  const supply = quotedSupply(project);
  const answers = answersFrom(project, supply, map, model.needed);
  const faults = geometryFaults(project.fan, project.motor).map((f) => f.text);
  const stations = model.printed?.stations ?? [];
  if (stations.some((s) => s.lost)) faults.push('Part of the blade does not come out of this printer.');
  const moved = movedAnswers(model, map, supply, answers.hoverSpeed ?? answers.fullSpeed);
  const interval = (pick: (a: Answers) => number) =>
    intervalFrom(
      pick(answers),
      moved.map((m) => [pick(m.down), pick(m.up)] as const),
    );
  const wished = project.brief.noiseWish_dBA !== null && answers.thrustToWeight >= 1;
  const omega = wished ? mapSpeedFor(map, model.needed) : null;
  const { motor, controller, battery, craft } = project;
  const at = (speed: number | null) => (speed ? driveAt(supply, mapTorque(map, speed), speed) : null);
  const full = at(answers.fullSpeed);
  const hover = answers.thrustToWeight >= 1 ? at(answers.hoverSpeed) : null;
  const margin = strengthOfModel(model, map)?.speedMargin ?? 0;
  return {
    hover_min: interval((a) => a.hoverMinutes),
    thrustToWeight: interval((a) => a.thrustToWeight),
    mass_g: model.mass * 1000,
    outerWidth_mm: millimetresFromMetres(
      2 * (model.passage ? model.layout.outerRadius : model.layout.tipRadius),
    ),
    speedMargin: Number.isFinite(margin) ? margin : 1e3,
    currentShare: Math.max(
      (full?.motorCurrent ?? 0) / motor.burstCurrent_A,
      ((full?.batteryCurrent ?? 0) * craft.fanCount) / dischargeLimit(battery),
      (hover?.motorCurrent ?? 0) / Math.min(motor.continuousCurrent_A, controller.continuousCurrent_A),
    ),
    level_dBA:
      omega === null
        ? null
        : (soundAtThrust(model, model.needed, undefined, omega)?.overall_dBA.value ?? null),
    faults,
  };
}

/** Thrust over weight, at the low end, below which a craft can't be steered. Common practice, no source. */
export const LEAST_LIFT = 1.3;

/** A limit of the brief and how far a design is from keeping it: 0 or less where it does, in shares of the limit. */
export interface Limit {
  readonly name: string;
  readonly over: number;
}

/** The limits a design must keep, each a share of itself so that they can be added. */
export function limitsOf(project: Project, f: RobustFigures): readonly Limit[] {
  const { brief, fan } = project;
  return [
    { name: 'can be built and printed', over: f.faults.length },
    { name: 'width', over: f.outerWidth_mm / brief.largestDuctWidth_mm - 1 },
    { name: 'lifts and steers', over: 1 - f.thrustToWeight.low / LEAST_LIFT },
    { name: 'minutes', over: brief.wanted_min > 0 ? 1 - f.hover_min.low / brief.wanted_min : 0 },
    { name: 'strength', over: 1 - f.speedMargin ** 2 / fan.safetyFactor },
    { name: 'currents of motor and battery', over: f.currentShare - 1 },
    {
      name: 'sound',
      over:
        brief.noiseWish_dBA === null || f.level_dBA === null ? 0 : (f.level_dBA - brief.noiseWish_dBA) / 10,
    },
  ];
}

/** Objectives of the search, the smaller the better: minutes and thrust over weight at their low ends, turned about. */
export function scoreOf(project: Project): Scored {
  const f = robustFigures(project);
  const violation = limitsOf(project, f).reduce((sum, { over }) => sum + Math.max(0, over), 0);
  return { objectives: [-f.hover_min.low, -f.thrustToWeight.low], violation };
}
