import type { FanAir } from '../../air/fan.ts';
import type { FanMap } from '../../air/map.ts';
import { highestSpeed, mapOf, modelOf, type Model } from '../../assess/model.ts';
import type { Project } from '../../project/schema.ts';
import { bentFan, runBent, type BentFan } from './bent-fan.ts';
import { FAN_UNKNOWNS, NOTHING, UNKNOWN_IDS, type Turn, type UnknownId, type Unknowns } from './unknowns.ts';

/** How the fan with something amiss compares with the fan as it should be, over speed. */
export interface FanNode {
  /** Thrust and torque over those of the sound fan, at each of `Prepared.logs`. */
  readonly thrust: Float64Array;
  readonly torque: Float64Array;
  /** Change of the thrust ratio, and of the logarithm of torque, for a unit of each unknown (middle speed). */
  readonly thrustSlope: Float64Array;
  readonly torqueSlope: Float64Array;
  readonly wake: Wake;
}

/** The stream behind the fan at the middle speed. */
export interface Wake {
  readonly radius: Float64Array;
  /** Speed behind the fan over the angular speed [m] */
  readonly exit: Float64Array;
  readonly meanExit: number;
  /** Tangent of the swirl angle to the axis. */
  readonly swirl: Float64Array;
}

/** A project made ready for many diagnoses: what does not depend on readings. */
export interface Prepared {
  readonly model: Model;
  readonly map: FanMap;
  /** ln of the speeds the fan is compared at [rad/s] */
  readonly logs: readonly number[];
  readonly node: (u: Unknowns, turn: Turn) => FanNode;
}

/** Annuli of a compared fan: only ratios are used. */
const RATIO_ANNULI = 10;

/** Speeds compared, over the highest the motor can see. */
const SPEEDS = [0.25, 0.5, 0.85];

/** Steps for slopes, about the ordinary scatter of each. */
const STEP: Partial<Record<UnknownId, number>> = {
  angle: 0.01,
  edge: 0.02,
  flat: 0.06,
  drag: 0.15,
  lift: 0.07,
  gap: 1e-4,
  loss: 0.25,
  blocked: 0.1,
  exit: 0.035,
};

/** Makes a project ready; `air` is that of the bench where it is not that of the brief. */
export function prepare(project: Project, air?: Model['air']): Prepared {
  const asBuilt = modelOf(project);
  const model: Model = air ? { ...asBuilt, air } : asBuilt;
  const speeds = SPEEDS.map((s) => s * highestSpeed(project));
  const sound = speeds.map((omega) => runBent(bentFan(model, NOTHING, 'right', RATIO_ANNULI), omega));
  const kept = new Map<string, FanNode>();
  const node = (u: Unknowns, turn: Turn): FanNode => {
    const key = turn + FAN_UNKNOWNS.map((id) => u[id]).join();
    const known = kept.get(key);
    if (known) return known;
    const made = nodeOf(model, speeds, sound, u, turn);
    kept.set(key, made);
    return made;
  };
  return { model, map: mapOf(model), logs: speeds.map(Math.log), node };
}

function nodeOf(
  model: Model,
  speeds: readonly number[],
  sound: readonly FanAir[],
  u: Unknowns,
  turn: Turn,
): FanNode {
  const fan = bentFan(model, u, turn, RATIO_ANNULI);
  const runs = speeds.map((omega) => runBent(fan, omega));
  const middle = 1;
  const base = sound[middle];
  const thrustSlope = new Float64Array(UNKNOWN_IDS.length);
  const torqueSlope = new Float64Array(UNKNOWN_IDS.length);
  for (const id of FAN_UNKNOWNS) {
    const step = STEP[id] ?? 0.01;
    const at = (by: number) =>
      runBent(bentFan(model, { ...u, [id]: u[id] + by }, turn, RATIO_ANNULI), speeds[middle]);
    const [down, up] = [at(-step), at(step)];
    const place = UNKNOWN_IDS.indexOf(id);
    thrustSlope[place] = (up.thrust - down.thrust) / (2 * step) / Math.abs(base.thrust);
    torqueSlope[place] = Math.log(size(up.torque) / size(down.torque)) / (2 * step);
  }
  return {
    thrust: Float64Array.from(runs, (run, i) => run.thrust / Math.abs(sound[i].thrust)),
    torque: Float64Array.from(runs, (run, i) => size(run.torque) / size(sound[i].torque)),
    thrustSlope,
    torqueSlope,
    wake: wakeOf(fan, runs[middle], speeds[middle]),
  };
}

const size = (torque: number) => Math.max(1e-12, Math.abs(torque));

/** Behind an open rotor the hand reaches the near wake, where the air has gained half of its speed. */
export function wakeOf(fan: BentFan, run: FanAir, omega: number): Wake {
  const speed = fan.passage ? Array.from(run.exitVelocities) : run.annuli.map((a) => a.axialVelocity);
  return {
    radius: fan.rotor.radius,
    exit: Float64Array.from(speed, (v) => Math.abs(v) / omega),
    meanExit: Math.abs(fan.passage ? run.exitVelocity : run.axialVelocity) / omega,
    swirl: Float64Array.from(
      run.annuli,
      (a) => Math.abs(a.swirlVelocity) / Math.max(1e-6, Math.abs(a.axialVelocity)),
    ),
  };
}
