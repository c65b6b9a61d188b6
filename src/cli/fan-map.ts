import { flightMap, mapAt, type FlightMap } from '../air/flight-map.ts';
import { formatNumber as n } from '../quantities/format.ts';
import { angularSpeedFromRpm, rpmFromAngularSpeed } from '../quantities/units.ts';
import type { FanParts } from '../study/single-fan.ts';
import { BadInput } from './fault.ts';
import { writeWhole } from './files.ts';

/** A map that was written. */
export interface WrittenMap {
  readonly file: string;
  readonly points: number;
  readonly words: string;
}

/** Writes the map of a fan up to `rpm` as CSV, whole or not at all. */
export function writeMap(file: string, { rotor, passage, air }: FanParts, rpm: number): WrittenMap {
  if (!(rpm > 0))
    throw new BadInput('--map reaches up to the speed of the fan, so that must be above 0 rpm.');
  const map = flightMap(rotor, passage, air, { highest: angularSpeedFromRpm(rpm) });
  const rows = mapRows(map);
  writeWhole(file, mapCsv(rows));
  const axial = rows.slice(-map.advance.length).map((row) => row[1]);
  return {
    file,
    points: rows.length,
    words:
      `Wrote ${file}: ${rows.length} points from ${n(rows[0][0])} to ${n(rpm)} rpm, the air coming at ` +
      `${n(axial[0])} to ${n(axial[axial.length - 1])} m/s at the highest speed and at as much less as the rotor is slower.`,
  };
}

const HEADING = 'rpm,axial_mps,thrust_N,torque_Nm,power_W,massFlow_kgps';

/** The map's own points, where it is the fan itself: by speed, then by axial speed. */
function mapRows(map: FlightMap): number[][] {
  const speeds = Array.from(map.atAdvance[0].thrustOverSquare.knots, Math.exp);
  return speeds.flatMap((omega) =>
    map.advance.map((advance) => {
      const axialSpeed = advance * omega * map.tipRadius;
      const { thrust, torque, power, massFlow } = mapAt(map, omega, axialSpeed);
      return [rpmFromAngularSpeed(omega), axialSpeed, thrust, torque, power, massFlow];
    }),
  );
}

const mapCsv = (rows: readonly number[][]): string =>
  [HEADING, ...rows.map((row) => row.map((value) => Number(value.toPrecision(7))).join(','))].join('\n') +
  '\n';
