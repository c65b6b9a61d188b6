import { mapThrust, mapTorque, type FanMap } from '../air/map.ts';
import { mapOf, quotedSupply, type Model } from '../assess/model.ts';
import { runAt } from '../assess/point.ts';
import { HALF_WIDTHS, movedAnswers } from '../assess/spread.ts';
import { driveAt, speedAtThrottle, supplyAt, type Supply } from '../drive/supply.ts';
import { chargeAtBench } from './charge.ts';
import type { BenchRun } from '../project/bench.ts';
import type { Design, Project } from '../project/schema.ts';
import { intervalFrom, type Interval } from '../quantities/interval.ts';
import { angularSpeedFromRpm, rpmFromAngularSpeed } from '../quantities/units.ts';
import type { BenchComparison, ComparedPoint } from './compare-types.ts';
import { comparedWords } from './compare-words.ts';
import { around, propagated } from './errors.ts';
import { atBench, benchModel } from './reduce.ts';
import type { Reduced, ReducedPoint } from './types.ts';

/** What one unknown of the prediction does to thrust and torque at equal speed. */
type Factors = readonly {
  readonly thrust: readonly [number, number];
  readonly torque: readonly [number, number];
}[];

/** Holds a reduced run against what the project predicts for the same fan, air and pack: at equal speed and at equal throttle. */
export function compareRun(project: Project, run: BenchRun, reduced: Reduced): BenchComparison {
  const model = benchModel(project, run);
  const map = mapOf(model);
  const supply = benchSupply(project, run, reduced);
  const factors = factorsOf(project, model, map);
  const points = reduced.points.map((point, i) => comparePoint(model, map, supply, factors, point, i));
  let spokenOf: number | null = null;
  points.forEach((p, i) => {
    if (spokenOf === null || rank(p) > rank(points[spokenOf])) spokenOf = i;
  });
  return { points, spokenOf, words: comparedWords(spokenOf === null ? null : points[spokenOf]) };
}

const rank = (p: ComparedPoint): number => (p.throttle ?? 0) * 1e9 + p.measured_N.value;

/** Thrust and torque factors of the prediction's own unknowns, from the assessment's, found near full speed. */
function factorsOf(project: Project, model: Model, map: FanMap): Factors {
  const supply = quotedSupply(project);
  const omega = speedAtThrottle(supply, (w) => mapTorque(map, w), 1) || map.highest / 2;
  return movedAnswers(model, map, supply, omega)
    .map(({ factors: [down, up] }) => ({
      thrust: [down.thrust, up.thrust] as const,
      torque: [down.torque, up.torque] as const,
    }))
    .filter(({ thrust, torque }) => [...thrust, ...torque].some((f) => f !== 1));
}

/** The drive as it was fed at the bench: charge as said or from the voltage at rest, and as many fans as ran. */
function benchSupply(project: Project, run: BenchRun, { fansRunning }: Reduced): Supply {
  const { battery, rig } = run;
  const { airTemperature_C } = atBench(project, run).brief;
  const design: Design = { ...project, craft: { ...project.craft, fanCount: fansRunning } };
  const { charge } = chargeAtBench(project.battery, battery);
  const supply = supplyAt(design, charge, { cell_C: airTemperature_C });
  return {
    ...supply,
    rest: battery.restVoltage_V ?? supply.rest,
    auxiliaryPower: rig.kind === 'craft on the scale' ? supply.auxiliaryPower : 0,
  };
}

function comparePoint(
  model: Model,
  map: FanMap,
  supply: Supply,
  factors: Factors,
  point: ReducedPoint,
  index: number,
): ComparedPoint {
  const { throttle, rpm, thrust_N: measured } = point;
  const run = rpm && runAt(model, angularSpeedFromRpm(rpm.value));
  const atRpm =
    run &&
    banded(
      run.thrust,
      factors.map((f) => f.thrust),
    );
  const drive = throttle === null || throttle <= 0 ? null : drivenAt(map, supply, throttle, factors);
  const overPrediction = (value: Interval, predicted: Interval) =>
    predicted.value > 0 ? propagated([value, predicted], (m, p) => m / p) : null;
  // Thrust over thrust at two speeds of one fan: what is wrong with its blades cancels.
  const worth = (from: Interval, to: Interval) =>
    propagated([from, to], (a, b) => mapThrust(map, a) / mapThrust(map, b));
  const omega = rpm && omegaOf(rpm);
  // The same throttle on the voltage that was there under load: the pack is out of it.
  const stiff =
    throttle && point.voltage_V && throttle > 0
      ? drivenAt(map, { ...supply, rest: point.voltage_V.value, packResistance: 0 }, throttle, factors)
      : null;
  return {
    point: index,
    throttle,
    rpm: rpm?.value ?? null,
    measured_N: measured,
    predictedAtRpm_N: atRpm,
    predictedAtThrottle_N: drive?.thrust ?? null,
    predictedRpm: drive && rpmOf(drive.omega),
    predictedVoltage_V: drive?.voltage ?? null,
    ratios: {
      total: drive && overPrediction(measured, drive.thrust),
      air: rpm && atRpm && overPrediction(withoutSpeedError(measured, rpm), atRpm),
      drive: omega && drive && drive.omega.value > 0 ? worth(omega, drive.omega) : null,
      pack: stiff && drive && drive.omega.value > 0 ? worth(stiff.omega, drive.omega) : null,
      motor: stiff && omega && stiff.omega.value > 0 ? worth(omega, stiff.omega) : null,
      torque:
        run && point.torque_Nm && rpm
          ? overPrediction(
              withoutSpeedError(point.torque_Nm, rpm),
              banded(
                run.torque,
                factors.map((f) => f.torque),
              ),
            )
          : null,
    },
  };
}

/** A force or torque that is to be held against one at the speed read: the error of that speed comes in squared. */
const withoutSpeedError = (value: Interval, rpm: Interval): Interval =>
  propagated([value, rpm], (v, n) => v * (rpm.value / n) ** 2);

const omegaOf = ({ value, low, high }: Interval): Interval => ({
  value: angularSpeedFromRpm(value),
  low: angularSpeedFromRpm(low),
  high: angularSpeedFromRpm(high),
});
const rpmOf = ({ value, low, high }: Interval): Interval => ({
  value: rpmFromAngularSpeed(value),
  low: rpmFromAngularSpeed(low),
  high: rpmFromAngularSpeed(high),
});

const banded = (value: number, pairs: readonly (readonly [number, number])[]): Interval =>
  intervalFrom(
    value,
    pairs.map(([down, up]) => [down * value, up * value] as const),
  );

/** Speed, thrust and voltage the drive is predicted to reach at a throttle, with the intervals of drive and fan. */
function drivenAt(map: FanMap, supply: Supply, throttle: number, factors: Factors) {
  const solve = (s: Supply, thrust = 1, torque = 1) => {
    const omega = speedAtThrottle(s, (w) => torque * mapTorque(map, w), throttle);
    return { omega, thrust: thrust * mapThrust(map, omega) };
  };
  const base = solve(supply);
  const moved = (change: (factor: number) => Supply, half: number) =>
    [solve(change(1 - half)), solve(change(1 + half))] as const;
  const motor = (key: 'velocityConstant' | 'resistance') => (f: number) => ({
    ...supply,
    motor: { ...supply.motor, [key]: supply.motor[key] * f },
  });
  const pairs = [
    moved(motor('velocityConstant'), HALF_WIDTHS.velocityConstant),
    moved(motor('resistance'), HALF_WIDTHS.motorResistance),
    moved((f) => ({ ...supply, packResistance: supply.packResistance * f }), HALF_WIDTHS.packResistance),
    moved((f) => ({ ...supply, rippleLoss: supply.rippleLoss * f }), HALF_WIDTHS.ripple),
    ...factors.map(
      (f) => [solve(supply, f.thrust[0], f.torque[0]), solve(supply, f.thrust[1], f.torque[1])] as const,
    ),
  ];
  const band = (pick: (x: { omega: number; thrust: number }) => number) =>
    intervalFrom(
      pick(base),
      pairs.map(([down, up]) => [pick(down), pick(up)] as const),
    );
  const point = base.omega > 0 ? driveAt(supply, mapTorque(map, base.omega), base.omega) : null;
  const omega = base.omega > 0 ? band((x) => x.omega) : around(0, 0);
  return { omega, thrust: band((x) => x.thrust), voltage: point?.batteryVoltage ?? null };
}
