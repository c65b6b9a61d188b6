import { mapThrust, mapTorque } from '../../air/map.ts';
import { restVoltage } from '../../drive/battery.ts';
import { motorCurrent } from '../../drive/motor.ts';
import { driveAt, speedAtThrottle, supplyAt, type Supply } from '../../drive/supply.ts';
import { dayOf } from '../../assess/model.ts';
import type { Project } from '../../project/schema.ts';
import { findRoot } from '../../numerics/root.ts';
import type { FanNode, Prepared } from './prepare.ts';
import type { Unknowns } from './unknowns.ts';

/** One fan running. SI; current is the one fan's share from the pack. */
export interface Running {
  readonly omega: number;
  readonly thrust: number;
  readonly torque: number;
  readonly voltage: number;
  readonly current: number;
  readonly motorCurrent: number;
}

/** Thrust [N] and torque [N m] of a fan at a speed [rad/s]. */
export interface FanLaw {
  readonly thrustAt: (omega: number) => number;
  readonly torqueAt: (omega: number) => number;
}

/** The drive with something amiss: `charge` is the state of charge the bench run is thought to have had. */
export function bentSupply(project: Project, u: Unknowns, charge: number, fansRunning: number): Supply {
  const sound = supplyAt(project, 0.5, dayOf(project));
  return {
    ...sound,
    motor: {
      ...sound.motor,
      velocityConstant: sound.motor.velocityConstant * Math.exp(u.kv),
      resistance: sound.motor.resistance * Math.exp(u.winding),
    },
    packResistance: sound.packResistance * Math.exp(u.pack),
    rippleLoss: sound.rippleLoss * Math.max(0, 1 + u.ripple),
    rest: restVoltage(project.battery, Math.min(1, Math.max(0.02, charge + u.charge))),
    fans: fansRunning,
  };
}

/** A node of the fan, or two that act together, as thrust and torque over speed. */
export function lawOf(prepared: Prepared, nodes: readonly FanNode[]): FanLaw {
  const { map, logs } = prepared;
  const ratio = (omega: number, pick: (n: FanNode) => Float64Array) => {
    const x = Math.log(omega);
    const [a, b] = x < logs[1] ? [0, 1] : [1, 2];
    const t = Math.min(1, Math.max(0, (x - logs[a]) / (logs[b] - logs[a])));
    let product = 1;
    for (const node of nodes) product *= pick(node)[a] * (1 - t) + pick(node)[b] * t;
    return product;
  };
  return {
    thrustAt: (omega) => (omega > 0 ? mapThrust(map, omega) * ratio(omega, (n) => n.thrust) : 0),
    torqueAt: (omega) => (omega > 0 ? mapTorque(map, omega) * ratio(omega, (n) => n.torque) : 0),
  };
}

/** The fan at a duty, its motor current held to `most` [A]. */
export function runAtThrottle(law: FanLaw, supply: Supply, duty: number, most: number): Running {
  const free = speedAtThrottle(supply, law.torqueAt, Math.min(1, duty));
  const over = (omega: number) => motorCurrent(supply.motor, law.torqueAt(omega), omega) - most;
  const held = free > 0 && over(free) > 0 ? (over(0) >= 0 ? 0 : findRoot(over, 0, free, free * 1e-9)) : free;
  return runAtSpeed(law, supply, held);
}

/** The fan at a speed, at whatever duty that takes. */
export function runAtSpeed(law: FanLaw, supply: Supply, omega: number): Running {
  const torque = law.torqueAt(omega);
  const drive = omega > 0 ? driveAt(supply, torque, omega) : null;
  return {
    omega,
    thrust: law.thrustAt(omega),
    torque,
    voltage: drive?.batteryVoltage ?? supply.rest,
    current: drive?.batteryCurrent ?? 0,
    motorCurrent: drive?.motorCurrent ?? 0,
  };
}
