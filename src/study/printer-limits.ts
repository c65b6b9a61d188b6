import { layOfFan } from '../print/printed-fan.ts';
import { thinnestBlade } from '../print/thinnest.ts';
import type { Project } from '../project/schema.ts';
import { radiansFromDegrees } from '../quantities/units.ts';
import { smallestFan, type SmallestFan } from './smallest-fan.ts';

/** The thinnest blade at one angle to the plane of rotation. */
export interface ThinnestAt {
  readonly angle_deg: number;
  /** Thinner than this nothing comes out. */
  readonly comesOut_mm: number;
  /** From this on it comes out whole. */
  readonly whole_mm: number;
  readonly words: string;
}

export interface PrinterLimits {
  /** At the flattest and the steepest place of the blade; one entry where the angle makes no difference. */
  readonly thinnest: readonly ThinnestAt[];
  readonly smallest: SmallestFan;
}

/** "Thinnest blade this printer can make" and "smallest fan this printer should try", for the fan in hand. */
export function printerLimits(project: Project): PrinterLimits {
  const { fan, printer } = project;
  const angles = fan.blade.map((s) => Math.abs(s.angle_deg));
  const [flattest, steepest] = [Math.min(...angles), Math.max(...angles)];
  const lay = layOfFan(fan);
  const at = (angle_deg: number): ThinnestAt => {
    const { comesOut, whole, words } = thinnestBlade(printer, lay, radiansFromDegrees(angle_deg));
    return { angle_deg, comesOut_mm: comesOut * 1e3, whole_mm: whole * 1e3, words };
  };
  const thinnest = lay === 'flat' && flattest < steepest ? [at(flattest), at(steepest)] : [at(flattest)];
  return { thinnest, smallest: smallestFan(project) };
}
