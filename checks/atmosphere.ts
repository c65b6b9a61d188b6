import { atmosphere, sutherlandViscosity } from '../src/air/atmosphere.ts';
import type { Air } from '../src/air/atmosphere.ts';
import type { Check, Topic } from './check.ts';

const SOURCE =
  'U.S. Standard Atmosphere, 1976, NOAA, NASA and USAF, Washington 1976, table by geometric height; the same as ISO 2533:1975 at these heights.';

/** Geometric height [m], temperature [K], pressure [bar], density [kg/m3], speed of sound [m/s]. */
const TABLE = [
  [0, 288.15, 1.0133, 1.225, 340.3],
  [1000, 281.65, 0.8988, 1.1117, 336.4],
  [2000, 275.15, 0.795, 1.0066, 332.5],
  [3000, 268.66, 0.7012, 0.9093, 328.6],
  [4000, 262.17, 0.6166, 0.8194, 324.6],
] as const;

/** One column of the table; `lastDigit` is one unit in the last printed place, which is as near as it can be met. */
function column(
  id: string,
  title: string,
  unit: string,
  at: 1 | 2 | 3 | 4,
  lastDigit: number,
  of: (air: Air) => number,
): Check {
  return {
    id: `atmosphere-${id}`,
    title,
    unit,
    source: SOURCE,
    status: 'read',
    points: () => TABLE.map((row) => ({ at: `${row[0]} m`, ours: of(atmosphere(row[0])), theirs: row[at] })),
    target: { absolute: lastDigit },
  };
}

export const atmosphereTopic: Topic = {
  id: 'atmosphere',
  title: 'Air at height',
  intro: 'The standard day, by geometric height. The target is one unit in the last place the table prints.',
  checks: [
    column('temperature', 'Temperature', 'K', 1, 0.01, (air) => air.temperature),
    column('pressure', 'Pressure', 'bar', 2, 0.0001, (air) => air.pressure / 1e5),
    column('density', 'Density', 'kg/m³', 3, 0.0001, (air) => air.density),
    column('sound-speed', 'Speed of sound', 'm/s', 4, 0.1, (air) => air.soundSpeed),
    {
      id: 'atmosphere-viscosity',
      title: 'Viscosity',
      unit: 'µPa s',
      source: SOURCE,
      status: 'read',
      points: () => [{ at: '288.15 K', ours: sutherlandViscosity(288.15) * 1e6, theirs: 17.89 }],
      target: { absolute: 0.01 },
    },
  ],
};
