import { mapSpeedFor, mapThrust, mapTorque, type FanMap } from '../air/map.ts';
import { hoverEndurance, type Endurance } from '../craft/endurance.ts';
import { driveAt, speedAtThrottle, type Supply } from '../drive/supply.ts';
import type { Project } from '../project/schema.ts';
import { dayOf } from './model.ts';

/** The few numbers a craft is judged by, from a map alone: what intervals and comparisons recompute many times over. */
export interface Answers {
  readonly thrustToWeight: number;
  /** null where no throttle holds it */
  readonly hoverThrottle: number | null;
  readonly hoverMinutes: number;
  readonly failsAtCharge: number;
  /** [rad/s]; null where the fan can't give the thrust at any speed. */
  readonly hoverSpeed: number | null;
  readonly fullSpeed: number;
  readonly fullThrust: number;
}

/** Answers for a fan of this map that must give `needed` [N] in hover. */
export function answersFrom(project: Project, supply: Supply, map: FanMap, needed: number): Answers {
  const torqueAt = (omega: number) => mapTorque(map, omega);
  const fullSpeed = speedAtThrottle(supply, torqueAt, 1);
  const fullThrust = mapThrust(map, fullSpeed);
  const hoverSpeed = mapSpeedFor(map, needed);
  const drive = hoverSpeed ? driveAt(supply, torqueAt(hoverSpeed), hoverSpeed) : null;
  const endurance: Endurance =
    hoverSpeed && drive && fullThrust >= needed
      ? hoverEndurance(project, torqueAt(hoverSpeed), hoverSpeed, dayOf(project))
      : { minutes: 0, failsAtCharge: 1 };
  return {
    thrustToWeight: fullThrust / needed,
    hoverThrottle: drive?.throttle ?? null,
    hoverMinutes: endurance.minutes,
    failsAtCharge: endurance.failsAtCharge,
    hoverSpeed,
    fullSpeed,
    fullThrust,
  };
}

/** A map with thrust and torque multiplied: how a small change of the fan moves the whole map. */
export function scaledMap(map: FanMap, thrustFactor: number, torqueFactor: number): FanMap {
  const scale = (cubic: FanMap['thrustOverSquare'], factor: number) => ({
    knots: cubic.knots,
    coefficients: cubic.coefficients.map((c) => c * factor),
  });
  return {
    ...map,
    thrustOverSquare: scale(map.thrustOverSquare, thrustFactor),
    torqueOverSquare: scale(map.torqueOverSquare, torqueFactor),
  };
}
