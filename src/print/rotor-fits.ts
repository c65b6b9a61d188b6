import type { Design } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import { fanLayout, type FanLayout } from '../shape/layout.ts';
import { rootKey } from '../shape/root-key.ts';
import type { RotorFits } from '../shape/rotor-fits.ts';
import { holeDiameter, matingGap } from './fits.ts';

/**
 * The fits of a rotor on this printer: pressed on the shaft, or passed freely by shaft end, thread and screws; keys slide;
 * the spinner's tongue is pressed in. Drawn gaps are never negative, so that drawn parts never overlap: on a printer
 * without errors a press fit of two printed parts comes out touching.
 */
export function rotorFits(
  { fan, motor, printer }: Pick<Design, 'fan' | 'motor' | 'printer'>,
  layout: FanLayout = fanLayout(fan, motor),
): RotorFits {
  const { hold, screw_mm } = fan.hub;
  const through = 2 * layout.hubBoreRadius;
  const screw = metresFromMillimetres(screw_mm);
  return {
    bore: holeDiameter(hold === 'press fit' ? 'press' : 'clearance', through, printer) / 2,
    capBore: holeDiameter('clearance', through, printer) / 2,
    screwHole: holeDiameter('clearance', screw, printer) / 2,
    screwCore: holeDiameter('thread-forming', screw, printer) / 2,
    key: Math.max(0, matingGap('slide', rootKey(fan, layout).footWidth, printer)),
    tongue: Math.max(0, matingGap('press', 2 * layout.hubRadius, printer)),
  };
}
