import { loadKernel, type Solid } from '../src/make/kernel.ts';
import { overhangArea } from '../src/make/layers/facets.ts';
import { checkLayers } from '../src/make/layers/check.ts';
import { rulesOf } from '../src/make/layers/slice.ts';
import { meshOf, type Mesh } from '../src/make/mesh.ts';
import { elementOf } from '../src/print/element.ts';
import { areaOf, opening } from '../src/print/opening.ts';
import { printers } from '../src/project/catalogue.ts';
import type { Outline } from '../src/shape/section.ts';
import type { Topic } from './check.ts';

const kernel = await loadKernel();
const { Manifold } = kernel;
const rules = rulesOf({ ...printers[0].part, lineWidth_mm: 0.4, layer_mm: 0.1, overhang_deg: 45 });

function meshed(solid: Solid): Mesh {
  const mesh = meshOf(solid);
  solid.delete();
  return mesh;
}

const outline = (points: readonly (readonly [number, number])[]): Outline => ({
  x: Float64Array.from(points, ([x]) => x),
  y: Float64Array.from(points, ([, y]) => y),
});

/** Line and layer in mm: outlines need no unit here. */
const LINE = 0.4;
const LAYER = 0.1;

/** A bar [mm] turned to `angle` against the bed, opened by line and layer; its area. */
function barLeft(thickness: number, angle: number): number {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const corners = [
    [0, 0],
    [8, 0],
    [8, thickness],
    [0, thickness],
  ].map(([x, y]) => [x * c - y * s, x * s + y * c] as const);
  return opening(outline(corners), elementOf(LINE, LAYER, 0)).reduce((sum, piece) => sum + areaOf(piece), 0);
}

/** Least thickness of that bar of which anything is left, by halving. */
function leastThickness(angle: number): number {
  let [none, some] = [0.01, 1];
  while (some - none > 1e-5) {
    const middle = (none + some) / 2;
    if (barLeft(middle, angle) > 0) some = middle;
    else none = middle;
  }
  return some;
}

/** Chord that a wedge of half angle `half` loses at its edge to an upright line. */
function wedgeLoss(half: number): number {
  const wedge = outline([
    [0, 0],
    [-10, 10 * Math.tan(half)],
    [-10, -10 * Math.tan(half)],
  ]);
  const [piece] = opening(wedge, elementOf(LINE, LAYER, 1));
  return -piece.x.reduce((most, x) => Math.max(most, x), -Infinity);
}

const degrees = (angle: number) => (angle * Math.PI) / 180;

const layered = (solid: Solid) =>
  checkLayers(kernel, { ...meshed(solid), name: 'piece', airFace: () => false, span: null }, rules)
    .volume_mm3;

export const printTopic: Topic = {
  id: 'print',
  title: 'What the printer makes',
  intro:
    'Shapes whose opening, volume and overhang can be written down, read by the functions that read blades and parts. They hold the geometry only: that a real printer lays down what an opening leaves is common practice, and no measured print was at hand to hold it against; the coupon is there for that.',
  checks: [
    {
      id: 'print-wedge',
      title: 'Chord that a sharp edge loses to an upright line',
      unit: 'mm',
      source:
        'Plane geometry: the disc of radius r that touches both sides of a wedge of half angle b ends r (1 / sin b - 1) before its tip. Line 0.4 mm.',
      status: 'computed',
      points: () =>
        [3, 6, 12, 24].map((half) => ({
          at: `half angle ${half}°`,
          ours: wedgeLoss(degrees(half)),
          theirs: (LINE / 2) * (1 / Math.sin(degrees(half)) - 1),
        })),
      target: { relative: 0.01 },
    },
    {
      id: 'print-thinnest',
      title: 'Thinnest bar of which anything is left, lying askew',
      unit: 'mm',
      source:
        'Plane geometry: a rectangle w by h fits between two lines at angle b where w sin b + h cos b is their distance. Line 0.4 mm, layer 0.1 mm.',
      status: 'computed',
      points: () =>
        [5, 20, 45, 70].map((angle) => ({
          at: `${angle}°`,
          ours: leastThickness(degrees(angle)),
          theirs: LINE * Math.sin(degrees(angle)) + LAYER * Math.cos(degrees(angle)),
        })),
      target: { relative: 0.01 },
    },
    {
      id: 'print-corners',
      title: 'Area left of a 5 by 1 mm bar by an upright line',
      unit: 'mm²',
      source: 'Plane geometry: each right corner loses (1 - pi / 4) r^2. Line 0.4 mm.',
      status: 'computed',
      points: () => {
        const bar = outline([
          [0, 0],
          [5, 0],
          [5, 1],
          [0, 1],
        ]);
        const left = areaOf(opening(bar, elementOf(LINE, LAYER, 1))[0]);
        return [{ at: 'line 0.4 mm', ours: left, theirs: 5 - (4 - Math.PI) * (LINE / 2) ** 2 }];
      },
      target: { relative: 0.001 },
    },
    {
      id: 'print-layers-volume',
      title: 'Layer areas times layer height against the volume of the solid',
      unit: 'mm³',
      source: 'Volumes of sphere 4/3 pi r^3, frustum pi h (a^2 + a b + b^2) / 3, tube pi h (a^2 - b^2).',
      status: 'computed',
      points: () => [
        {
          at: 'sphere of 16 mm',
          ours: layered(Manifold.sphere(8, 256).translate([0, 0, 8])),
          theirs: (4 / 3) * Math.PI * 8 ** 3,
        },
        {
          at: 'frustum 18 to 6 mm, 12 mm high',
          ours: layered(Manifold.cylinder(12, 9, 3, 256)),
          theirs: (Math.PI * 12 * (81 + 27 + 9)) / 3,
        },
        {
          at: 'tube 40 by 37.6 mm, 30 mm high',
          ours: layered(Manifold.cylinder(30, 20, 20, 256).subtract(Manifold.cylinder(30, 18.8, 18.8, 256))),
          theirs: Math.PI * 30 * (20 ** 2 - 18.8 ** 2),
        },
      ],
      target: { relative: 0.005 },
    },
    {
      id: 'print-overhang',
      title: 'Area that leans past 45 degrees',
      unit: 'mm²',
      source:
        'Geometry: cap of a sphere 2 pi R^2 (1 - cos 45), less its first half layer on the bed; mantle of a cone on its tip pi r sqrt(r^2 + h^2); one lower face of a cube turned by 30 or by 44 degrees; the floor of a cube in the air.',
      status: 'computed',
      points: () => {
        const over = (solid: Solid) => overhangArea(meshed(solid), 45, 0.1);
        const cube = (lean: number) =>
          over(Manifold.cube([10, 10, 10]).rotate([lean, 0, 0]).translate([0, 0, 20]));
        return [
          {
            at: 'sphere of 20 mm',
            ours: over(Manifold.sphere(10, 512).translate([0, 0, 10])),
            theirs: 2 * Math.PI * 100 * (1 - Math.SQRT1_2) - 2 * Math.PI * 10 * 0.05,
          },
          {
            at: 'cone of 16 mm on its tip, 6 mm high',
            ours: over(Manifold.cylinder(6, 1e-3, 8, 512)),
            theirs: Math.PI * 8 * 10,
          },
          { at: 'cube turned by 30°', ours: cube(30), theirs: 100 },
          { at: 'cube turned by 44°', ours: cube(44), theirs: 100 },
          { at: 'cube in the air', ours: cube(0), theirs: 100 },
        ];
      },
      target: { relative: 0.01 },
    },
  ],
};
