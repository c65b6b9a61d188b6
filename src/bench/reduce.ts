import { atmosphere, type Air } from '../air/atmosphere.ts';
import { modelOf, type Model } from '../assess/model.ts';
import type { BenchRow, BenchRun } from '../project/bench.ts';
import type { Project } from '../project/schema.ts';
import { around } from './errors.ts';
import { hoverShareOf } from './hover-share.ts';
import { groupsOf, pointOf, repeatScatter, type Shared } from './reduce-points.ts';
import { rigEffectsOf } from './rig-effects.ts';
import type { BenchRemark, Reduced, ReducedPoint } from './types.ts';
import { isAtRest, isUsed, newtonsPerGram, zeroLine } from './zero.ts';

/** Half-widths (90 %) of the mass of the craft: as weighed, and as the project adds it up. Common practice, no source. */
const WEIGHED_ERROR = 0.005;
const PROJECT_MASS_ERROR = 0.03;

/** Half-widths of air density: temperature and pressure or height read at the bench, or taken from the brief. */
const AIR_READ = 0.005;
const AIR_ASSUMED = 0.02;

/** Air at the bench [SI]; what was not read there is the brief's. Pressure read there goes before height. */
export function benchAir(project: Project, run: BenchRun): Air {
  const { altitude_m, airTemperature_C } = atBench(project, run).brief;
  const base = atmosphere(altitude_m, airTemperature_C);
  if (run.air.pressure_hPa === null) return base;
  const pressure = run.air.pressure_hPa * 100;
  return { ...base, pressure, density: (base.density * pressure) / base.pressure };
}

/** The project with the air of the bench in its brief, as far as it was read there. */
export const atBench = (project: Project, { air }: BenchRun): Project => ({
  ...project,
  brief: {
    ...project.brief,
    altitude_m: air.altitude_m ?? project.brief.altitude_m,
    airTemperature_C: air.temperature_C ?? project.brief.airTemperature_C,
  },
});

/** The model of a project in the air of the bench. */
export const benchModel = (project: Project, run: BenchRun): Model => ({
  ...modelOf(atBench(project, run)),
  air: benchAir(project, run),
});

/**
 * Reduces a run to points: thrust, coefficients, figure of merit and grams a watt of one fan with 90 % intervals, the share
 * of hover they are worth, what the rig itself does to them, and what to mind. Pure; total over any run the schema takes.
 */
export function reduceRun(project: Project, run: BenchRun): Reduced {
  const remarks: BenchRemark[] = [];
  const model = benchModel(project, run);
  const weighed = run.observed.craftMass_g;
  const craftMass = weighed ?? model.mass * 1000;
  const massError = weighed === null ? PROJECT_MASS_ERROR : WEIGHED_ERROR;
  const line = zeroLine(run, { value: craftMass, error: massError * craftMass }, remarks);
  const perGram = newtonsPerGram(run, line, remarks);
  const airRead =
    run.air.temperature_C !== null && (run.air.pressure_hPa !== null || run.air.altitude_m !== null);
  const shared: Shared = {
    run,
    model,
    line,
    newtonsPerGram: perGram,
    restCurrent: restCurrentOf(project, run),
    densityError: airRead ? AIR_READ : AIR_ASSUMED,
  };
  const groups = groupsOf(run);
  const changes = run.rows.map((row, i) => (row.scale_g === null ? 0 : row.scale_g - line.at(i)));
  const repeats = repeatScatter(groups, changes);
  const points = groups.map((places) => pointOf(shared, places, changes, repeats)).sort(byThrottle);
  const needed = (model.needed * craftMass) / (model.mass * 1000);
  const neededInterval = around(needed, massError * needed);
  const { rig } = run;
  remarksOn(run, points, remarks);
  return {
    fansRunning: rig.fansRunning,
    air: model.air,
    zero: line.zero,
    needed_N: neededInterval,
    neededFrom: weighed === null ? 'project' : 'weighed',
    points,
    common: {
      thrust_ratio: rig.scaleError_ratio,
      voltage_ratio: rig.voltageError_ratio,
      current_ratio: rig.currentError_ratio,
      rpm_ratio: rig.rpmError_ratio,
    },
    hoverShare: hoverShareOf(project, model, points, neededInterval),
    rigEffects: rigEffectsOf(project, run, model),
    remarks,
    unused: run.rows.filter((row) => !isUsed(row)).length,
  };
}

/** By throttle, else by speed, else by thrust. */
function byThrottle(a: ReducedPoint, b: ReducedPoint): number {
  if (a.throttle !== null && b.throttle !== null && a.throttle !== b.throttle) return a.throttle - b.throttle;
  if (a.rpm && b.rpm && a.rpm.value !== b.rpm.value) return a.rpm.value - b.rpm.value;
  return a.thrust_N.value - b.thrust_N.value;
}

/** Current with the fans at rest [A]: as read then; else, with a whole craft, what its electronics take; else none. */
function restCurrentOf(project: Project, { rows, rig }: BenchRun): number {
  const read = rows.filter((row) => isAtRest(row) && !row.leftOut && row.current_A !== null);
  if (read.length > 0)
    return Math.max(
      0,
      meanOf(read, (row) => row.current_A!),
    );
  if (rig.kind !== 'craft on the scale') return 0;
  const volts = rows.filter((row) => row.voltage_V !== null && row.voltage_V > 1);
  return volts.length > 0 ? project.craft.auxiliaryPower_W / meanOf(volts, (row) => row.voltage_V!) : 0;
}

const meanOf = (rows: readonly BenchRow[], pick: (row: BenchRow) => number): number =>
  rows.reduce((sum, row) => sum + pick(row), 0) / rows.length;

/** Own error of the best point over its thrust past which a finer scale is worth having. */
const COARSE = 0.05;

function remarksOn({ rig, rows }: BenchRun, points: readonly ReducedPoint[], remarks: BenchRemark[]): void {
  const add = (weight: BenchRemark['weight'], path: string, text: string) =>
    remarks.push({ weight, path, text });
  if (points.length === 0) {
    const scale = rows.some((row) => row.scale_g !== null);
    add(
      'stop',
      'rows',
      scale
        ? 'All readings are at rest or left out; there is none with the fans running.'
        : 'No reading of the scale yet; thrust needs one.',
    );
    return;
  }
  const best = points.reduce((a, b) => (b.thrust_N.value > a.thrust_N.value ? b : a));
  if (best.thrust_N.value > 0 && best.thrustOwn_N > COARSE * best.thrust_N.value)
    add(
      'care',
      'rig.scaleResolution_g',
      `Step, zero and scatter of the scale are worth ${Math.round((100 * best.thrustOwn_N) / best.thrust_N.value)} % of the largest thrust. A finer scale, a lever, repeats, or more fans at once make it surer.`,
    );
  if (points.every((point) => point.throttle === null))
    add(
      'note',
      'rows',
      'Throttle was not noted; whether more was to be had is not known. Write it beside each reading.',
    );
  const odd = points.filter(
    (point) =>
      point.rpm &&
      point.voltage_V &&
      point.current_A &&
      point.current_A.value > 0 &&
      point.torqueFrom === null,
  );
  if (odd.length > 0)
    add(
      'care',
      'rows',
      `${odd.length === 1 ? 'One point has' : `${odd.length} points have`} a speed, voltage and current that the motor of the project cannot have at once; check the speed constant, the count of blades or magnets behind the speed, and how many fans the current feeds.`,
    );
  if (rig.fansRunning > 1)
    add(
      'note',
      'rig.fansRunning',
      `The readings are shared evenly between ${rig.fansRunning} fans; one weak fan among them hides in the mean.`,
    );
}
