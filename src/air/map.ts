import { evaluateCubic, shapeKeepingCubic, type ShapeKeepingCubic } from '../numerics/interpolate.ts';
import type { Air } from './atmosphere.ts';
import { runFan, type FanAir, type FanRun } from './fan.ts';
import type { Passage } from './passage.ts';
import type { RotorAir } from './rotor.ts';

/**
 * A fan over speed at one advance ratio V / (Omega R), 0 where nothing else is said: T / Omega^2, Q / Omega^2 and
 * m / Omega as curves over ln Omega. They bend only with Reynolds and Mach number, so few points do: 9 points from a tenth
 * of the top speed hold thrust and torque at rest within 0.3 % (test).
 */
export interface FanMap {
  readonly thrustOverSquare: ShapeKeepingCubic;
  readonly torqueOverSquare: ShapeKeepingCubic;
  readonly massFlowOverSpeed: ShapeKeepingCubic;
  readonly lowest: number;
  readonly highest: number;
}

/** Factors on the section a map may be made with. */
export type MapFactors = Pick<FanRun, 'dragFactor' | 'liftFactor'>;

/** Points of a map, and lowest speed over highest. */
const POINTS = 9;
const SPAN = 0.1;

/** The map of a fan up to `highest` [rad/s], the air coming at `advance` times the tip speed. */
export function fanMap(
  rotor: RotorAir,
  passage: Passage | null,
  air: Air,
  highest: number,
  factors: MapFactors = {},
  advance = 0,
): FanMap {
  const speeds = Array.from({ length: POINTS }, (_, i) => highest * SPAN ** (1 - i / (POINTS - 1)));
  const points = speeds.map((omega) =>
    runFan(rotor, passage, air, { omega, axialSpeed: advance * omega * rotor.tipRadius, ...factors }),
  );
  const logs = speeds.map(Math.log);
  const over = (value: (f: FanAir) => number, power: number) =>
    shapeKeepingCubic(
      logs,
      points.map((p, i) => value(p) / speeds[i] ** power),
    );
  return {
    thrustOverSquare: over((p) => p.thrust, 2),
    torqueOverSquare: over((p) => p.torque, 2),
    massFlowOverSpeed: over((p) => p.massFlow, 1),
    lowest: speeds[0],
    highest,
  };
}

/** Thrust [N] at `omega` [rad/s], 0 and up; outside the map by its end's square law. */
export const mapThrust = (map: FanMap, omega: number): number =>
  omega > 0 ? evaluateCubic(map.thrustOverSquare, Math.log(omega)) * omega * omega : 0;

/** Torque [Nm] at `omega` [rad/s], 0 and up; outside the map by its end's square law. */
export const mapTorque = (map: FanMap, omega: number): number =>
  omega > 0 ? evaluateCubic(map.torqueOverSquare, Math.log(omega)) * omega * omega : 0;

/** Mass flow [kg/s] at `omega` [rad/s], 0 and up; outside the map in proportion to speed. */
export const mapMassFlow = (map: FanMap, omega: number): number =>
  omega > 0 ? evaluateCubic(map.massFlowOverSpeed, Math.log(omega)) * omega : 0;

/**
 * Speed [rad/s] at which the fan gives `thrust` [N] at rest, by fixed-point steps on Omega = sqrt(T / (T / Omega^2));
 * null where the fan's thrust is not positive there.
 */
export function mapSpeedFor(map: FanMap, thrust: number): number | null {
  if (!(thrust > 0)) return thrust === 0 ? 0 : null;
  let omega = map.highest / 2;
  for (let i = 0; i < 60; i++) {
    const coefficient = evaluateCubic(map.thrustOverSquare, Math.log(omega));
    if (!(coefficient > 0)) return null;
    const next = Math.sqrt(thrust / coefficient);
    if (Math.abs(next - omega) <= 1e-13 * next) return next;
    omega = next;
  }
  return omega;
}
