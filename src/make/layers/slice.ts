import type { Printer } from '../../project/schema.ts';
import type { Kernel, Solid } from '../kernel.ts';
import type { Point } from './geometry.ts';

/** A flat shape of the kernel; memory outside JavaScript's reach until `delete()`. */
export type Flat = InstanceType<Kernel['CrossSection']>;

/** What the layers are read by [mm]. */
export interface LayerRules {
  readonly layer: number;
  readonly lineWidth: number;
  /** How far one layer may reach over the one below: layer height times the tangent of the largest lean. */
  readonly reach: number;
  readonly overhang_deg: number;
  readonly bridge: number;
  /** Outlines may be off by this. */
  readonly tolerance: number;
  readonly bed: readonly [number, number, number];
}

/** The rules of a printer. A limit of 90 degrees means that anything prints without support. */
export function rulesOf(printer: Printer): LayerRules {
  const { layer_mm, lineWidth_mm, overhang_deg, bridge_mm, bedX_mm, bedY_mm, bedZ_mm } = printer;
  return {
    layer: layer_mm,
    lineWidth: lineWidth_mm,
    reach: overhang_deg >= 89.9 ? Infinity : layer_mm * Math.tan((overhang_deg * Math.PI) / 180),
    overhang_deg,
    bridge: bridge_mm,
    tolerance: Math.min(0.01, lineWidth_mm / 20),
    bed: [bedX_mm, bedY_mm, bedZ_mm],
  };
}

/** Straight pieces of a full circle where an outline is moved. */
const ROUND = 32;

/** The section of a solid at height `z` [mm]; the caller frees it. */
export function cut(solid: Solid, z: number, tolerance: number): Flat {
  const raw = solid.slice(z);
  const section = raw.simplify(tolerance);
  raw.delete();
  return section;
}

/**
 * What a round line of `width` can reach of a section: eroded by half the width, then dilated by it (the opening by a
 * disc). `beyond` dilates by that much more. The caller frees it.
 */
export function opened(section: Flat, width: number, beyond = 0): Flat {
  const core = section.offset(-width / 2, 'Round', 2, ROUND);
  const open = core.offset(width / 2 + beyond, 'Round', 2, ROUND);
  core.delete();
  return open;
}

/** What a section reaches past the one below grown by `reach`; the caller frees it. */
export function unsupported(section: Flat, below: Flat, { reach, tolerance }: LayerRules): Flat {
  const grown = below.offset(reach + tolerance, 'Miter', 2);
  const left = section.subtract(grown);
  grown.delete();
  return left;
}

/** The pieces of a shape larger than `least` [mm2]; the caller frees them. */
export function pieces(flat: Flat, least: number): Flat[] {
  if (flat.isEmpty()) return [];
  return flat.decompose().filter((piece) => {
    if (piece.area() > least) return true;
    piece.delete();
    return false;
  });
}

/** Diameter of the largest disc that fits in a shape [mm], to `error`, by halving. */
export function widestDisc(flat: Flat, error: number): number {
  const { min, max } = flat.bounds();
  let [fits, empty] = [0, Math.min(max[0] - min[0], max[1] - min[1]) / 2 + error];
  while (empty - fits > error / 2) {
    const radius = (fits + empty) / 2;
    const core = flat.offset(-radius, 'Miter', 2);
    if (core.isEmpty()) empty = radius;
    else fits = radius;
    core.delete();
  }
  return fits + empty;
}

/** Closed outlines of a shape [mm]. */
export const contours = (flat: Flat): Point[][] =>
  flat.toPolygons().map((contour) => contour.map(([x, y]): Point => [x, y]));
