import { mapTorque } from '../air/map.ts';
import { mapOf, quotedSupply, type Model } from '../assess/model.ts';
import { runAt } from '../assess/point.ts';
import { speedAtThrottle } from '../drive/supply.ts';
import { interpolateLinear } from '../numerics/interpolate.ts';
import type { AirReading, BenchRun } from '../project/bench.ts';
import type { Project } from '../project/schema.ts';
import { formatNumber as n, formatPercent } from '../quantities/format.ts';
import type { Interval } from '../quantities/interval.ts';
import {
  angularSpeedFromRpm,
  degreesFromRadians,
  metresFromMillimetres,
  millimetresFromMetres,
  rpmFromAngularSpeed,
} from '../quantities/units.ts';
import { wakeOf } from './diagnose/prepare.ts';
import { FORM } from './diagnose/rows.ts';
import { around, NINETY } from './errors.ts';
import { benchModel } from './reduce.ts';
import type { Reduced } from './types.ts';

/** Where along the blade a thread or an anemometer is held: 0 hub, 1 tip. */
const HELD_AT = [0.25, 0.5, 0.75, 0.92] as const;

/** The air behind the fan at one speed. */
export interface ExpectedAir {
  readonly throttle: number | null;
  readonly rpm: number;
  readonly meanExit_mps: Interval;
  readonly places: readonly {
    readonly radius_mm: number;
    readonly exit_mps: Interval;
    /** From the axis, as the rotor turns. */
    readonly thread_deg: Interval;
  }[];
}

/** What a thread and an anemometer are expected to show at these throttles, battery half full; 90 % intervals of the model itself. */
export function expectedAir(project: Project, run: BenchRun, throttles: readonly number[]): ExpectedAir[] {
  const model = benchModel(project, run);
  return throttles.flatMap((throttle) => {
    const omega = speedAt(model, throttle);
    return omega > 0 ? [airAt(model, omega, throttle)] : [];
  });
}

/** Speed [rad/s] the drive is predicted to reach. */
function speedAt(model: Model, throttle: number): number {
  const map = mapOf(model);
  return speedAtThrottle(quotedSupply(model.project), (w) => mapTorque(map, w), throttle);
}

function airAt(model: Model, omega: number, throttle: number | null): ExpectedAir {
  const wake = wakeOf(model, runAt(model, omega), omega);
  const { hubRadius, tipRadius } = model.rotor;
  return {
    throttle,
    rpm: rpmFromAngularSpeed(omega),
    meanExit_mps: exitBand(wake.meanExit * omega),
    places: HELD_AT.map((span) => {
      const radius = hubRadius + span * (tipRadius - hubRadius);
      return {
        radius_mm: millimetresFromMetres(radius),
        exit_mps: exitBand(interpolateLinear(wake.radius, wake.exit, radius) * omega),
        thread_deg: threadBand(interpolateLinear(wake.radius, wake.swirl, radius)),
      };
    }),
  };
}

/** What the form of the model leaves open, as the diagnosis takes it too. */
const exitBand = (speed: number): Interval => around(speed, NINETY * FORM.exit * speed);
const threadBand = (swirl: number): Interval =>
  around(degreesFromRadians(Math.atan(swirl)), degreesFromRadians(NINETY * FORM.thread));

/** One air reading beside what was expected at its place and speed; null for what the model does not say in numbers. */
export interface ComparedAir {
  readonly expected: Interval | null;
  readonly words: string;
}

/** Each of the run's air readings against the prediction, at the speed read, else at its throttle, else at that of the strongest reading. */
export function comparedAir(project: Project, run: BenchRun, reduced: Reduced): ComparedAir[] {
  const model = benchModel(project, run);
  const top = reduced.points.at(-1);
  return run.airReadings.map((reading) => {
    if (reading.kind === 'lip flow') return { expected: null, words: lipWords(reading.value) };
    const rpm = reading.rpm ?? (reading.throttle === null ? (top?.rpm?.value ?? null) : null);
    const omega =
      rpm === null ? speedAt(model, reading.throttle ?? top?.throttle ?? 1) : angularSpeedFromRpm(rpm);
    if (!(omega > 0)) return { expected: null, words: 'No speed to compare at.' };
    return comparedAt(model, reading, omega);
  });
}

function comparedAt(model: Model, reading: AirReading, omega: number): ComparedAir {
  const wake = wakeOf(model, runAt(model, omega), omega);
  const radius = reading.radius_mm === null ? null : metresFromMillimetres(reading.radius_mm);
  const where = `at ${n(rpmFromAngularSpeed(omega))} rpm${reading.radius_mm === null ? '' : `, ${n(reading.radius_mm)} mm from the axis`}`;
  if (reading.kind === 'exit speed') {
    const speed = radius === null ? wake.meanExit : interpolateLinear(wake.radius, wake.exit, radius);
    const expected = exitBand(speed * omega);
    const off = reading.value / expected.value - 1;
    const said =
      reading.value >= expected.low && reading.value <= expected.high
        ? 'as expected'
        : `${formatPercent(Math.abs(off))} ${off < 0 ? 'less' : 'more'} than expected`;
    return { expected, words: `${n(expected.value)} m/s expected ${where}; this is ${said}.` };
  }
  const middle = model.rotor.hubRadius + 0.75 * (model.rotor.tipRadius - model.rotor.hubRadius);
  const expected = threadBand(interpolateLinear(wake.radius, wake.swirl, radius ?? middle));
  const read = Math.abs(reading.value);
  const said =
    read < expected.low
      ? 'less turning than expected: the blades load the air less'
      : read > expected.high
        ? 'more turning than expected: the blades stand steeper, or less air comes through'
        : 'as expected';
  return { expected, words: `${n(expected.value, 2)}° expected ${where}; this is ${said}.` };
}

const lipWords = (share: number): string =>
  share <= 0.1
    ? 'The air follows the lip.'
    : share >= 0.9
      ? 'The air leaves the lip all round.'
      : `The air leaves the lip over about ${formatPercent(share)} of the way round.`;
