import type { Printer } from '../project/schema.ts';
import { formatNumber as n } from '../quantities/format.ts';
import { degreesFromRadians, metresFromMillimetres, millimetresFromMetres } from '../quantities/units.ts';
import type { BladeLay } from './printed-fan.ts';

/** The thinnest blade a printer can make. */
export interface ThinnestBlade {
  /** Thinner than this nothing comes out [m]. */
  readonly comesOut: number;
  /** From this on the wall comes out whole, by the printer's own least wall [m]. */
  readonly whole: number;
  readonly words: string;
}

/**
 * "Thinnest blade this printer can make", for a plate that leans by `angle` [rad] to the bed, which in a rotor printed flat
 * is its angle to the plane of rotation; `where` says so in words. Printed along the layers, a plate of thickness t takes a line of width w and a layer of height h where w sin(angle) + h cos(angle) <= t (the width
 * of that rectangle across the plate), and its wall within a layer is t / sin(angle) wide. Printed upright it takes a line
 * where w <= t. Source: plane geometry.
 */
export function thinnestBlade(
  printer: Pick<Printer, 'lineWidth_mm' | 'layer_mm' | 'minimumWall_mm'>,
  lay: BladeLay,
  angle: number,
  where = lay === 'flat'
    ? `at ${n(degreesFromRadians(angle), 2)}° in a rotor printed flat`
    : 'printed upright on its root',
): ThinnestBlade {
  const line = metresFromMillimetres(printer.lineWidth_mm);
  const layer = metresFromMillimetres(printer.layer_mm);
  const wall = metresFromMillimetres(printer.minimumWall_mm);
  const sine = Math.abs(Math.sin(angle));
  const comesOut = lay === 'flat' ? line * sine + layer * Math.abs(Math.cos(angle)) : line;
  const whole = Math.max(comesOut, lay === 'flat' ? wall * sine : wall);
  const mm = (metres: number) => `${n(millimetresFromMetres(metres), 2)} mm`;
  const words =
    whole > comesOut * 1.001
      ? `The thinnest blade this printer makes whole ${where} is ${mm(whole)}; down to ${mm(comesOut)} something comes out, but not in one piece.`
      : `The thinnest blade this printer makes ${where} is ${mm(comesOut)}.`;
  return { comesOut, whole, words };
}
