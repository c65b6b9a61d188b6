import { describe, expect, it } from 'vitest';
import { laidShare, materialAndTime, type PacePrinter, type SolidLayer } from './material-time.ts';

const printer: PacePrinter = {
  process: 'filament',
  lineWidth_mm: 0.4,
  layer_mm: 0.2,
  walls: 2,
  infill_ratio: 0,
  skinLayers: 5,
  speed_mmps: 50,
  layerTime_s: 2,
};
const material = { density_kgpm3: 1250 };

/** Equal layers, as many as `height` holds. */
const stack = (height: number, slice: number, area: number, perimeter: number, bodies = 1): SolidLayer[] =>
  Array.from({ length: Math.round(height / slice) }, (_, i) => ({
    z_mm: (i + 0.5) * slice,
    area_mm2: area,
    perimeter_mm: perimeter,
    bodies,
  }));
const cylinder = (r: number, height: number, slice: number) =>
  stack(height, slice, Math.PI * r * r, 2 * Math.PI * r);

describe('material and time', () => {
  it('a hollow cylinder weighs its wall and its two lids', () => {
    const part = materialAndTime(cylinder(10, 20, 0.2), 0.2, printer, material);
    const wall = Math.PI * (10 ** 2 - 9.2 ** 2) * 20;
    const lids = 2 * Math.PI * 9.2 ** 2 * 1;
    expect(part.laid_mm3).toBeCloseTo(wall + lids, 3);
    expect(part.mass_g).toBeCloseTo((wall + lids) * 1.25e-3, 6);
    expect(part.filament_m).toBeCloseTo((wall + lids) / (Math.PI * 0.875 ** 2) / 1e3, 6);
    expect(part.layers).toBe(100);
  });

  it('the same from finer slices than the printer lays', () => {
    const coarse = materialAndTime(cylinder(10, 20, 0.2), 0.2, printer, material);
    const fine = materialAndTime(cylinder(10, 20, 0.05), 0.05, printer, material);
    expect(fine.mass_g).toBeCloseTo(coarse.mass_g, 6);
    expect(fine.layers).toBe(coarse.layers);
    expect(fine.time_h).toBeCloseTo(coarse.time_h, 6);
  });

  it('full infill is solid; a thin wall is solid whatever the infill; a tube counts both its outlines', () => {
    expect(
      materialAndTime(cylinder(10, 20, 0.2), 0.2, { ...printer, infill_ratio: 1 }, material).fill_ratio,
    ).toBe(1);
    expect(materialAndTime(stack(10, 0.2, 1.5 * 100, 203), 0.2, printer, material).fill_ratio).toBe(1);
    const tube = stack(30, 0.2, Math.PI * (20 ** 2 - 16 ** 2), 2 * Math.PI * 36, 0);
    const laid = materialAndTime(tube, 0.2, { ...printer, skinLayers: 0 }, material).laid_mm3;
    expect(laid).toBeCloseTo(2 * Math.PI * 36 * 0.8 * 30, 3);
  });

  it('stiffness: infill counts by its square, a shell less than it weighs nowhere', () => {
    const at = (infill_ratio: number) =>
      materialAndTime(cylinder(10, 20, 0.2), 0.2, { ...printer, infill_ratio }, material);
    expect(at(1).stiffness_ratio).toBe(1);
    expect(at(0).stiffness_ratio).toBeCloseTo(at(0).fill_ratio, 12);
    expect(at(0.4).stiffness_ratio).toBeLessThan(at(0.4).fill_ratio);
    expect(at(0.4).stiffness_ratio).toBeGreaterThan(at(0.1).stiffness_ratio);
  });

  it('a step in the middle gets its skin', () => {
    const stepped = [...cylinder(10, 10, 0.2), ...cylinder(5, 10, 0.2)];
    const plain = { ...printer, skinLayers: 0 };
    const added =
      materialAndTime(stepped, 0.2, printer, material).laid_mm3 -
      materialAndTime(stepped, 0.2, plain, material).laid_mm3;
    // Lids: bottom 9.2, top 4.2, and the ring of the step, its inner part over the upper wall being closed too.
    const ring = Math.PI * (10 ** 2 - 5 ** 2);
    expect(added).toBeCloseTo(
      Math.PI * 9.2 ** 2 + Math.PI * 4.2 ** 2 + Math.min(ring, Math.PI * 9.2 ** 2),
      0,
    );
  });

  it('resin counts its layers and prints solid', () => {
    const resin = { ...printer, process: 'resin' as const, layer_mm: 0.05, layerTime_s: 8 };
    const part = materialAndTime(cylinder(10, 20, 0.1), 0.1, resin, material);
    expect(part.layers).toBe(400);
    expect(part.time_h).toBeCloseTo((400 * 8) / 3600, 9);
    expect(part.filament_m).toBeNull();
    expect(part.fill_ratio).toBe(1);
  });

  it('time: lines at speed with 30 % on top, and the layer time', () => {
    const part = materialAndTime(stack(10, 0.2, 150, 203), 0.2, printer, material);
    expect(part.time_h * 3600).toBeCloseTo(((150 * 10) / (0.4 * 0.2) / 50) * 1.3 + 50 * 2, 6);
  });

  it('the closed form agrees with the layers of an even wall', () => {
    const wall = stack(20, 0.2, 4 * 200, 404, 0);
    const layers = materialAndTime(wall, 0.2, { ...printer, skinLayers: 0, infill_ratio: 0.2 }, material);
    expect(laidShare(4, { ...printer, infill_ratio: 0.2 })).toBeCloseTo(layers.fill_ratio, 1);
    expect(laidShare(1, printer)).toBe(1);
    expect(laidShare(4, { ...printer, process: 'resin' })).toBe(1);
  });
});
