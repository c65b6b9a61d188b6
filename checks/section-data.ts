import { liftDrag, PLATE_NOSE, sectionStream, type SectionShape } from '../src/air/section.ts';
import type { SectionConstants } from '../src/air/section-constants.ts';
import { radiansFromDegrees } from '../src/quantities/units.ts';
import { readTable } from './data.ts';

/** A section with measured polars. */
export interface MeasuredSection {
  readonly id: string;
  readonly words: string;
  readonly file: string;
  readonly reynolds: readonly number[];
  readonly shape: SectionShape;
  /** Whether the fit may see it. */
  readonly fitted: boolean;
  /** Angles in degrees between which the flow is attached, as read off the measured lift and drag. */
  readonly attached: readonly [number, number];
}

const shape = (thickness: number, camber: number, camberPosition: number): SectionShape => ({
  thickness,
  camber,
  camberPosition,
  trailingEdge: 0,
});

/** Thickness and camber of BW-3 and the plate are from memory, of E387 rounded; NACA 6409 by its name. */
export const SECTIONS: readonly MeasuredSection[] = [
  {
    id: 'flat-plate',
    words: 'Flat plate',
    file: 'flat_plate.csv',
    reynolds: [100_100, 199_700],
    shape: { ...shape(0.02, 0, 0.5), nose: PLATE_NOSE },
    fitted: true,
    attached: [-3.1, 3.3],
  },
  {
    id: 'bw3',
    words: 'BW-3 (thin, cambered)',
    file: 'bw3.csv',
    reynolds: [59_400, 198_900],
    shape: shape(0.05, 0.05, 0.4),
    fitted: true,
    attached: [1, 9],
  },
  {
    id: 'naca6409',
    words: 'NACA 6409',
    file: 'naca6409.csv',
    reynolds: [61_000, 200_600],
    shape: shape(0.09, 0.06, 0.4),
    fitted: true,
    attached: [0, 9],
  },
  {
    id: 'e387',
    words: 'E387',
    file: 'e387.csv',
    reynolds: [61_000, 202_300],
    shape: shape(0.091, 0.034, 0.45),
    fitted: false,
    attached: [-4, 8],
  },
];

/** One measured point of a section with what the model says there. */
export interface SectionPoint {
  readonly reynolds: number;
  readonly alpha_deg: number;
  readonly cl: number;
  readonly cd: number;
  readonly ourCl: number;
  readonly ourCd: number;
}

/** All points of a section, measured and computed. */
export function sectionPoints(
  { file, shape: section }: MeasuredSection,
  constants?: SectionConstants,
): SectionPoint[] {
  const table = readTable(file);
  const [re, alpha, cl, cd] = ['Re', 'alpha_deg', 'Cl', 'Cd'].map((name) => table.column(name));
  return re.map((reynolds, i) => {
    const ours = liftDrag(sectionStream(section, reynolds, 0, 0, 1, constants), radiansFromDegrees(alpha[i]));
    return { reynolds, alpha_deg: alpha[i], cl: cl[i], cd: cd[i], ourCl: ours.cl, ourCd: ours.cd };
  });
}
