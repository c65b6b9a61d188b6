import type { Design } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import { SPINNER_GROOVE, type FanLayout } from '../shape/layout.ts';
import { rectangle } from '../shape/profile.ts';
import { spinnerSeat } from '../shape/spinner.ts';
import { circle } from './circle.ts';
import { circleSegments } from './fineness.ts';
import { withSolids, type Kernel, type Solid } from './kernel.ts';
import { turned } from './turned.ts';

/** How far what cuts a face reaches past it [m]. */
export const BEYOND = 0.001;

/** Contours of the hub screws' holes [mm], the first on the x axis. */
export function screwContours({ fan }: Design, radius: number, error: number): [number, number][][] {
  const { screwCount, screwCircle_mm } = fan.hub;
  const at = metresFromMillimetres(screwCircle_mm) / 2;
  return Array.from({ length: screwCount }, (_, i) => {
    const a = (2 * Math.PI * i) / screwCount;
    return circle(radius, circleSegments(radius, error / 2), at * Math.cos(a), at * Math.sin(a));
  });
}

/** Contours [m scaled to mm] drawn out along the axis from `topZ` to `bottomZ` [m]; the caller frees the solid. */
export function between(
  kernel: Kernel,
  contours: [number, number][][],
  topZ: number,
  bottomZ: number,
): Solid {
  return withSolids((keep) => {
    const section = keep(new kernel.CrossSection(contours, 'EvenOdd'));
    return keep(section.extrude(1e3 * (bottomZ - topZ))).translate([0, 0, 1e3 * topZ]);
  });
}

/** What has to be cut out of the hub's upstream face for the spinner's tongue; null where nothing has to. */
export function grooveSolid(kernel: Kernel, { fan }: Design, layout: FanLayout, error: number): Solid | null {
  const seat = spinnerSeat(layout);
  if (!fan.hub.spinner || !seat.cut) return null;
  const { hubTopZ } = layout;
  const ring = rectangle(hubTopZ - BEYOND, hubTopZ + SPINNER_GROOVE, seat.innerRadius, seat.outerRadius);
  return turned(kernel, ring, circleSegments(layout.hubRadius, error / 2));
}
