import type { Design } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import type { FanLayout } from '../shape/layout.ts';
import { passageRadius, type Profile } from '../shape/profiles.ts';
import { sectionOutline } from '../shape/section.ts';
import { vaneSize, vaneSpec } from '../shape/vane.ts';
import { circle } from './circle.ts';
import { circleSegments } from './fineness.ts';
import { sound, withSolids, type Kernel, type Solid } from './kernel.ts';
import { loft } from './loft.ts';
import { solidOf } from './mesh.ts';
import { turned } from './turned.ts';

/** How far what trims the vanes reaches past them along the axis [m]. */
const BEYOND = 0.001;

/** The plate that carries the motor, with the holes of its screws. */
export function seatSolid(kernel: Kernel, design: Design, layout: FanLayout, error: number): Solid {
  const { motor, printer } = design;
  const widening = metresFromMillimetres(printer.holeShrink_mm) / 2;
  const contours = [circle(layout.seatRadius, circleSegments(layout.seatRadius, error / 2))];
  if (layout.seatHoleRadius > 0) {
    const radius = layout.seatHoleRadius + widening;
    contours.push(circle(radius, circleSegments(radius, error / 2)));
  }
  const hole = layout.screwHoleRadius + widening;
  for (let i = 0; i < motor.mountHoles; i++) {
    const a = (2 * Math.PI * i) / motor.mountHoles;
    const [x, y] = [layout.mountCircleRadius * Math.cos(a), layout.mountCircleRadius * Math.sin(a)];
    contours.push(circle(hole, circleSegments(hole, error / 2), x, y));
  }
  return withSolids((keep) => {
    const section = keep(new kernel.CrossSection(contours, 'EvenOdd'));
    const plate = keep(section.extrude(1e3 * (layout.seatBottomZ - layout.seatTopZ)));
    return plate.translate([0, 0, 1e3 * layout.seatTopZ]);
  });
}

/** All vanes, trimmed to the middle of the wall. */
export function vaneSolid(
  kernel: Kernel,
  design: Design,
  layout: FanLayout,
  error: number,
  segments: number,
): Solid {
  const { fan } = design;
  const { chord, angle } = vaneSize(fan);
  const outline = sectionOutline(vaneSpec(fan), error > 1e-4 ? 10 : 20);
  const middleZ = (layout.vaneTopZ + layout.vaneBottomZ) / 2;
  const heights = Array.from(
    { length: 25 },
    (_, i) => layout.vaneTopZ - BEYOND + ((layout.vaneBottomZ - layout.vaneTopZ + 2 * BEYOND) * i) / 24,
  );
  const middle = heights.map((z): [number, number] => [z, passageRadius(layout, z) + layout.wall / 2]);
  const within: Profile = [...middle.map(([z]): [number, number] => [z, 0]), ...middle.reverse()].reverse();
  const inner = layout.vaneInnerRadius;
  const outer = Math.max(...middle.map(([, r]) => r)) + layout.wall;
  const pieces = Math.max(2, Math.ceil(((outer - inner) / 0.004) * Math.min(1, 2e-5 / error)));
  const sections = Array.from({ length: pieces + 1 }, (_, i) => {
    const radius = inner + ((outer - inner) * i) / pieces;
    return { radius, wrapRadius: radius, outline, chord, angle, middleZ, grow: 0 };
  });
  return withSolids((keep) => {
    const vane = sound(keep(solidOf(kernel, loft(sections))), 'vane');
    const count = fan.stator.vaneCount;
    const all = Array.from({ length: count }, (_, i) => keep(vane.rotate([0, 0, (360 * i) / count])));
    const together = keep(kernel.Manifold.union(all));
    return together.intersect(keep(turned(kernel, within, segments)));
  });
}
