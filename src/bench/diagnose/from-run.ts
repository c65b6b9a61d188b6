import type { AirReading, BenchRun } from '../../project/bench.ts';
import type { Interval } from '../../quantities/interval.ts';
import { angularSpeedFromRpm, metresFromMillimetres, radiansFromDegrees } from '../../quantities/units.ts';
import { mapThrust, mapTorque } from '../../air/map.ts';
import { mapOf, type Model } from '../../assess/model.ts';
import { chargeAtBench } from '../charge.ts';
import type { Reduced, ReducedPoint } from '../types.ts';
import type { AirEvidence, Evidence, EvidencePoint } from './evidence.ts';
import { factsOf } from './facts.ts';
import { bentSupply, runAtThrottle } from './running.ts';
import { NINETY, NOTHING } from './unknowns.ts';

/** Pan or table nearer than this many tip diameters is met by the jet. Common practice, no source. */
const NEAR_PAN = 2.5;

/** Largest likely errors of air readings where nobody said: 8 % of the speed, 6 degrees. Common practice, no source. */
const EXIT_ERROR = 0.08;
const THREAD_ERROR_DEG = 6;

/** A bench run, reduced, as the evidence of a diagnosis. `model` is that of the project in the air of the bench. */
export function evidenceOf(model: Model, run: BenchRun, reduced: Reduced): Evidence {
  const { project } = model;
  const { common } = reduced;
  const charge = chargeAtBench(project.battery, run.battery);
  return {
    air: reduced.air,
    fansRunning: reduced.fansRunning,
    ...charge,
    points: reduced.points.map((p) => pointOf(p, common)),
    airReadings: run.airReadings.filter((a) => !a.leftOut && a.kind !== 'lip flow').map(airOf),
    facts: factsOf(model, run, fullCurrent(model, charge.charge, reduced.fansRunning)),
    common: {
      thrust: common.thrust_ratio / NINETY,
      rpm: common.rpm_ratio / NINETY,
      voltage: common.voltage_ratio / NINETY,
      current: common.current_ratio / NINETY,
    },
    jetOnPan: jetOnPan(run, project.fan.tipDiameter_mm),
  };
}

/** Motor current of the sound fan at full throttle [A]. */
function fullCurrent(model: Model, charge: number, fansRunning: number): number {
  const map = mapOf(model);
  const law = {
    thrustAt: (omega: number) => mapThrust(map, omega),
    torqueAt: (omega: number) => mapTorque(map, omega),
  };
  return runAtThrottle(law, bentSupply(model.project, NOTHING, charge, fansRunning), 1, Infinity)
    .motorCurrent;
}

function pointOf(p: ReducedPoint, common: Reduced['common']): EvidencePoint {
  return {
    throttle: p.throttle,
    omega: p.rpm && angularSpeedFromRpm(p.rpm.value),
    omega_sd: p.rpm ? angularSpeedFromRpm(own(p.rpm, common.rpm_ratio)) : 0,
    thrust: p.thrust_N.value,
    thrust_sd: Math.max(1e-5, p.thrustOwn_N / NINETY),
    voltage: p.voltage_V?.value ?? null,
    voltage_sd: p.voltage_V ? own(p.voltage_V, common.voltage_ratio) : 0,
    current: p.current_A?.value ?? null,
    current_sd: p.current_A ? own(p.current_A, common.current_ratio) : 0,
  };
}

/** Standard deviation of what is a reading's own, its meter's common error taken out. */
function own({ value, low, high }: Interval, common: number): number {
  const half = (high - low) / 2;
  return Math.sqrt(Math.max(0, half * half - (common * value) ** 2)) / NINETY;
}

function airOf({ kind, value, radius_mm, throttle, rpm, error }: AirReading): AirEvidence {
  const speed = kind === 'exit speed';
  const likely = error ?? (speed ? EXIT_ERROR * Math.abs(value) : THREAD_ERROR_DEG);
  return {
    kind: speed ? 'exit speed' : 'thread angle',
    value: speed ? value : radiansFromDegrees(value),
    sd: (speed ? likely : radiansFromDegrees(likely)) / NINETY,
    radius: radius_mm === null ? null : metresFromMillimetres(radius_mm),
    throttle,
    omega: rpm === null ? null : angularSpeedFromRpm(rpm),
  };
}

function jetOnPan({ rig }: BenchRun, tipDiameter_mm: number): boolean {
  const down = rig.kind === 'craft on the scale' || rig.kind === 'fan lifting off';
  return rig.distanceToPan_mm === null ? down : rig.distanceToPan_mm < NEAR_PAN * tipDiameter_mm;
}
