import { framePlanOf, joinedPlanOf } from '../craft/frame.ts';
import type { Design } from '../project/schema.ts';
import type { FramePlan, Slab } from '../shape/frame.ts';
import { fanPlacements } from './assembly-fans.ts';
import { ductSolid } from './duct.ts';
import { circleSegments, facetError, type Quality } from './fineness.ts';
import { sound, withSolids, type Kernel, type Solid } from './kernel.ts';
import type { Placement } from './kind.ts';
import { meshOf, type Mesh } from './mesh.ts';
import { combined, shift, turn } from './placement.ts';

type Contour = [number, number][];

/** The plan of a design that has a frame; `present` of its parts has asked before. */
const planned = (design: Design): FramePlan => held(framePlanOf(design));

function held(plan: FramePlan | null): FramePlan {
  if (!plan) throw new Error('This design has no printed frame.');
  return plan;
}

/** The plate with its bay [mm], in the frame of the craft. */
export function plateMesh(kernel: Kernel, design: Design, quality: Quality): Mesh {
  return withSolids((keep) =>
    meshOf(keep(plateSolid(kernel, planned(design), facetError(design.printer, quality)))),
  );
}

/** One arm along +x [mm]. */
export function armMesh(kernel: Kernel, design: Design, quality: Quality): Mesh {
  return stripMesh(kernel, planned(design).arm, 'arm', facetError(design.printer, quality));
}

/** One bridge along x about the origin [mm]. */
export function bridgeMesh(kernel: Kernel, design: Design, quality: Quality): Mesh {
  return stripMesh(kernel, planned(design).bridge, 'bridge', facetError(design.printer, quality));
}

/** Where each arm and each bridge stands in the craft. */
export const armPlacements = (design: Design): Placement[] =>
  planned(design).armStands.map(({ angle }) => turn(angle));
export const bridgePlacements = (design: Design): Placement[] =>
  planned(design).bridgeStands.map(({ angle, x, y }) => combined(shift(1e3 * x, 1e3 * y, 0), turn(angle)));

/**
 * Plate, webs and every duct as one body [mm], in the frame of the craft. Webs reach to the middle of the walls; where
 * vanes are curved, ducts of fans that turn the other way are mirrored.
 */
export function bodyMesh(kernel: Kernel, design: Design, quality: Quality): Mesh {
  const plan = held(joinedPlanOf(design));
  const error = facetError(design.printer, quality);
  return withSolids((keep) => {
    const right = keep(ductSolid(kernel, design, quality));
    const left = design.fan.stator.curved ? keep(right.mirror([0, 1, 0])) : right;
    const ducts = fanPlacements(design, plan).map(({ hand, placement }) =>
      keep((hand === 'left' ? left : right).transform(matrixOf(placement))),
    );
    const pieces: Solid[] = [...ducts, keep(plateSolid(kernel, plan, error))];
    if (plan.bridge) {
      const web = keep(slabSolid(kernel, plan.bridge, error));
      for (const placement of bridgePlacements(design)) pieces.push(keep(web.transform(matrixOf(placement))));
    }
    return meshOf(sound(keep(kernel.Manifold.union(pieces)), 'body'));
  });
}

/** What the kernel takes for a transform. */
export const matrixOf = (placement: Placement): Parameters<Solid['transform']>[0] =>
  [...placement] as Parameters<Solid['transform']>[0];

function stripMesh(kernel: Kernel, slab: Slab | null, what: string, error: number): Mesh {
  if (!slab) throw new Error(`This frame has no ${what}.`);
  return withSolids((keep) => meshOf(sound(keep(slabSolid(kernel, slab, error)), what)));
}

function plateSolid(kernel: Kernel, { plate, blocks }: FramePlan, error: number): Solid {
  return withSolids((keep) => {
    const pieces = [keep(slabSolid(kernel, plate, error))];
    // Blocks begin within the plate, so that the union has no faces that only touch.
    const middle = (plate.topZ + plate.bottomZ) / 2;
    for (const { x, y, length, width, depth } of blocks) {
      const size = [length, width, plate.bottomZ + depth - middle].map((s) => 1e3 * s);
      const cube = keep(kernel.Manifold.cube([size[0], size[1], size[2]]));
      pieces.push(keep(cube.translate([1e3 * (x - length / 2), 1e3 * (y - width / 2), 1e3 * middle])));
    }
    return sound(kernel.Manifold.union(pieces), 'plate');
  });
}

function slabSolid(kernel: Kernel, slab: Slab, error: number): Solid {
  const contours: Contour[] = [slab.outline.map(([x, y]) => [1e3 * x, 1e3 * y])];
  for (const { x, y, radius } of slab.holes) contours.push(circle(x, y, radius, error));
  for (const { x, y, length, width } of slab.slots)
    contours.push(
      [
        [-1, -1],
        [1, -1],
        [1, 1],
        [-1, 1],
      ].map(([sx, sy]) => [1e3 * (x + (sx * length) / 2), 1e3 * (y + (sy * width) / 2)]),
    );
  return withSolids((keep) => {
    const section = keep(new kernel.CrossSection(contours, 'EvenOdd'));
    const plate = keep(section.extrude(1e3 * (slab.bottomZ - slab.topZ)));
    return plate.translate([0, 0, 1e3 * slab.topZ]);
  });
}

function circle(x: number, y: number, radius: number, error: number): Contour {
  const segments = circleSegments(radius, error / 2);
  return Array.from({ length: segments }, (_, i) => {
    const a = (2 * Math.PI * i) / segments;
    return [1e3 * (x + radius * Math.cos(a)), 1e3 * (y + radius * Math.sin(a))];
  });
}
