import { describe, expect, test } from 'vitest';
import { heavyDemo } from '../../../tests/demo.ts';
import { printers } from '../../project/catalogue.ts';
import { loadKernel, type Solid } from '../kernel.ts';
import { make } from '../make.ts';
import { meshOf, type Mesh } from '../mesh.ts';
import { checkLayers, layerPicture, layerSteps } from './check.ts';
import { overhangArea } from './facets.ts';
import { areaBelow, areaInDisc } from './geometry.ts';
import { laid, turnDown } from './lie.ts';
import { judged, orientations } from './orientation.ts';
import { checkedPart } from './part-check.ts';
import { opened, rulesOf, widestDisc } from './slice.ts';
import type { CheckedPart } from './types.ts';

const kernel = await loadKernel();
const printer = { ...printers[0].part, lineWidth_mm: 0.4, layer_mm: 0.1 };
const rules = rulesOf(printer);

function meshed(solid: Solid): Mesh {
  const mesh = meshOf(solid);
  solid.delete();
  return mesh;
}

const plain = (mesh: Mesh): CheckedPart => ({ ...mesh, name: 'piece', airFace: () => false, span: null });
const checked = (solid: Solid) => checkLayers(kernel, plain(meshed(solid)), rules);
const { Manifold, CrossSection } = kernel;

describe('opening by the width of a line', () => {
  test('a disc and a bar wider than a line stay, a finer bar goes', () => {
    for (const [section, share] of [
      [CrossSection.circle(3, 256), 1],
      [CrossSection.square([0.35, 8], true), 0],
      [CrossSection.square([0.39, 8], true), 0],
    ] as const) {
      const left = opened(section, 0.4);
      expect(left.area() / section.area()).toBeCloseTo(share, 2);
    }
  });

  test('a square loses r^2 (1 - pi / 4) in each corner', () => {
    const left = opened(CrossSection.square([5, 5], true), 0.4);
    const lost = 25 - left.area();
    const exact = 4 * 0.04 * (1 - Math.PI / 4);
    expect(Math.abs(lost / exact - 1)).toBeLessThan(0.06);
  });

  test('a wedge loses r (1 / sin(half) - 1) of its edge', () => {
    const half = (6 * Math.PI) / 180;
    const length = 20;
    const wedge = new CrossSection([
      [
        [0, 0],
        [length, -length * Math.tan(half)],
        [length, length * Math.tan(half)],
      ],
    ]);
    const { min } = opened(wedge, 0.4).bounds();
    expect(min[0]).toBeCloseTo(0.2 / Math.sin(half) - 0.2, 2);
  });

  test('widest disc of a bar and of a ring is its wall', () => {
    expect(widestDisc(CrossSection.square([2, 9], true), 0.01)).toBeCloseTo(2, 1);
    const ring = CrossSection.circle(10, 360).subtract(CrossSection.circle(8.8, 360));
    expect(widestDisc(ring, 0.01)).toBeCloseTo(1.2, 1);
  });
});

describe('areas of a shape cut by a disc or a line', () => {
  const square: [number, number][] = [
    [-2, -2],
    [2, -2],
    [2, 2],
    [-2, 2],
  ];

  test('a square about the origin, discs inside it, across it and round it', () => {
    expect(areaInDisc([square], 1)).toBeCloseTo(Math.PI, 12);
    expect(areaInDisc([square], 5)).toBeCloseTo(16, 12);
    // pi r^2 less four segments r^2 acos(d / r) - d sqrt(r^2 - d^2).
    const cap = 6.25 * Math.acos(2 / 2.5) - 2 * 1.5;
    expect(areaInDisc([square], 2.5)).toBeCloseTo(Math.PI * 6.25 - 4 * cap, 12);
    const away = square.map(([x, y]): [number, number] => [x + 10, y]);
    expect(areaInDisc([away], 5)).toBeCloseTo(0, 12);
    expect(areaInDisc([away], 20)).toBeCloseTo(16, 12);
  });

  test('a square cut by a line', () => {
    expect(areaBelow([square], [1, 0], 0.5)).toBeCloseTo(10, 12);
    expect(areaBelow([square], [Math.SQRT1_2, Math.SQRT1_2], 0)).toBeCloseTo(8, 12);
    expect(areaBelow([square], [0, 1], 9)).toBeCloseTo(16, 12);
  });
});

describe('layers of analytic solids', () => {
  test('areas sum to the volume within half a percent', () => {
    const ball = Manifold.sphere(8, 128).translate([0, 0, 8]);
    const cone = Manifold.cylinder(12, 9, 3, 128);
    for (const solid of [ball, cone]) {
      const volume = solid.volume();
      expect(Math.abs(checked(solid).volume_mm3 / volume - 1)).toBeLessThan(0.005);
    }
  });

  test('overhang area of a sphere, a standing cone on its tip, and a cube turned about an edge', () => {
    const sphere = meshed(Manifold.sphere(10, 512).translate([0, 0, 10]));
    // The cap below 45 degrees: 2 pi R^2 (1 - cos 45), without what lies in the first half layer.
    const cap = 2 * Math.PI * 100 * (1 - Math.SQRT1_2) - 2 * Math.PI * 10 * 0.05;
    expect(Math.abs(overhangArea(sphere, 45, 0.1) / cap - 1)).toBeLessThan(0.01);
    for (const [height, over] of [
      [6, true],
      [12, false],
    ] as const) {
      const tip = meshed(Manifold.cylinder(height, 1e-3, 8, 512));
      const side = Math.PI * 8 * Math.hypot(8, height);
      const found = overhangArea(tip, 45, 0.1);
      if (over) expect(Math.abs(found / side - 1)).toBeLessThan(0.01);
      else expect(found).toBe(0);
    }
    for (const [lean, sides] of [
      [30, 1],
      [44, 1],
      [46, 1],
    ] as const) {
      const cube = meshed(Manifold.cube([10, 10, 10]).rotate([lean, 0, 0]).translate([0, 0, 20]));
      // Of the two lower faces, one leans by 90 - lean from the vertical and the other by lean.
      const exact = 100 * sides;
      expect(Math.abs(overhangArea(cube, 45, 0.1) / exact - 1)).toBeLessThan(0.01);
    }
    const flat = meshed(Manifold.cube([10, 10, 10]).translate([0, 0, 20]));
    expect(overhangArea(flat, 45, 0.1)).toBeCloseTo(100, 6);
  });

  test('a bridge between two piers is told with its span, a shelf with its need of support', () => {
    const pier = (x: number) => Manifold.cube([3, 10, 8]).translate([x, 0, 0]);
    const deck = Manifold.cube([12, 10, 2]).translate([0, 0, 8]);
    const bridge = checked(Manifold.union([pier(0), pier(9), deck]));
    const span = bridge.findings.find((f) => f.kind === 'bridge')!;
    // One layer at the limit may reach over by its own height on each side.
    expect(span.width_mm).toBeGreaterThan(6 - 0.4);
    expect(span.width_mm).toBeLessThan(6.1);
    expect(span.weight).toBe('note');
    expect(span.from_mm).toBeCloseTo(8, 1);
    const shelf = checked(Manifold.union([pier(0), deck]));
    const hang = shelf.findings.find((f) => f.kind === 'overhang')!;
    expect(hang.weight).toBe('care');
    expect(hang.width_mm).toBeGreaterThan(8);
  });

  test('a piece that begins in the air is an island, a needle is slender, a part past the bed is a stop', () => {
    const post = Manifold.cube([4, 4, 20]);
    const hook = Manifold.union([
      post,
      Manifold.cube([10, 4, 2]).translate([0, 0, 18]),
      Manifold.cube([2, 4, 8]).translate([8, 0, 10]),
    ]);
    const island = checked(hook).findings.find((f) => f.kind === 'island')!;
    expect(island.from_mm).toBeCloseTo(10, 0);
    expect(island.area_mm2).toBeCloseTo(8, 0);
    const needle = checked(Manifold.union([Manifold.cube([20, 20, 2]), Manifold.cube([1.2, 1.2, 30])]));
    expect(needle.findings.map((f) => f.kind)).toContain('slender');
    const long = checked(Manifold.cube([400, 4, 4]));
    expect(long.findings[0]).toMatchObject({ kind: 'bed', weight: 'stop' });
  });

  test('an upright ring is not slender, however thin its wall', () => {
    const ring = Manifold.cylinder(60, 20, 20, 128).subtract(Manifold.cylinder(60, 19, 19, 128));
    expect(checked(ring).findings.filter((f) => f.kind === 'slender')).toEqual([]);
  });

  test('the picture of a layer shows what the check counts', () => {
    const fin = meshed(
      Manifold.union([Manifold.cube([10, 10, 2]), Manifold.cube([10, 0.3, 6]).translate([0, 2, 0])]),
    );
    const { outline, lost } = layerPicture(kernel, fin, rules, 4);
    expect(outline).toHaveLength(1);
    expect(lost).toHaveLength(1);
    expect(checkLayers(kernel, plain(fin), rules).findings[0]).toMatchObject({
      kind: 'lost',
      weight: 'stop',
    });
  });
});

describe('a fan on the bed', () => {
  test('a blade too fine for a 0.4 mm nozzle is caught with the radius where it fails', async () => {
    const { fan } = heavyDemo;
    const [hub, tip] = [fan.hubDiameter_mm / 2, fan.tipDiameter_mm / 2];
    const thick = { span_ratio: 0, chord_mm: 10, angle_deg: 80, thickness_ratio: 0.12, camber_ratio: 0 };
    const design = {
      ...heavyDemo,
      fan: {
        ...fan,
        hubHeight_mm: 12,
        section: { ...fan.section, family: 'flat-plate' as const, trailingEdge_mm: 0.2 },
        blade: [thick, { ...thick, span_ratio: 0.5 }, { ...thick, span_ratio: 1, thickness_ratio: 0.02 }],
      },
    };
    const [rotor] = (await make(design, { kernel })).parts;
    const { findings } = checkLayers(kernel, checkedPart(rotor, design), rules);
    const lost = findings.filter((f) => f.kind === 'lost' && f.aerodynamic);
    const whole = lost.find((f) => f.weight === 'stop')!;
    // The thickness falls from 1.2 to 0.2 mm over the outer half: past some 0.4 mm nothing of it is left.
    expect(whole.radius_mm![0]).toBeGreaterThan(hub + 0.7 * (tip - hub));
    expect(whole.radius_mm![1]).toBeCloseTo(tip, 0);
    expect(whole.text).toContain('from the axis');
  });

  test('every part of the demo: layers sum to its volume; stopping half way frees the solid', async () => {
    const made = await make(heavyDemo, { kernel, quality: 'coarse' });
    for (const part of made.parts) {
      const steps = layerSteps(kernel, checkedPart(part, heavyDemo), rules);
      expect(steps.next().value).toBeGreaterThan(0);
      steps.return(undefined as never);
      const { volume_mm3, layers } = checkLayers(kernel, checkedPart(part, heavyDemo), rules);
      expect(Math.abs(volume_mm3 / (part.volume_m3 * 1e9) - 1)).toBeLessThan(0.005);
      expect(layers.every((l) => l.area_mm2 > 0 && l.lost_mm2 >= 0)).toBe(true);
    }
  });
});

describe('how a part lies', () => {
  test('turning down brings the direction down and keeps lengths', () => {
    for (const down of [
      [0, 0, -1],
      [0, 0, 1],
      [1, 0, 0],
      [0.6, 0, 0.8],
      [-0.48, 0.64, 0.6],
    ] as const) {
      const r = turnDown(down);
      const image = [0, 1, 2].map(
        (i) => r[3 * i] * down[0] + r[3 * i + 1] * down[1] + r[3 * i + 2] * down[2],
      );
      expect(image[0]).toBeCloseTo(0, 12);
      expect(image[1]).toBeCloseTo(0, 12);
      expect(image[2]).toBeCloseTo(-1, 12);
      const det =
        r[0] * (r[4] * r[8] - r[5] * r[7]) -
        r[1] * (r[3] * r[8] - r[5] * r[6]) +
        r[2] * (r[3] * r[7] - r[4] * r[6]);
      expect(det).toBeCloseTo(1, 12);
    }
  });

  test('a laid part still finds its way into the fan', () => {
    const mesh = meshed(Manifold.cube([3, 5, 9]).translate([2, 1, 0]));
    const placement = [0, 1, 0, 0, -1, 0, 0, 0, 0, 0, 1, 0, 5, 6, 7, 1];
    const part = { ...mesh, placement };
    const turned = laid(part, [0.6, 0, 0.8]);
    const at = (m: readonly number[], p: Float32Array, i: number) =>
      [0, 1, 2].map((k) => m[k] * p[i] + m[4 + k] * p[i + 1] + m[8 + k] * p[i + 2] + m[12 + k]);
    for (let i = 0; i < mesh.positions.length; i += 3) {
      const [before, after] = [at(placement, mesh.positions, i), at(turned.placement, turned.positions, i)];
      before.forEach((value, k) => expect(after[k]).toBeCloseTo(value, 4));
    }
    expect(Math.min(...turned.positions.filter((_, i) => i % 3 === 2))).toBeCloseTo(0, 5);
  });

  test('a table goes on its head, a blade along the bed where the load runs in its layers', () => {
    const leg = (x: number, y: number) => Manifold.cube([2, 2, 15]).translate([x, y, 0]);
    const table = Manifold.union([
      ...[leg(0, 0), leg(18, 0), leg(0, 18), leg(18, 18)],
      Manifold.cube([20, 20, 2]).translate([0, 0, 15]),
    ]);
    const part = { ...meshed(table), airFace: () => false, loadAxis: null };
    const [best] = orientations(part, printer, heavyDemo.material);
    expect(best.down[2]).toBeCloseTo(1, 3);
    expect(best.overhang_mm2).toBe(0);
    const bar = { ...meshed(Manifold.cube([40, 8, 2])), airFace: () => false, loadAxis: [1, 0, 0] as const };
    expect(judged(bar, [-1, 0, 0], printer, heavyDemo.material).strength_ratio).toBeLessThan(0.95);
    expect(Math.abs(orientations(bar, printer, heavyDemo.material)[0].down[2])).toBeCloseTo(1, 6);
  });
});
