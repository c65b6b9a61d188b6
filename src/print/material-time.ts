import type { Material, Printer } from '../project/schema.ts';

/** One layer of a solid, as a layer check reads it. */
export interface SolidLayer {
  readonly z_mm: number;
  readonly area_mm2: number;
  readonly perimeter_mm: number;
  /** Outlines less holes; left out: 1. */
  readonly bodies?: number;
}

export type PacePrinter = Pick<
  Printer,
  | 'process'
  | 'lineWidth_mm'
  | 'layer_mm'
  | 'walls'
  | 'infill_ratio'
  | 'skinLayers'
  | 'speed_mmps'
  | 'layerTime_s'
>;

/** What printing one part takes. */
export interface MaterialTime {
  readonly mass_g: number;
  /** Material laid down, without supports [mm3]. */
  readonly laid_mm3: number;
  /** Laid down over the solid's volume. */
  readonly fill_ratio: number;
  /** Length of filament of `FILAMENT_MM`; null for resin. */
  readonly filament_m: number | null;
  readonly time_h: number;
  readonly layers: number;
  /** Stiffness of the filled part over that of a solid one, along the layers. */
  readonly stiffness_ratio: number;
}

/** Diameter of the usual filament [mm]. */
export const FILAMENT_MM = 1.75;

/** Travel, acceleration and slow outer lines, over the time of the lines at the usual speed. Common practice, no source. */
const PACE_SHARE = 0.3;

/**
 * Material and time of a part from its layers, cut evenly at `slice_mm` (the printer's own layer or any other). Each layer
 * is walls, a band of depth d = walls times line width of area P d - bodies pi d^2 (exact for round outlines, never more than
 * the layer), skin where the part ends within `skinLayers` above or below, and infill in the rest. Skin is read from areas
 * alone: layers are taken to lie over each other, so that a leaning part shows less skin than it gets.
 *
 * Time, filament: length of line / speed, 30 % more for travel and acceleration, and the layer time on each layer. Resin is
 * solid and takes its layer time on each layer, however much is on the plate.
 *
 * Stiffness: walls and skin count whole, infill as the square of its share (Gibson and Ashby, Cellular Solids, 2nd ed. 1997,
 * ch. 5: open cells, E ~ density^2); in bending a shell does better than this, for it keeps what lies outside.
 */
export function materialAndTime(
  layers: readonly SolidLayer[],
  slice_mm: number,
  printer: PacePrinter,
  material: Pick<Material, 'density_kgpm3'>,
): MaterialTime {
  const resin = printer.process === 'resin';
  const infill = resin ? 1 : printer.infill_ratio;
  const depth = printer.walls * printer.lineWidth_mm;
  const skin = Math.ceil((printer.skinLayers * printer.layer_mm) / slice_mm - 1e-9);
  const areaAt = (i: number) => layers[i]?.area_mm2 ?? 0;
  let solid = 0;
  let laid = 0;
  let stiff = 0;
  layers.forEach(({ area_mm2: area, perimeter_mm, bodies = 1 }, i) => {
    const band = bandArea(area, perimeter_mm, depth, bodies);
    const inside = area - band;
    let [above, below] = [area, area];
    for (let k = 1; k <= skin; k++) {
      above = Math.min(above, areaAt(i + k));
      below = Math.min(below, areaAt(i - k));
    }
    const closed = Math.min(inside, 2 * area - above - below);
    const open = inside - closed;
    solid += area;
    laid += band + closed + infill * open;
    stiff += band + closed + infill * infill * open;
  });
  const laid_mm3 = laid * slice_mm;
  const count = Math.ceil((layers.length * slice_mm) / printer.layer_mm - 1e-6);
  const lines_s = resin ? 0 : laid_mm3 / (printer.lineWidth_mm * printer.layer_mm) / printer.speed_mmps;
  return {
    mass_g: laid_mm3 * 1e-6 * material.density_kgpm3,
    laid_mm3,
    fill_ratio: solid > 0 ? laid / solid : 1,
    filament_m: resin ? null : laid_mm3 / ((Math.PI / 4) * FILAMENT_MM ** 2) / 1000,
    time_h: (lines_s * (1 + PACE_SHARE) + count * printer.layerTime_s) / 3600,
    layers: count,
    stiffness_ratio: solid > 0 ? stiff / solid : 1,
  };
}

/** Area of the band of depth `depth` along the inside of the outlines; the layer's own area at most. */
function bandArea(area: number, perimeter: number, depth: number, bodies: number): number {
  // Past its deepest a round outline's band no longer grows: depth = perimeter / (2 pi bodies).
  const deepest = bodies > 0 ? perimeter / (2 * Math.PI * bodies) : Infinity;
  const d = Math.min(depth, deepest);
  return Math.min(area, Math.max(0, perimeter * d - bodies * Math.PI * d * d));
}

/**
 * Share of a wall's volume that is laid down, without its layers: both faces carry `walls` lines, infill fills between. Exact
 * for an even wall of `thickness_mm`; for parts whose walls vary it is within the share of infill that the variation moves
 * (a few per cent at 0 % infill, none at 100 %), and top and bottom skins are left out.
 */
export function laidShare(
  thickness_mm: number,
  printer: Pick<Printer, 'process' | 'lineWidth_mm' | 'walls' | 'infill_ratio'>,
): number {
  if (printer.process === 'resin' || !(thickness_mm > 0)) return 1;
  const shell = Math.min(1, (2 * printer.walls * printer.lineWidth_mm) / thickness_mm);
  return shell + (1 - shell) * printer.infill_ratio;
}
