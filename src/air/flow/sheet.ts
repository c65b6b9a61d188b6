import { panelStream, panelVelocity } from './panel.ts';

/**
 * A vortex sheet shed into the stream: an edge of the jet, or the surface between two rings of the disc that work
 * unequally. Nodes run downstream; `strength` is its jump of speed (inside minus outside) at the nodes [m/s].
 */
export interface Sheet {
  readonly z: Float64Array;
  readonly r: Float64Array;
  readonly strength: Float64Array;
  /** Speeds of the air inside and outside far downstream [m/s]. */
  readonly farInside: number;
  readonly farOutside: number;
  /** Nodes from this one on share one radius: the developed jet, a cylinder. */
  readonly developed: number;
}

/** Length over which the jet is free to shape itself, and of the cylinder behind it, in start radii. */
const FREE_LENGTH = 5;
const CYLINDER_LENGTH = 60;

/** Growth of the panels along the free part and along the cylinder. */
const FREE_GROWTH = 1.17;
const CYLINDER_GROWTH = 1.6;

/** A straight sheet of radius `radius` from `startZ` on, first panel `firstLength` [m], ready to be shaped. */
export function straightSheet(
  startZ: number,
  radius: number,
  firstLength: number,
  farInside: number,
  farOutside: number,
): Sheet {
  const z = [startZ];
  let step = Math.max(firstLength, 0.003 * radius);
  while (z[z.length - 1] < startZ + FREE_LENGTH * radius) {
    z.push(z[z.length - 1] + step);
    step = Math.min(step * FREE_GROWTH, 0.4 * radius);
  }
  const developed = z.length - 1;
  while (z[z.length - 1] < startZ + CYLINDER_LENGTH * radius) {
    z.push(z[z.length - 1] + step);
    step *= CYLINDER_GROWTH;
  }
  return {
    z: Float64Array.from(z),
    r: new Float64Array(z.length).fill(radius),
    strength: new Float64Array(z.length).fill(farInside - farOutside),
    farInside,
    farOutside,
    developed,
  };
}

/**
 * Stream function of the whole sheet at (z, r) [m3/s]. Beyond the last node the cylinder goes on for ever; rings that far
 * away act as dipoles, r^2 R^2 / (4 rho^3) each, and together as a sink: psi = gamma R^2 / 4 (1 - d / sqrt(d^2 + r^2)).
 */
export function sheetStream(sheet: Sheet, z: number, r: number, ends: Float64Array): number {
  const last = sheet.z.length - 1;
  let sum = 0;
  for (let p = 0; p < last; p++) {
    panelStream(z, r, sheet.z[p], sheet.r[p], sheet.z[p + 1], sheet.r[p + 1], ends);
    sum += ends[0] * sheet.strength[p] + ends[1] * sheet.strength[p + 1];
  }
  const away = sheet.z[last] - z;
  const distance = Math.hypot(away, r);
  return sum + (sheet.strength[last] * (r * sheet.r[last]) ** 2) / (4 * distance * (distance + away));
}

/** Velocity of the whole sheet at (z, r), added to `velocity[0]` (axial) and `velocity[1]` (radial) [m/s]. */
export function addSheetVelocity(
  sheet: Sheet,
  z: number,
  r: number,
  velocity: Float64Array,
  four: Float64Array,
  pair: Float64Array,
): void {
  const last = sheet.z.length - 1;
  for (let p = 0; p < last; p++) {
    panelVelocity(z, r, sheet.z[p], sheet.r[p], sheet.z[p + 1], sheet.r[p + 1], four, pair);
    velocity[0] += four[0] * sheet.strength[p] + four[2] * sheet.strength[p + 1];
    velocity[1] += four[1] * sheet.strength[p] + four[3] * sheet.strength[p + 1];
  }
  const away = sheet.z[last] - z;
  const sink = (sheet.strength[last] * sheet.r[last] ** 2) / (4 * Math.hypot(away, r) ** 3);
  velocity[0] += sink * away;
  velocity[1] -= sink * r;
}
