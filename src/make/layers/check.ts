import type { Kernel } from '../kernel.ts';
import { measure, solidOf, type Mesh } from '../mesh.ts';
import { overhangArea } from './facets.ts';
import { bodiesOf, radiusRange, shapeFacts, type Point } from './geometry.ts';
import {
  contours,
  cut,
  opened,
  pieces,
  unsupported,
  widestDisc,
  type Flat,
  type LayerRules,
} from './slice.ts';
import { slenderPieces } from './slender.ts';
import { spanShares, type SpanShares } from './span.ts';
import { tracker, type Piece } from './tracks.ts';
import type { CheckedPart, LayerCheck, LayerFacts, LayerPicture } from './types.ts';
import { findingsOf } from './words.ts';

/** Layers between two words of progress. */
const STRIDE = 8;

/**
 * Reads a part layer by layer: area, what is narrower than a line (opening by a disc of the line's width), what reaches
 * too far over the layer below, pieces that begin in the air, free spans, contact with the bed, slender columns. Sections
 * are taken at the middle of each layer. Yields the share done; cancel by not going on. Free of the kernel's memory when
 * it ends or is left.
 */
export function* layerSteps(
  kernel: Kernel,
  part: CheckedPart,
  rules: LayerRules,
): Generator<number, LayerCheck, void> {
  const solid = solidOf(kernel, part);
  let below: Flat | null = null;
  try {
    const { box } = measure(part);
    const count = Math.max(1, Math.round((box.max[2] - box.min[2]) / rules.layer));
    const height = (box.max[2] - box.min[2]) / count;
    const layers: LayerFacts[] = [];
    const tracks = tracker(rules.lineWidth);
    const columns = slenderPieces(rules);
    const left = part.span && spanShares(part.span);
    let volume = 0;
    let contact = 0;
    for (let i = 0; i < count; i++) {
      const z = box.min[2] + (i + 0.5) * height;
      const section = cut(solid, z, rules.tolerance);
      const outlines = contours(section);
      const shape = shapeFacts(outlines);
      const found: Piece[] = [];
      const lost = lostPieces(section, part, rules, z, i, found, left);
      const hanging = below ? hangingPieces(section, below, part, rules, z, i, found) : 0;
      tracks.layer(i, found);
      if (i % STRIDE === 0) columns.layer(z, section);
      if (i === 0) contact = shape.area;
      volume += shape.area * height;
      layers.push({
        z_mm: z,
        area_mm2: shape.area,
        perimeter_mm: shape.perimeter,
        bodies: bodiesOf(outlines),
        lost_mm2: lost,
        unsupported_mm2: hanging,
      });
      below?.delete();
      below = section;
      if (i % STRIDE === STRIDE - 1) yield (i + 1) / count;
    }
    const draft = {
      layer_mm: height,
      layers,
      volume_mm3: volume,
      contact_mm2: contact,
      overhang_mm2: overhangArea(part, rules.overhang_deg, rules.layer),
      overhangAerodynamic_mm2: overhangArea(part, rules.overhang_deg, rules.layer, (f) =>
        part.airFace(f.x, f.y, f.z, f.nx, f.ny, f.nz),
      ),
    };
    return {
      ...draft,
      findings: findingsOf(part, rules, draft, tracks.all(), columns.all(), left?.missing() ?? [], box),
    };
  } finally {
    below?.delete();
    solid.delete();
  }
}

/** The same in one go. */
export function checkLayers(kernel: Kernel, part: CheckedPart, rules: LayerRules): LayerCheck {
  const steps = layerSteps(kernel, part, rules);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** One layer to look at; `z` [mm] above the bed. */
export function layerPicture(kernel: Kernel, part: Mesh, rules: LayerRules, z: number): LayerPicture {
  const solid = solidOf(kernel, part);
  const section = cut(solid, z, rules.tolerance);
  const open = opened(section, rules.lineWidth, rules.tolerance);
  const lost = section.subtract(open);
  const below = z - rules.layer > 0 ? cut(solid, z - rules.layer, rules.tolerance) : null;
  const hanging = below && Number.isFinite(rules.reach) ? unsupported(section, below, rules) : null;
  const picture = {
    z_mm: z,
    outline: contours(section),
    lost: contours(lost),
    unsupported: hanging ? contours(hanging) : [],
  };
  for (const used of [solid, section, open, lost, below, hanging]) used?.delete();
  return picture;
}

/** Adds to `found` what a line cannot reach; returns all its area, slivers in corners included. */
function lostPieces(
  section: Flat,
  part: CheckedPart,
  rules: LayerRules,
  z: number,
  layer: number,
  found: Piece[],
  left: SpanShares | null,
): number {
  const { lineWidth } = rules;
  const open = opened(section, lineWidth, rules.tolerance);
  const lost = section.subtract(open);
  const area = lost.area();
  left?.layer(contours(section), contours(lost), z);
  if (area > lineWidth ** 2 / 4) {
    // Any sharp corner loses a sliver; only what reaches a full line past what is laid down counts as a lost piece.
    const near = open.offset(lineWidth, 'Round', 2, 16);
    for (const piece of pieces(lost, lineWidth ** 2 / 4)) {
      const past = piece.subtract(near);
      if (!past.isEmpty()) {
        const around = piece.offset(2 * rules.tolerance, 'Miter', 2);
        const held = around.intersect(open);
        const facts = described(piece, part, z);
        const reach = facts.area / Math.max(widestSide(facts), 1e-6);
        const whole = held.isEmpty();
        found.push({ kind: 'lost', layer, ...facts, width: reach, whole });
        around.delete();
        held.delete();
      }
      past.delete();
      piece.delete();
    }
    near.delete();
  }
  open.delete();
  lost.delete();
  return area;
}

/** Adds to `found` what the layer below does not carry; returns its area. */
function hangingPieces(
  section: Flat,
  below: Flat,
  part: CheckedPart,
  rules: LayerRules,
  z: number,
  layer: number,
  found: Piece[],
): number {
  if (!Number.isFinite(rules.reach)) return 0;
  const hanging = unsupported(section, below, rules);
  const area = hanging.area();
  for (const piece of pieces(hanging, rules.lineWidth ** 2 / 4)) {
    const width = widestDisc(piece, rules.lineWidth / 8);
    const facts = described(piece, part, z);
    if (width > rules.lineWidth / 2) {
      const touching = piece.offset(rules.reach + 3 * rules.tolerance, 'Miter', 2);
      const held = touching.intersect(below);
      const holds = held.decompose();
      const kind = held.isEmpty() ? 'island' : bridged(holds) ? 'bridge' : 'overhang';
      found.push({ kind, layer, ...facts, width, whole: false });
      for (const used of [touching, held, ...holds]) used.delete();
    }
    piece.delete();
  }
  hanging.delete();
  return area;
}

/** Held from two sides, or all round. */
const bridged = (holds: readonly Flat[]) => holds.length > 1 || holds[0].numContour() > 1;

function described(piece: Flat, part: CheckedPart, z: number) {
  const outlines = contours(piece);
  const { area, centroid } = shapeFacts(outlines);
  const { min, max } = piece.bounds();
  return {
    area,
    centre: centroid,
    min: [min[0], min[1]] as const,
    max: [max[0], max[1]] as const,
    radius: radiiOf(outlines, part, z),
    aerodynamic: outlines.some((outline) => outline.some(([x, y]) => part.airFace(x, y, z, 0, 0, -1))),
  };
}

/** Nearest and farthest distance from the fan's axis. */
function radiiOf(outlines: readonly (readonly Point[])[], { span }: CheckedPart, z: number) {
  if (!span) return null;
  return radiusRange(outlines.map((outline) => outline.map(([x, y]): Point => [span.radiusAt(x, y, z), 0])));
}

const widestSide = ({ min, max }: { min: Point; max: Point }) => Math.hypot(max[0] - min[0], max[1] - min[1]);
