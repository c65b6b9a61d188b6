import type { Fan } from '../project/schema.ts';
import { bladeAt, type BladeCurves } from './blade.ts';
import { halfDepth } from './root.ts';

/** How far the tip ring reaches past the blades at either end [m]. Common practice, no source. */
const MARGIN = 0.0003;

/** Half the height of the ring that joins the tips [m], all of the tip section inside it; 0 without a ring. */
export function ringHalfHeight(fan: Fan, curves: BladeCurves): number {
  if (!(fan.tipRing_mm > 0)) return 0;
  return halfDepth(bladeAt(curves, curves.tipRadius)) + MARGIN;
}
