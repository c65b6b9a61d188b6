import { ANNULI } from '../../air/rotor.ts';
import { highestSpeed, type Model } from '../../assess/model.ts';
import type { Random } from '../../numerics/random.ts';
import { interpolateLinear } from '../../numerics/interpolate.ts';
import { bentFan, runBent } from '../diagnose/bent-fan.ts';
import type { CauseId } from '../diagnose/causes.ts';
import type { AirEvidence, Evidence, EvidencePoint } from '../diagnose/evidence.ts';
import { wakeOf } from '../diagnose/prepare.ts';
import { FORM, TEST_RADIUS } from '../diagnose/rows.ts';
import { bentSupply, runAtThrottle, type FanLaw, type Running } from '../diagnose/running.ts';
import type { TestSpec } from '../diagnose/tests.ts';
import { NOTHING, type Turn, type Unknowns } from '../diagnose/unknowns.ts';
import { lackingLaw, type Lack } from './lacking.ts';

/** What is really the matter with an invented fan on an invented rig. */
export interface Truth {
  readonly causes: readonly CauseId[];
  readonly u: Unknowns;
  readonly turn: Turn;
  /** -1: the size of a pull the wrong way was written down. */
  readonly sign: 1 | -1;
  /** Something the diagnosis has no cause for. */
  readonly lacks: Lack | null;
}

/** How the invented bench run was taken. */
export interface RigPlan {
  readonly throttles: readonly number[];
  readonly reads: readonly ('rpm' | 'voltage' | 'current' | 'exit speed' | 'thread angle')[];
  readonly charge: number;
  readonly charge_sd: number;
  readonly fansRunning: number;
  readonly scaleStep_N: number;
  readonly common: Evidence['common'];
  readonly jetOnPan: boolean;
}

/** An invented fan on its rig: the whole model run annulus by annulus at every speed the drive tries, no map and no slopes. */
export interface SyntheticRig {
  readonly evidence: Evidence;
  /** Outcome of a test, as a maker would note it: in the unit of its aim, with its own error. */
  readonly outcome: (test: TestSpec, soundThrustHalf: number, random: Random) => number;
  /** Without the errors of the meters, at full throttle. */
  readonly atFull: Running;
}

/** Runs the invented bench session. */
export function syntheticRig(model: Model, truth: Truth, plan: RigPlan, random: Random): SyntheticRig {
  const { u } = truth;
  const fan = bentFan(model, u, truth.turn, ANNULI);
  const runs = new Map<number, ReturnType<typeof runBent>>();
  const at = (omega: number) => {
    const known = runs.get(omega);
    if (known) return known;
    const run = runBent(fan, omega);
    runs.set(omega, run);
    return run;
  };
  const supply = bentSupply(model.project, u, plan.charge, plan.fansRunning);
  const plain: FanLaw = {
    thrustAt: (omega) => (omega > 0 ? at(omega).thrust : 0),
    torqueAt: (omega) => (omega > 0 ? Math.abs(at(omega).torque) : 0),
  };
  const lacking = truth.lacks ? lackingLaw(truth.lacks, plain, highestSpeed(model.project), model, u) : null;
  const law = lacking?.law ?? plain;
  const soundFan = bentFan(model, NOTHING, 'right', ANNULI);
  const sound = runAtThrottle(
    {
      thrustAt: (omega) => runBent(soundFan, omega).thrust,
      torqueAt: (omega) => (omega > 0 ? runBent(soundFan, omega).torque : 0),
    },
    bentSupply(model.project, NOTHING, plan.charge, plan.fansRunning),
    1,
    Infinity,
  );
  const most = u.limit > 0 ? sound.motorCurrent * (1 - u.limit) : Infinity;
  const running = (throttle: number): Running => {
    const duty = Math.min(1, throttle * Math.exp(u.throttle)) * (lacking?.duty(throttle) ?? 1);
    return runAtThrottle(law, supply, duty, most);
  };
  const shown = Math.exp(u.scale) * (1 - u.pan) * truth.sign;
  const step = plan.scaleStep_N;
  const points = plan.throttles.map((throttle): EvidencePoint => {
    const r = running(throttle);
    const thrust_sd = Math.hypot(step / Math.sqrt(12), 0.005 * r.thrust);
    const pull = (r.thrust + (lacking?.offset(throttle) ?? 0)) * shown;
    const noise = (own: number, form: number) => Math.hypot(own, form) * random.normal();
    const read = (what: RigPlan['reads'][number], value: number) =>
      plan.reads.includes(what) ? value : null;
    return {
      throttle,
      omega: read('rpm', r.omega * Math.exp(u.tachometer + noise(0.004, FORM.rpm))),
      omega_sd: 0.004 * r.omega,
      thrust: pull + thrust_sd * random.normal() + FORM.thrust * Math.abs(pull) * random.normal(),
      thrust_sd,
      voltage: read('voltage', r.voltage * Math.exp(u.voltmeter + noise(0.002, FORM.voltage))),
      voltage_sd: 0.002 * r.voltage,
      current: read(
        'current',
        Math.max(0, r.current * Math.exp(u.ammeter + noise(0.01, FORM.current)) + 0.01 * random.normal()),
      ),
      current_sd: Math.hypot(0.01 * r.current, 0.01),
    };
  });
  const top = Math.max(...plan.throttles);
  const atTop = running(top);
  const wake = atTop.omega > 0 ? wakeOf(fan, at(atTop.omega), atTop.omega) : null;
  const radius = TEST_RADIUS * model.rotor.tipRadius;
  const exit = () =>
    Math.max(0.05, (wake ? interpolateLinear(wake.radius, wake.exit, radius) : 0) * atTop.omega);
  const thread = () => Math.atan(wake ? interpolateLinear(wake.radius, wake.swirl, radius) : 0);
  const airReadings: AirEvidence[] = [];
  const place = { radius, throttle: top, omega: null };
  if (plan.reads.includes('exit speed')) {
    const value = exit() * Math.exp(Math.hypot(0.05, FORM.exit) * random.normal());
    airReadings.push({ kind: 'exit speed', value, sd: 0.05 * value, ...place });
  }
  if (plan.reads.includes('thread angle')) {
    const value = Math.abs(thread() + Math.hypot(0.05, FORM.thread) * random.normal());
    airReadings.push({ kind: 'thread angle', value, sd: 0.05, ...place });
  }
  const outcome = (test: TestSpec, soundThrustHalf: number, chance: Random): number => {
    const error = test.sd * chance.normal();
    const { aim } = test;
    if (aim.kind === 'unknown') return u[aim.unknown] + error;
    if (aim.kind === 'turn')
      return ((aim.turn === 'either' ? truth.turn !== 'right' : truth.turn === aim.turn) ? 1 : 0) + error;
    switch (aim.channel) {
      case 'rpm':
        return Math.log(Math.max(1, atTop.omega)) + u.tachometer + error;
      case 'current':
        return Math.log(Math.max(0.005, atTop.current)) + u.ammeter + error;
      case 'exit':
        return Math.log(exit()) + error;
      case 'thread':
        return thread() + error;
      case 'half': {
        const half = running(0.5);
        return ((half.thrust + (lacking?.offset(0.5) ?? 0)) * shown) / soundThrustHalf + error;
      }
    }
  };
  return {
    evidence: {
      air: model.air,
      fansRunning: plan.fansRunning,
      charge: plan.charge,
      charge_sd: plan.charge_sd,
      points,
      airReadings,
      facts: [],
      common: plan.common,
      jetOnPan: plan.jetOnPan,
    },
    outcome,
    atFull: running(1),
  };
}
