import { idealPower } from '../air/momentum.ts';
import type { Model } from '../assess/model.ts';
import type { BenchRow, BenchRun } from '../project/bench.ts';
import { GRAVITY } from '../quantities/constants.ts';
import type { Interval } from '../quantities/interval.ts';
import { angularSpeedFromRpm, gramsFromKilograms } from '../quantities/units.ts';
import { around, NINETY, propagated, studentNinety, together } from './errors.ts';
import { torqueFromMotor } from './motor-torque.ts';
import type { ReducedPoint } from './types.ts';
import { isAtRest, isUsed, type ZeroLine } from './zero.ts';

/** What every point of a run shares. */
export interface Shared {
  readonly run: BenchRun;
  readonly model: Model;
  readonly line: ZeroLine;
  /** Thrust of one fan per gram of change, with its sign. */
  readonly newtonsPerGram: number;
  /** Current that flows with the fans at rest: electronics and meter [A], all fans. */
  readonly restCurrent: number;
  /** Half-width of air density over it. */
  readonly densityError: number;
}

/** Readings closer than this are repeats of one point: throttle apart, speed and voltage as a share. */
const SAME = { throttle: 0.005, share: 0.03 } as const;

/** As many independent readings as a steady stretch of a log counts for: neighbours in it share their wander. */
const MOST_INDEPENDENT = 10;

/** Running readings as groups of repeats, each a list of places in `run.rows`. */
export function groupsOf({ rows }: BenchRun): number[][] {
  const groups: number[][] = [];
  rows.forEach((row, i) => {
    if (!isUsed(row) || isAtRest(row)) return;
    const group = groups.find((places) => isRepeat(rows[places[0]], row));
    if (group) group.push(i);
    else groups.push([i]);
  });
  return groups;
}

function isRepeat(a: BenchRow, b: BenchRow): boolean {
  if (a.throttle === null || b.throttle === null) return false;
  const near = (x: number | null, y: number | null) =>
    x === null || y === null || Math.abs(x - y) <= SAME.share * Math.max(Math.abs(x), Math.abs(y));
  return (
    Math.abs(a.throttle - b.throttle) <= SAME.throttle && near(a.rpm, b.rpm) && near(a.voltage_V, b.voltage_V)
  );
}

/** Scatter of the scale between repeats, pooled over all groups: grams (one standard deviation) and degrees of freedom. */
export function repeatScatter(groups: readonly number[][], changes: readonly number[]) {
  let squares = 0;
  let freedom = 0;
  for (const places of groups) {
    if (places.length < 2) continue;
    const mean = meanBy(places, (i) => changes[i]);
    for (const i of places) squares += (changes[i] - mean) ** 2;
    freedom += places.length - 1;
  }
  return { scatter_g: freedom > 0 ? Math.sqrt(squares / freedom) : 0, freedom };
}

const meanBy = (places: readonly number[], pick: (i: number) => number): number =>
  places.reduce((sum, i) => sum + pick(i), 0) / places.length;

/** One point from its repeats. `changes` holds what each reading stands above its zero [g]. */
export function pointOf(
  shared: Shared,
  places: readonly number[],
  changes: readonly number[],
  repeats: ReturnType<typeof repeatScatter>,
): ReducedPoint {
  const { run, model, line, newtonsPerGram } = shared;
  const { rig } = run;
  const rows = places.map((i) => run.rows[i]);
  const mean = (pick: (row: BenchRow) => number | null): number | null => {
    const found = rows.map(pick).filter((x) => x !== null);
    return found.length > 0 ? found.reduce((a, b) => a + b, 0) / found.length : null;
  };
  const rounding = (0.45 * rig.scaleResolution_g) / Math.sqrt(places.length);
  const wander = together(...rows.map(wanderOf)) / places.length;
  const between =
    repeats.freedom > 0 ? (studentNinety(repeats.freedom) * repeats.scatter_g) / Math.sqrt(places.length) : 0;
  const own_g = together(rounding, line.zero.error_g, Math.max(wander * NINETY, between));
  const thrustValue = newtonsPerGram * meanBy(places, (i) => changes[i]);
  const thrustOwn = own_g * Math.abs(newtonsPerGram);
  const thrust = around(thrustValue, together(thrustOwn, rig.scaleError_ratio * Math.abs(thrustValue)));

  const share = (value: number | null, error: number) =>
    value === null ? null : around(value, error * Math.abs(value));
  const throttle = mean((row) => row.throttle);
  const rpm = share(
    mean((row) => (row.rpm !== null && row.rpm > 0 ? row.rpm : null)),
    rig.rpmError_ratio,
  );
  const voltage = share(
    mean((row) => row.voltage_V),
    rig.voltageError_ratio,
  );
  const drawn = mean((row) => row.current_A);
  const current = drawn === null ? null : perFan(drawn, shared);
  const electrical = voltage && current && propagated([voltage, current], (v, i) => v * i);
  const omega = rpm && {
    value: angularSpeedFromRpm(rpm.value),
    low: angularSpeedFromRpm(rpm.low),
    high: angularSpeedFromRpm(rpm.high),
  };
  const read = mean((row) => row.torque_Nm);
  const torque =
    read !== null
      ? around(Math.abs(read), rig.scaleError_ratio * Math.abs(read))
      : voltage && current && omega && current.value > 0
        ? torqueFromMotor(model.project, voltage, current, omega, throttle)
        : null;
  const shaft = torque && omega && propagated([torque, omega], (q, w) => q * w);
  return {
    rows: places,
    t_s: mean((row) => row.t_s),
    throttle,
    rpm,
    thrust_N: thrust,
    thrustOwn_N: thrustOwn,
    voltage_V: voltage,
    current_A: current,
    electricalPower_W: electrical,
    torque_Nm: torque,
    shaftPower_W: shaft,
    torqueFrom: torque === null ? null : read !== null ? 'read' : 'motor',
    ...coefficients(shared, thrust, rpm, torque, shaft),
    gramsPerWatt:
      electrical && electrical.value > 0
        ? propagated([thrust, electrical], (t, p) => gramsFromKilograms(t / GRAVITY) / p)
        : null,
  };
}

const wanderOf = (row: BenchRow): number =>
  row.scatter_g === null ? 0 : row.scatter_g / Math.sqrt(Math.min(row.samples, MOST_INDEPENDENT));

function perFan(drawn: number, { run, restCurrent }: Shared): Interval {
  const { currentError_ratio, fansRunning } = run.rig;
  return around((drawn - restCurrent) / fansRunning, (currentError_ratio * Math.abs(drawn)) / fansRunning);
}

/**
 * ct = T / (rho n^2 D^4), cp = P / (rho n^3 D^5), n in turns a second, D over the tips; figure of merit = ideal power over
 * shaft power, P_i as in `idealPower` at rest.
 */
function coefficients(
  { model, densityError }: Shared,
  thrust: Interval,
  rpm: Interval | null,
  torque: Interval | null,
  shaft: Interval | null,
): Pick<ReducedPoint, 'ct' | 'cp' | 'figureOfMerit'> {
  const rho = around(model.air.density, densityError * model.air.density);
  const diameter = 2 * model.rotor.tipRadius;
  const exitRatio = model.passage?.exitRatio ?? null;
  return {
    ct: rpm && propagated([thrust, rpm, rho], (t, n, d) => t / (d * (n / 60) ** 2 * diameter ** 4)),
    cp:
      rpm &&
      torque &&
      propagated([torque, rpm, rho], (q, n, d) => (2 * Math.PI * q) / (d * (n / 60) ** 2 * diameter ** 5)),
    figureOfMerit:
      shaft && shaft.value > 0 && thrust.value > 0
        ? propagated(
            [thrust, shaft, rho],
            (t, p, d) => idealPower(Math.max(0, t), model.discArea, exitRatio, d, 0) / p,
          )
        : null,
  };
}
