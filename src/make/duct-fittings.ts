import type { Design, Fan } from '../project/schema.ts';
import { degreesFromRadians, metresFromMillimetres } from '../quantities/units.ts';
import { endOfSlope } from '../shape/joints.ts';
import type { FanLayout } from '../shape/layout.ts';
import { lugPlaces, type LugPlace } from '../shape/lugs.ts';
import { oriented, type Profile } from '../shape/profile.ts';
import { passageRadius, wallOuterRadius } from '../shape/profiles.ts';
import { wireSlot } from '../shape/wire-slot.ts';
import { circle } from './circle.ts';
import { circleSegments } from './fineness.ts';
import { withSolids, type Kernel, type Solid } from './kernel.ts';
import { turned } from './turned.ts';

/** How far what cuts reaches past what is cut [m]. */
const PAST = 0.0005;

/** Straight pieces by which the lugs follow the wall they grow out of. */
const WALL_STEPS = 12;

/** All lugs, from the middle of the wall outward, with holes and pockets; null where there are none. The caller frees it. */
export function lugSolid(kernel: Kernel, design: Design, layout: FanLayout, error: number): Solid | null {
  const lugs = lugPlaces(layout, design.fan);
  if (lugs.length === 0) return null;
  const [lug] = lugs;
  const widening = metresFromMillimetres(design.printer.holeShrink_mm) / 2;
  const lowest = layout.exitZ + PAST;
  return withSolids((keep) => {
    const prism = (contour: [number, number][], from: number, to: number) => {
      const section = keep(new kernel.CrossSection([contour]));
      return keep(keep(section.extrude(1e3 * (to - from))).translate([0, 0, 1e3 * from]));
    };
    const round = (radius: number) => circle(radius, circleSegments(radius, error / 2), lug.radius);
    const segments = circleSegments(lug.radius + lug.halfWidth, error / 2);
    const band = keep(turned(kernel, bandProfile(layout, lug), segments));
    const body = keep(prism(tongue(lug, layout, error), lug.topZ - PAST, lowest).intersect(band));
    const hole = prism(round(lug.holeRadius + widening), lug.topZ - PAST, lug.bottomZ + PAST);
    const pocket = prism(round(lug.pocketRadius), lug.bottomZ, lowest);
    const one = keep(body.subtract(keep(kernel.Manifold.union([hole, pocket]))));
    const all = lugs.map(({ angle }) => keep(one.rotate([0, 0, degreesFromRadians(angle)])));
    return kernel.Manifold.union(all);
  });
}

/** A strip along x from inside the wall to a round end about the hole [mm], anticlockwise. */
function tongue({ radius, halfWidth }: LugPlace, layout: FanLayout, error: number): [number, number][] {
  const pieces = circleSegments(halfWidth, error / 2) / 2;
  const points: [number, number][] = [[layout.boreRadius / 2, -halfWidth]];
  for (let i = 0; i <= pieces; i++) {
    const a = -Math.PI / 2 + (Math.PI * i) / pieces;
    points.push([radius + halfWidth * Math.cos(a), halfWidth * Math.sin(a)]);
  }
  points.push([layout.boreRadius / 2, halfWidth]);
  return points.map(([x, y]) => [1e3 * x, 1e3 * y]);
}

/** Where lugs may be: outside the middle of the wall, below their flat face, above the 45 degree underside. */
function bandProfile(layout: FanLayout, lug: LugPlace): Profile {
  const middle = (z: number) => (passageRadius(layout, z) + wallOuterRadius(layout, z)) / 2;
  const tip = lug.radius + lug.halfWidth;
  const endZ = endOfSlope(lug.bottomZ, tip, layout.exitZ, middle);
  const points: [number, number][] = [];
  const low = tip - (endZ - lug.bottomZ);
  if (low > middle(endZ) + 1e-6) points.push([endZ, low]);
  for (let k = 0; k <= WALL_STEPS; k++) {
    const z = endZ + ((lug.topZ - endZ) * k) / WALL_STEPS;
    points.push([z, middle(z)]);
  }
  // The slope goes on past the tip, so that the round end alone ends the lug.
  points.push([lug.topZ, tip + PAST], [lug.bottomZ - PAST, tip + PAST]);
  return oriented(points);
}

/** What is cut out of the wall for the motor leads; null where they have no slot. The caller frees it. */
export function slotSolid(kernel: Kernel, fan: Fan, layout: FanLayout): Solid | null {
  const slot = wireSlot(layout, fan);
  if (!slot) return null;
  const half = slot.width / 2;
  const outline: [number, number][] = [
    [0, slot.topZ],
    [half, slot.eavesZ],
    [half, slot.bottomZ],
    [-half, slot.bottomZ],
    [-half, slot.eavesZ],
  ];
  const from = passageRadius(layout, slot.topZ) / 2;
  return withSolids((keep) => {
    const section = keep(new kernel.CrossSection([outline.map(([y, z]) => [1e3 * y, 1e3 * z])]));
    const prism = keep(section.extrude(1e3 * (layout.outerRadius + PAST - from)));
    // Drawn in y and z and drawn out along z; turned so that it runs along x.
    const radial = keep(keep(prism.rotate([90, 0, 90])).translate([1e3 * from, 0, 0]));
    return radial.rotate([0, 0, degreesFromRadians(slot.angle)]);
  });
}
