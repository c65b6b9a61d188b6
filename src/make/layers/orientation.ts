import type { Material, Printer } from '../../project/schema.ts';
import { formatNumber, formatPercent } from '../../quantities/format.ts';
import type { Mesh } from '../mesh.ts';
import type { AirFace } from './aerodynamic.ts';
import { eachFacet } from './facets.ts';
import { turnDown, type Direction } from './lie.ts';

/** A part whose lie is to be chosen. */
export interface LyingPart extends Mesh {
  readonly airFace: AirFace;
  /** Direction of the load that could break it, in its frame: the span of a blade. null: no one direction. */
  readonly loadAxis: Direction | null;
  /** The axis it turns about in its frame, where it is pulled apart in every direction square to that. */
  readonly turnAxis?: Direction;
}

/** One way to lay a part, with what it costs. */
export interface Lie {
  /** What faces the bed, in the part's frame. */
  readonly down: Direction;
  /** Rotation, row after row, that brings it there. */
  readonly rotation: readonly number[];
  /** Lower is better; the weighted sum of what follows. */
  readonly cost: number;
  readonly airOverhang_mm2: number;
  readonly overhang_mm2: number;
  /** Mean height of the steps on faces the air works on [mm]. */
  readonly step_mm: number;
  readonly height_mm: number;
  readonly contact_mm2: number;
  /** Strength against the load over that along the layers, 0..1. */
  readonly strength_ratio: number;
  readonly fits: boolean;
  readonly words: string;
}

/** How much each fault weighs: air faces first. Our own choice, stated here. */
const WEIGHT = { airOverhang: 4, overhang: 1, step: 1.5, tipping: 0.1, strength: 3, unfit: 100 } as const;

/** Facets whose normals agree to this cosine lie in one direction. */
const SAME = 0.9998;

/** Flat faces tried beside the axes and diagonals. */
const FACES = 16;

/**
 * Ways to lay a part on the bed, best first: every axis, diagonal and large flat face is tried, judged by faces of the air
 * that lean past the limit, other overhang, mean step height on faces of the air, height over contact, load across the
 * layers, and whether it fits the bed.
 */
export function orientations(part: LyingPart, printer: Printer, material: Material): Lie[] {
  const directions = [...lattice(), ...flatFaces(part)];
  const distinct = directions.filter((d, i) => !directions.slice(0, i).some((other) => dot(other, d) > SAME));
  return distinct.map((down) => judged(part, down, printer, material)).sort((a, b) => a.cost - b.cost);
}

/** One way judged. */
export function judged(part: LyingPart, down: Direction, printer: Printer, material: Material): Lie {
  const rotation = turnDown(down);
  const [low, high] = extent(part, rotation);
  const bottom = low[2];
  const bound = Math.sin((Math.min(printer.overhang_deg, 89.999) * Math.PI) / 180) + 1e-9;
  let [air, airOver, area, over, step, contact] = [0, 0, 0, 0, 0, 0];
  eachFacet(part, (f) => {
    const facing = f.nx * down[0] + f.ny * down[1] + f.nz * down[2];
    const depth = -(f.x * down[0] + f.y * down[1] + f.z * down[2]) - bottom;
    const isAir = part.airFace(f.x, f.y, f.z, f.nx, f.ny, f.nz);
    area += f.area;
    if (isAir) air += f.area;
    // A face level to a tenth of a degree has no steps.
    if (isAir && Math.abs(facing) < 0.9999985) step += f.area * printer.layer_mm * Math.abs(facing);
    if (facing > 0.999 && depth < printer.layer_mm / 2) {
      contact += f.area;
      return;
    }
    if (facing <= bound) return;
    over += f.area;
    if (isAir) airOver += f.area;
  });
  const size = [0, 1, 2].map((i) => high[i] - low[i]);
  const fits = fitsBed(size, printer);
  const strength = strengthRatio(part, down, material);
  const step_mm = air > 0 ? step / air : 0;
  const tipping = size[2] / Math.sqrt(Math.max(contact, printer.lineWidth_mm ** 2));
  const cost =
    WEIGHT.airOverhang * (air > 0 ? airOver / air : 0) +
    WEIGHT.overhang * (area > 0 ? over / area : 0) +
    WEIGHT.step * (step_mm / printer.layer_mm) +
    WEIGHT.tipping * Math.min(tipping, 40) +
    WEIGHT.strength * (1 - strength) +
    (fits ? 0 : WEIGHT.unfit);
  const figures = {
    airOverhang_mm2: airOver,
    overhang_mm2: over,
    step_mm,
    height_mm: size[2],
    contact_mm2: contact,
    strength_ratio: strength,
    fits,
  };
  return { down, rotation, cost, ...figures, words: lieWords(figures, air, printer) };
}

function lieWords(
  lie: Omit<Lie, 'down' | 'rotation' | 'cost' | 'words'>,
  air: number,
  printer: Printer,
): string {
  const said: string[] = [];
  if (!lie.fits) said.push('does not fit the bed');
  if (air > 0)
    said.push(
      lie.airOverhang_mm2 > 0.005 * air
        ? `${formatPercent(lie.airOverhang_mm2 / air)} of the faces the air works on lean past ${formatNumber(printer.overhang_deg)}°`
        : 'no face the air works on needs support',
      `steps there ${formatNumber(lie.step_mm, 2)} mm high on average`,
    );
  if (lie.overhang_mm2 - lie.airOverhang_mm2 > 1)
    said.push(`${formatNumber(lie.overhang_mm2 - lie.airOverhang_mm2, 2)} mm² of other faces lean past it`);
  said.push(`${formatNumber(lie.height_mm)} mm high on ${formatNumber(lie.contact_mm2)} mm² of bed`);
  if (lie.strength_ratio < 0.98)
    said.push(
      `the load pulls across the layers, ${formatPercent(lie.strength_ratio)} as strong as along them`,
    );
  return `${said.join('; ')}.`;
}

/**
 * A load along the build direction has the strength across layers, one in the layer that in plane; between by cos^2. Of
 * loads square to an axis the one that lies most across counts.
 */
function strengthRatio({ loadAxis, turnAxis }: LyingPart, down: Direction, material: Material): number {
  if (!loadAxis && !turnAxis) return 1;
  const across = loadAxis ? dot(loadAxis, down) ** 2 : 1 - dot(turnAxis!, down) ** 2;
  const ratio = material.strengthAcrossLayers_MPa / material.strengthInPlane_MPa;
  return 1 - across * (1 - Math.min(1, ratio));
}

function fitsBed([x, y, z]: readonly number[], { bedX_mm, bedY_mm, bedZ_mm }: Printer): boolean {
  return z <= bedZ_mm && ((x <= bedX_mm && y <= bedY_mm) || (y <= bedX_mm && x <= bedY_mm));
}

/** Lowest and highest place of a part once turned [mm]. */
function extent({ positions: p }: Mesh, r: readonly number[]): [number[], number[]] {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < p.length; i += 3)
    for (let axis = 0; axis < 3; axis++) {
      const value = r[3 * axis] * p[i] + r[3 * axis + 1] * p[i + 1] + r[3 * axis + 2] * p[i + 2];
      if (value < low[axis]) low[axis] = value;
      if (value > high[axis]) high[axis] = value;
    }
  return [low, high];
}

const dot = (a: Direction, b: Direction) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Axes, edges and corners of a cube, as it lies first. */
function lattice(): Direction[] {
  const found: Direction[] = [[0, 0, -1]];
  for (const x of [-1, 0, 1])
    for (const y of [-1, 0, 1])
      for (const z of [-1, 0, 1]) {
        const length = Math.hypot(x, y, z);
        if (length > 0) found.push([x / length, y / length, z / length]);
      }
  return found;
}

/** Normals of the largest flat faces. */
function flatFaces(part: Mesh): Direction[] {
  const groups: { n: [number, number, number]; area: number }[] = [];
  eachFacet(part, ({ nx, ny, nz, area }) => {
    const held = groups.find((g) => g.n[0] * nx + g.n[1] * ny + g.n[2] * nz > SAME);
    if (held) held.area += area;
    else if (groups.length < 400) groups.push({ n: [nx, ny, nz], area });
  });
  return groups
    .sort((a, b) => b.area - a.area)
    .slice(0, FACES)
    .map((g) => g.n);
}
