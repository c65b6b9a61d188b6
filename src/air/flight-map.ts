import { evaluateCubic, shapeKeepingCubic } from '../numerics/interpolate.ts';
import type { Air } from './atmosphere.ts';
import { fanMap, mapMassFlow, mapThrust, mapTorque, type FanMap, type MapFactors } from './map.ts';
import type { Passage } from './passage.ts';
import type { RotorAir } from './rotor.ts';

/**
 * A fan over speed and axial speed: one map over speed (see `FanMap`) for each advance ratio J = V / (Omega R), V the
 * speed of the air toward the fan, R the tip radius. Advance ratios increase and hold 0.
 */
export interface FlightMap {
  readonly tipRadius: number;
  readonly advance: readonly number[];
  readonly atAdvance: readonly FanMap[];
}

/** Up to where a flight map reaches. */
export interface FlightMapReach {
  /** Highest speed of the rotor [rad/s]; the map begins at a tenth of it. */
  readonly highest: number;
  /**
   * Fastest air toward the fan at the highest speed [m/s]; at slower speeds as much less, for the map's edge is an
   * advance ratio. Left out: half the tip speed, where most rotors no longer push.
   */
  readonly axialTop?: number;
}

/** Columns of advance ratio below 0 and above, and how far the sinking side reaches over the climbing side. */
const SINKING = 2;
const CLIMBING = 8;
const SINKING_REACH = 0.2;

/** Advance ratio reached where nobody names a top speed of the air. */
const USUAL_ADVANCE = 0.5;

/**
 * The map of a fan in axial flight: 9 speeds from a tenth of `highest`, at 11 advance ratios from -0.2 J_top (sinking) to
 * J_top = axialTop / (highest R). At 1000 random points within, both demo fans, with and without their ducts, it missed the
 * fan itself by at most, as a share of what the fan gives at rest at that speed (a test holds the bounds):
 *   J_top 0.25   thrust 0.1 %   torque 0.2 %   mass flow 0.1 %
 *   J_top 0.5    thrust 0.4 %   torque 0.8 %   mass flow 0.2 %
 *   J_top 0.8    thrust 0.9 %   torque 0.9 %   mass flow 0.5 %
 * Building takes 99 running points, about 8 ms; reading a point about 3 microseconds.
 * Throws a plain sentence where a reach is not above 0.
 */
export function flightMap(
  rotor: RotorAir,
  passage: Passage | null,
  air: Air,
  { highest, axialTop }: FlightMapReach,
  factors: MapFactors = {},
): FlightMap {
  if (!(highest > 0)) throw new Error('A flight map needs a highest speed above 0 rad/s.');
  const top = axialTop === undefined ? USUAL_ADVANCE : axialTop / (highest * rotor.tipRadius);
  if (!(top > 0 && Number.isFinite(top)))
    throw new Error('A flight map needs a top axial speed above 0 m/s.');
  const advance = Array.from({ length: SINKING + 1 + CLIMBING }, (_, i) =>
    i < SINKING ? (-SINKING_REACH * top * (SINKING - i)) / SINKING : (top * (i - SINKING)) / CLIMBING,
  );
  return {
    tipRadius: rotor.tipRadius,
    advance,
    atAdvance: advance.map((ratio) => fanMap(rotor, passage, air, highest, factors, ratio)),
  };
}

/** What a flight map says of one running point. */
export interface MapPoint {
  readonly thrust: number;
  /** [Nm] */
  readonly torque: number;
  /** [W] at the shaft; negative where the air drives the rotor. */
  readonly power: number;
  /** [kg/s] */
  readonly massFlow: number;
  /** Whether the point lies within the map's advance ratios and speeds, so that its error is the one stated. */
  readonly within: boolean;
}

/**
 * The fan at `omega` [rad/s] in air that comes at `axialSpeed` [m/s]: shape-keeping cubics over ln Omega in each column,
 * then one over the advance ratio. Past the speeds of the map thrust and torque go with Omega^2 at the same advance ratio
 * and mass flow with Omega; past its advance ratios they are held as at the edge, which is too kind to a fan that is flown
 * faster than that (`within` is false then). A rotor that stands or turns backward is given as zeros.
 */
export function mapAt(map: FlightMap, omega: number, axialSpeed: number): MapPoint {
  if (!(omega > 0)) return { thrust: 0, torque: 0, power: 0, massFlow: 0, within: false };
  const { advance, atAdvance, tipRadius } = map;
  const ratio = axialSpeed / (omega * tipRadius);
  // A span of the cubic across depends on the two columns at its ends and their neighbours alone.
  let i = 0;
  while (i < advance.length - 2 && advance[i + 1] <= ratio) i++;
  const [from, to] = [Math.max(0, i - 1), Math.min(advance.length, i + 3)];
  const near = advance.slice(from, to);
  const columns = atAdvance.slice(from, to);
  const across = (value: (column: FanMap, omega: number) => number) =>
    evaluateCubic(
      shapeKeepingCubic(
        near,
        columns.map((column) => value(column, omega)),
      ),
      ratio,
    );
  const torque = across(mapTorque);
  const { lowest, highest } = atAdvance[0];
  return {
    thrust: across(mapThrust),
    torque,
    power: torque * omega,
    massFlow: across(mapMassFlow),
    within:
      omega >= lowest && omega <= highest && ratio >= advance[0] && ratio <= advance[advance.length - 1],
  };
}
