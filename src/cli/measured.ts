import { enoughForPolar, polarAt, polarTable, readPolarCsv, type PolarPoint } from '../air/polar.ts';
import { formatNumber as n } from '../quantities/format.ts';
import { degreesFromRadians } from '../quantities/units.ts';
import type { SingleFan } from '../study/single-fan.ts';
import { BadInput } from './fault.ts';
import { plainText, readBytes } from './files.ts';

/** A section measured in a tunnel, from a file. */
export interface MeasuredSection {
  readonly file: string;
  readonly points: readonly PolarPoint[];
}

/** What a point may be, as in a project file; outside, a column is mixed up or a unit is another. */
const RANGES = [
  ['Re', (p: PolarPoint) => p.reynolds, 100, 1e8],
  ['alpha in degrees', (p: PolarPoint) => degreesFromRadians(p.alpha), -180, 180],
  ['Cl', (p: PolarPoint) => p.cl, -5, 5],
  ['Cd', (p: PolarPoint) => p.cd, 0, 5],
] as const;

/** Reads a measured section from CSV; BadInput with one sentence where it can't be used. */
export function readMeasuredSection(file: string): MeasuredSection {
  const read = readPolarCsv(plainText(readBytes(file), file, 'a polar table'));
  if (!read.ok) throw new BadInput(`${file}: ${read.message}`);
  const { points } = read;
  for (const point of points)
    for (const [name, value, low, high] of RANGES)
      if (!(value(point) >= low && value(point) <= high))
        throw new BadInput(
          `${file}: ${name} is ${Number(value(point).toPrecision(6))} in one of its points; it must be from ${low} to ${high}.`,
        );
  if (!enoughForPolar(points))
    throw new BadInput(
      `${file}: A measured section needs at least three angles of attack at one Reynolds number.`,
    );
  return { file, points };
}

/** An angle with three digits at most. */
const plain = (angle: number): string => String(Number(angle.toPrecision(3))).replace('-', '−');

/** What was measured, and how much of the running blade it covers, in sentences. `beyond` names the model it hands over to. */
export function measuredWords(
  { file, points }: MeasuredSection,
  beyond: string,
  { annuli }: SingleFan,
): string[] {
  const table = polarTable(points);
  const [lowest, highest] = [table.reynolds[0], table.reynolds[table.reynolds.length - 1]];
  const ends = table.curves
    .flatMap(({ alpha }) => [alpha[0], alpha[alpha.length - 1]])
    .map(degreesFromRadians);
  const range = lowest === highest ? n(lowest) : `${n(lowest)} to ${n(highest)}`;
  const covered = annuli.reynolds.filter((reynolds, i) => {
    const { alpha } = polarAt(table, reynolds);
    const angle = annuli.angleOfAttack_deg[i];
    return angle >= degreesFromRadians(alpha[0]) && angle <= degreesFromRadians(alpha[alpha.length - 1]);
  }).length;
  const all = annuli.reynolds.length;
  const met = [Math.min(...annuli.reynolds), Math.max(...annuli.reynolds)];
  const held = [
    ...(met[0] < lowest ? ['below, its lowest curve is held, which is likely too kind'] : []),
    ...(met[1] > highest ? ['above, its highest curve is held'] : []),
  ];
  return [
    `Section measured in ${file}: Re ${range}, ${plain(Math.min(...ends))} to ${plain(Math.max(...ends))}°; past its angles ${beyond}.`,
    `${covered === all ? `All ${all}` : `${covered} of ${all}`} rings of the blade work within its angles.`,
    ...(held.length > 0
      ? [`The blade meets Re ${n(met[0])} to ${n(met[1])}, the file has ${range}; ${held.join('; ')}.`]
      : []),
  ];
}
