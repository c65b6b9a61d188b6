import { interpolateLinear } from '../../numerics/interpolate.ts';
import type { Supply } from '../../drive/supply.ts';
import type { Evidence, EvidencePoint } from './evidence.ts';
import type { FanNode, Prepared } from './prepare.ts';
import type { Rows } from './rows.ts';
import { bentSupply, lawOf, runAtSpeed, runAtThrottle, type FanLaw, type Running } from './running.ts';
import {
  DRIVE_UNKNOWNS,
  NOTHING,
  UNKNOWN_IDS,
  type Turn,
  type UnknownId,
  type Unknowns,
} from './unknowns.ts';

/** A fault in place: what it moves, how the rotor turns, and the fans it makes. */
export interface Place {
  readonly u: Unknowns;
  readonly turn: Turn;
  /** One, or two whose ratios multiply. */
  readonly nodes: readonly FanNode[];
  /** -1 where the maker wrote the size of a pull that went the wrong way. */
  readonly sign: 1 | -1;
}

/** What a place foretells: one number a row, and its slopes to each unknown, row by row. */
export interface Foretold {
  readonly value: Float64Array;
  readonly slope: Float64Array;
  /** Thrust shown at the top point over that of the sound fan. */
  readonly top: number;
}

const COLUMNS = UNKNOWN_IDS.length;
const column = Object.fromEntries(UNKNOWN_IDS.map((id, i) => [id, i])) as Record<UnknownId, number>;

/** Steps for slopes of the drive's unknowns. */
const STEP: Record<string, number> = {
  kv: 0.02,
  winding: 0.06,
  limit: 0.02,
  pack: 0.1,
  charge: 0.05,
  ripple: 0.3,
  throttle: 0.01,
};

export interface Teller {
  readonly foretell: (place: Place, slopes: boolean) => Foretold;
  readonly soundThrust: readonly number[];
  readonly soundCurrent: number;
}

/** Foretells the rows of one evidence. */
export function tellerFor(
  prepared: Prepared,
  evidence: Evidence,
  rows: Rows,
  soundThrust: readonly number[],
): Teller {
  const { project } = prepared.model;
  const sound = prepared.node(NOTHING, 'right');
  const supplyOf = (u: Unknowns) => bentSupply(project, u, evidence.charge, evidence.fansRunning);
  const soundCurrent = runAtThrottle(lawOf(prepared, [sound]), supplyOf(NOTHING), 1, Infinity).motorCurrent;
  const run = (law: FanLaw, supply: Supply, u: Unknowns, p: EvidencePoint): Running =>
    p.throttle === null && p.omega !== null
      ? runAtSpeed(law, supply, p.omega * Math.exp(-u.tachometer))
      : runAtThrottle(
          law,
          supply,
          (p.throttle ?? 1) * Math.exp(u.throttle),
          u.limit > 0 ? soundCurrent * (1 - u.limit) : Infinity,
        );
  const foretell = (place: Place, slopes: boolean): Foretold => {
    const { u, nodes, sign } = place;
    const law = lawOf(prepared, nodes);
    const supply = supplyOf(u);
    const value = new Float64Array(rows.rows.length);
    const slope = new Float64Array(slopes ? rows.rows.length * COLUMNS : 0);
    const shown = Math.exp(u.scale) * (1 - u.pan) * sign;
    const moved = slopes ? movesOf(rows, law, supply, supplyOf, u, run) : null;
    const runs = moved ? moved.runs : rows.points.map((p) => run(law, supply, u, p));
    const thrustSlope = nodes[0].thrustSlope;
    const torqueSlope = nodes[0].torqueSlope;
    const ratioMiddle = Math.max(0.05, Math.abs(nodes[0].thrust[1]));
    rows.rows.forEach((row, k) => {
      const at = k * COLUMNS;
      const { aim } = row;
      if (aim.kind === 'unknown') {
        value[k] = u[aim.unknown];
        if (slopes) slope[at + column[aim.unknown]] = 1;
        return;
      }
      if (aim.kind === 'turn') {
        value[k] = (aim.turn === 'either' ? place.turn !== 'right' : place.turn === aim.turn) ? 1 : 0;
        return;
      }
      const { channel, point } = aim;
      const here = runs[point];
      const thrustShown = (here.thrust * shown) / soundThrust[point];
      const wake = channel === 'exit' || channel === 'thread' ? wakeAt(nodes, sound, aim.radius) : null;
      const pick = (r: Running): number => {
        switch (channel) {
          case 'thrust':
            return (r.thrust * shown) / soundThrust[point];
          case 'rpm':
            return Math.log(Math.max(1, r.omega)) + u.tachometer;
          case 'voltage':
            return Math.log(Math.max(0.1, r.voltage)) + u.voltmeter;
          case 'current':
            return Math.log(Math.max(0.005, r.current)) + u.ammeter;
          case 'exit':
            return Math.log(Math.max(0.02, r.omega * (wake?.exit ?? 0)));
          case 'thread':
            return Math.atan(wake?.swirl ?? 0);
        }
      };
      value[k] = pick(here);
      if (!moved) return;
      for (const id of DRIVE_UNKNOWNS) {
        const [down, up] = moved.drive[id][point];
        slope[at + column[id]] = (pick(up) - pick(down)) / (2 * STEP[id]);
      }
      const [less, more] = moved.torque[point];
      const byTorque = (pick(more) - pick(less)) / (2 * TORQUE_STEP);
      for (let i = 0; i < COLUMNS; i++) {
        const tan = wake?.swirl ?? 0;
        let direct = 0;
        // Thrust goes with the square of the exit speed; torque over thrust with the tangent of the swirl.
        if (channel === 'thrust')
          direct = (thrustShown * thrustSlope[i]) / signedRatio(nodes[0].thrust[1], ratioMiddle);
        else if (channel === 'exit') direct = thrustSlope[i] / ratioMiddle / 2;
        else if (channel === 'thread')
          direct = (tan / (1 + tan * tan)) * (torqueSlope[i] - thrustSlope[i] / ratioMiddle);
        slope[at + i] += direct + byTorque * torqueSlope[i];
      }
      if (channel === 'thrust') {
        slope[at + column.scale] += thrustShown;
        slope[at + column.pan] -= thrustShown / Math.max(0.1, 1 - u.pan);
        if (rows.points[point].throttle === null && rows.points[point].omega !== null)
          slope[at + column.tachometer] -= 2 * thrustShown;
      } else if (channel === 'rpm') slope[at + column.tachometer] += 1;
      else if (channel === 'voltage') slope[at + column.voltmeter] += 1;
      else if (channel === 'current') slope[at + column.ammeter] += 1;
    });
    return { value, slope, top: (runs[rows.top].thrust * shown) / soundThrust[rows.top] };
  };
  return { foretell, soundThrust, soundCurrent };
}

const signedRatio = (ratio: number, size: number) => (ratio < 0 ? -size : size);

const TORQUE_STEP = 0.05;

/** The running points, and the same with each unknown of the drive, and the torque, moved down and up. */
function movesOf(
  rows: Rows,
  law: FanLaw,
  supply: Supply,
  supplyOf: (u: Unknowns) => Supply,
  u: Unknowns,
  run: (law: FanLaw, supply: Supply, u: Unknowns, p: EvidencePoint) => Running,
) {
  const drive = Object.fromEntries(
    DRIVE_UNKNOWNS.map((id) => {
      const ends = [-1, 1].map((s) => {
        const changed = { ...u, [id]: u[id] + s * STEP[id] };
        return { changed, supply: supplyOf(changed) };
      });
      // Where nothing is refused a little less than nothing is refused too.
      const idle = id === 'limit' && u.limit === 0;
      return [
        id,
        rows.points.map((p) =>
          idle ? IDLE : ends.map((e) => run(law, e.supply, e.changed, p)),
        ) as unknown as (readonly [Running, Running])[],
      ];
    }),
  ) as Record<UnknownId, (readonly [Running, Running])[]>;
  const torque = rows.points.map((p) =>
    [-TORQUE_STEP, TORQUE_STEP].map((by) => {
      const factor = Math.exp(by);
      return run({ ...law, torqueAt: (w) => law.torqueAt(w) * factor }, supply, u, p);
    }),
  ) as unknown as (readonly [Running, Running])[];
  return { runs: rows.points.map((p) => run(law, supply, u, p)), drive, torque };
}

const STILL: Running = { omega: 1, thrust: 0, torque: 0, voltage: 1, current: 1, motorCurrent: 0 };
const IDLE: readonly [Running, Running] = [STILL, STILL];

/** Exit speed over rotor speed and tangent of swirl at `radius` [m] (null: over all), two faults' effects multiplied. */
function wakeAt(nodes: readonly FanNode[], sound: FanNode, radius: number | null) {
  const of = (n: FanNode) => ({
    exit: radius === null ? n.wake.meanExit : interpolateLinear(n.wake.radius, n.wake.exit, radius),
    swirl: interpolateLinear(n.wake.radius, n.wake.swirl, radius ?? n.wake.radius[n.wake.radius.length >> 1]),
  });
  const first = of(nodes[0]);
  if (nodes.length === 1) return first;
  const base = of(sound);
  const second = of(nodes[1]);
  return {
    exit: (first.exit * second.exit) / Math.max(1e-9, base.exit),
    swirl: (first.swirl * second.swirl) / Math.max(1e-6, base.swirl),
  };
}
