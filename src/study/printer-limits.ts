import { layingOf, layOfFan } from '../print/printed-fan.ts';
import { thinnestBlade } from '../print/thinnest.ts';
import type { Fan, Project } from '../project/schema.ts';
import { formatNumber as n } from '../quantities/format.ts';
import { degreesFromRadians, radiansFromDegrees } from '../quantities/units.ts';
import { bladeUp, chosenDown } from '../shape/lies.ts';
import { smallestFan, type SmallestFan } from './smallest-fan.ts';

/** The thinnest blade at one place. */
export interface ThinnestAt {
  /** Lean of the section to the bed; in a rotor printed flat, to the plane of rotation. */
  readonly angle_deg: number;
  /** Thinner than this nothing comes out. */
  readonly comesOut_mm: number;
  /** From this on it comes out whole. */
  readonly whole_mm: number;
  readonly words: string;
}

export interface PrinterLimits {
  /** Where the blade leans least and where it leans most; one entry where the angle makes no difference. */
  readonly thinnest: readonly ThinnestAt[];
  readonly smallest: SmallestFan;
}

/** "Thinnest blade this printer can make" and "smallest fan this printer should try", for the fan in hand. */
export const printerLimits = (project: Project): PrinterLimits => ({
  thinnest: thinnestBlades(project),
  smallest: smallestFan(project),
});

/** The thinnest blade as the fan's blades lie. */
export function thinnestBlades({ fan, printer }: Pick<Project, 'fan' | 'printer'>): readonly ThinnestAt[] {
  const lay = layOfFan(fan);
  const at = (lean: number): ThinnestAt => {
    const { comesOut, whole, words } = thinnestBlade(printer, lay, lean, whereLaid(fan, lean));
    return { angle_deg: degreesFromRadians(lean), comesOut_mm: comesOut * 1e3, whole_mm: whole * 1e3, words };
  };
  const leans = fan.blade.map(({ angle_deg }) => {
    const [x, y] = layingOf(printer, bladeUp(fan), radiansFromDegrees(angle_deg)).up;
    return Math.atan(x / y);
  });
  const sizes = leans.map(Math.abs);
  // A twisted blade that leans either way lies flat somewhere between.
  const least = Math.min(...leans) * Math.max(...leans) < 0 ? 0 : Math.min(...sizes);
  const most = Math.max(...sizes);
  return lay === 'flat' && least < most ? [at(least), at(most)] : [at(least)];
}

/** How the place of a blade that leans by `lean` [rad] is printed; undefined: a rotor flat or a blade upright, as usual. */
function whereLaid(fan: Fan, lean: number): string | undefined {
  const apart = fan.rotorParts === 'blades apart';
  if (layOfFan(fan) === 'upright')
    return apart && fan.bladesPrinted === 'standing' ? undefined : 'standing across the layers';
  const leaning = `where it leans by ${n(degreesFromRadians(lean), 2)}° to the bed`;
  if (apart) return `${leaning}, printed lying,`;
  return chosenDown(fan, 'rotor') ? `${leaning}, as the rotor is laid,` : undefined;
}
