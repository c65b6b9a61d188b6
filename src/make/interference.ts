import type { Assembly, Piece } from './assembly.ts';
import { fitWords } from './interference-words.ts';
import type { Meeting } from './meeting.ts';
import { matrixOf } from './frame.ts';
import { withSolids, type Kernel, type Solid } from './kernel.ts';
import type { Placement } from './kind.ts';
import { solidOf } from './mesh.ts';
import { combined, turn } from './placement.ts';

export type { Meeting };

/** What fits how closely in an assembly, nearest first. Joined pieces are listed only where they run into each other. */
export interface FitCheck {
  readonly meetings: readonly Meeting[];
  /** Sentences on the pairs that run into each other. */
  readonly collisions: readonly string[];
  /** Radial growth the turning pieces were checked with [m]. */
  readonly growth: number;
}

export interface FitOptions {
  /** How far the tips of the rotor move outward at full speed [m]. */
  readonly growth?: number;
  /** Radius of the tips [m], in whose proportion the rotor grows; left out: the farthest point of the turning pieces. */
  readonly tipRadius?: number;
  /** Pairs farther apart than this are not listed [mm]. */
  readonly near_mm?: number;
  /** Blades are checked in this many positions within their pitch. */
  readonly positions?: number;
  readonly bladeCount?: number;
}

/** Farthest pairs listed [mm]. Common practice, no source. */
const NEAR = 5;

/** Pieces that run into each other by less than this only touch [mm]: the facets of curves. */
const TOUCH = 0.03;

/** How far a search looks at first [mm]; it goes on to twice as far while it finds nothing. */
const FIRST_LOOK = 0.6;

/** Size of the place where a pair is nearest [mm]. */
const PLACE = 0.5;

interface Body {
  readonly piece: Piece;
  readonly min: readonly number[];
  readonly max: readonly number[];
}

/**
 * Checks every pair of pieces at rest and, where one turns, with that one grown about its axis in proportion to the radius
 * by `growth` at the tips. Pairs that stand alike are checked once.
 */
export function checkFit(kernel: Kernel, assembly: Assembly, options: FitOptions = {}): FitCheck {
  const near = options.near_mm ?? NEAR;
  const growth = 1e3 * (options.growth ?? 0);
  const bodies = assembly.pieces.map(bodyOf);
  const groups = new Map<string, { a: Body; b: Body; pairs: number }>();
  bodies.forEach((a, i) => {
    for (const b of bodies.slice(i + 1)) {
      if (together(a.piece, b.piece) || farApart(a, b, near + growth)) continue;
      const key = pairKey(a.piece, b.piece);
      const known = groups.get(key);
      if (known) known.pairs++;
      else groups.set(key, { a, b, pairs: 1 });
    }
  });
  return withSolids((keep) => {
    const drawn = new Map<Piece['mesh'], Solid>();
    const solidFor = (piece: Piece): Solid => {
      const known = drawn.get(piece.mesh);
      if (known) return known;
      const solid = keep(solidOf(kernel, piece.mesh));
      drawn.set(piece.mesh, solid);
      return solid;
    };
    const found = [...groups.values()].map((group) => meet(group, assembly, solidFor, near, growth, options));
    // Mirrored pairs are worked out each, and listed as one.
    const alike = new Map<string, Meeting>();
    for (const meeting of found) {
      if (meeting === null) continue;
      const { kinds, ...own } = meeting;
      const key = `${kinds} ${own.gap_mm.toFixed(2)} ${(own.gapAtSpeed_mm ?? 0).toFixed(2)}`;
      const known = alike.get(key);
      const together = known ? { ...known, pairs: known.pairs + own.pairs } : own;
      alike.set(key, { ...together, refused: fitWords(together, TOUCH) });
    }
    const meetings = [...alike.values()].sort((a, b) => least(a) - least(b));
    return {
      meetings,
      collisions: meetings.flatMap(({ refused }) => (refused === null ? [] : [refused])),
      growth: growth / 1e3,
    };
  });
}

const least = ({ gap_mm, gapAtSpeed_mm }: Meeting): number => Math.min(gap_mm, gapAtSpeed_mm ?? gap_mm);

function meet(
  { a, b, pairs }: { readonly a: Body; readonly b: Body; readonly pairs: number },
  assembly: Assembly,
  solidFor: (piece: Piece) => Solid,
  near: number,
  growth: number,
  options: FitOptions,
): Worked | null {
  const [first, second] = [a.piece, b.piece];
  // What turns is moved about the other; else what has fewer facets, which is the one that is cut up to find the place.
  const fewer = first.mesh.indices.length <= second.mesh.indices.length;
  const moving = first.turns || (!second.turns && fewer) ? first : second;
  const standing = moving === first ? second : first;
  const mates = areMates(first, second);
  return withSolids((keep) => {
    const fixed = keep(solidFor(standing).transform(matrixOf(standing.placement)));
    const search = (factor: number): Found => {
      let best: Found = { gap: Infinity, solid: null, at: null };
      for (const angle of moving.turns ? positionsOf(moving, options) : [0]) {
        const placement = moving.turns ? grownPlacement(moving, assembly, angle, factor) : moving.placement;
        const solid = keep(solidFor(moving).transform(matrixOf(placement)));
        const found = nearest(solid, fixed, Math.min(near, best.gap + 1e-3));
        if (found.gap < best.gap) best = found;
      }
      return best;
    };
    const rest = search(1);
    const tip = 1e3 * (options.tipRadius ?? reachOf(moving, assembly));
    const speed = !moving.turns ? null : growth > 0 ? search(1 + growth / tip) : rest;
    const closest = speed && speed.gap < rest.gap ? speed : rest;
    if (closest.solid === null || (mates && closest.gap > -TOUCH)) return null;
    if (sits(first, second) && Math.abs(closest.gap) < TOUCH) return null;
    const meeting = {
      a: first.name,
      b: second.name,
      pairs,
      gap_mm: rest.gap,
      gapAtSpeed_mm: speed ? speed.gap : null,
      at_mm: closest.at ?? placeOf(closest.solid, fixed, Math.max(0, closest.gap)),
    };
    return { ...meeting, kinds: `${first.kind} ${second.kind}` };
  });
}

type Worked = Omit<Meeting, 'refused'> & { readonly kinds: string };

interface Found {
  readonly gap: number;
  /** The one of the two that was moved, as it stood; null where they are farther apart than was asked. */
  readonly solid: Solid | null;
  /** Where, if that came with the gap. */
  readonly at: Place | null;
}

type Place = readonly [x: number, y: number, z: number];

/** Least distance of two solids within `near` [mm]; below 0 the thinnest side of what they share, and where that is. */
function nearest(solid: Solid, fixed: Solid, near: number): Found {
  // The search costs by the cube of how far it looks.
  let reach = Math.min(near, FIRST_LOOK);
  let gap = solid.minGap(fixed, reach);
  while (gap >= reach && reach < near) {
    reach = Math.min(near, 2 * reach);
    gap = solid.minGap(fixed, reach);
  }
  if (gap >= near) return { gap: Infinity, solid: null, at: null };
  if (gap > 1e-6) return { gap, solid, at: null };
  return withSolids((keep) => {
    let worst: Found = { gap: 0, solid, at: null };
    const common = keep(solid.intersect(fixed));
    for (const piece of common.isEmpty() ? [] : common.decompose().map(keep)) {
      const { min, max } = piece.boundingBox();
      // Of a thin, slanting or curved overlap the box says too much: volume over half the surface is its mean thickness.
      const depth = Math.min(
        ...[0, 1, 2].map((i) => max[i] - min[i]),
        (2 * piece.volume()) / Math.max(1e-9, piece.surfaceArea()),
      );
      if (-depth < worst.gap) worst = { gap: -depth, solid, at: middleOf(piece) };
    }
    return worst;
  });
}

function middleOf(solid: Solid): Place {
  const { min, max } = solid.boundingBox();
  return [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2];
}

/** Middle of the part of `a` nearest to `b`, found by halving `a` across its longest side. */
function placeOf(a: Solid, b: Solid, gap: number): Place {
  return withSolids((keep) => {
    let piece = a;
    for (let i = 0; i < 40; i++) {
      const { min, max } = piece.boundingBox();
      const size = [0, 1, 2].map((k) => max[k] - min[k]);
      const axis = size.indexOf(Math.max(...size));
      if (size[axis] < PLACE) break;
      const normal: [number, number, number] = [axis === 0 ? 1 : 0, axis === 1 ? 1 : 0, axis === 2 ? 1 : 0];
      const halves = piece.splitByPlane(normal, (min[axis] + max[axis]) / 2).map(keep);
      const next = halves.find((half) => !half.isEmpty() && half.minGap(b, gap + 0.01) <= gap + 1e-4);
      if (!next) break;
      piece = next;
    }
    return middleOf(piece);
  });
}

/** A turning piece turned by `angle` about its fan's axis and grown about it. */
function grownPlacement(
  { fan, placement }: Piece,
  { fans }: Assembly,
  angle: number,
  factor: number,
): Placement {
  const frame = fan === null ? turn(0) : fans[fan - 1];
  const inFan = combined(inverse(frame), placement);
  const grown = inFan.map((value, i) => (i % 4 < 2 ? value * factor : value));
  return combined(frame, combined(turn(angle), grown));
}

function positionsOf({ kind }: Piece, { positions = 3, bladeCount = 1 }: FitOptions): number[] {
  if (kind !== 'rotor' && kind !== 'blade') return [0];
  return Array.from({ length: positions }, (_, i) => (2 * Math.PI * i) / positions / bladeCount);
}

/** Radius of the farthest corner from the axis [m]. */
function reachOf({ mesh, fan, placement }: Piece, { fans }: Assembly): number {
  const m = fan === null ? placement : combined(inverse(fans[fan - 1]), placement);
  let reach = 0;
  for (let i = 0; i < mesh.positions.length; i += 3) {
    const [x, y] = moved(m, mesh.positions, i);
    reach = Math.max(reach, Math.hypot(x, y));
  }
  return reach / 1e3;
}

function moved(m: Placement, p: Float32Array, i: number): [number, number, number] {
  const row = (k: number) => m[k] * p[i] + m[k + 4] * p[i + 1] + m[k + 8] * p[i + 2] + m[k + 12];
  return [row(0), row(1), row(2)];
}

/** The way back of a turn with a shift. */
function inverse(m: Placement): Placement {
  const back = (i: number) => -(m[4 * i] * m[12] + m[4 * i + 1] * m[13] + m[4 * i + 2] * m[14]);
  return [m[0], m[4], m[8], 0, m[1], m[5], m[9], 0, m[2], m[6], m[10], 0, back(0), back(1), back(2), 1];
}

function bodyOf(piece: Piece): Body {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < piece.mesh.positions.length; i += 3)
    moved(piece.placement, piece.mesh.positions, i).forEach((value, axis) => {
      min[axis] = Math.min(min[axis], value);
      max[axis] = Math.max(max[axis], value);
    });
  return { piece, min, max };
}

const farApart = (a: Body, b: Body, near: number): boolean =>
  [0, 1, 2].some((axis) => a.min[axis] > b.max[axis] + near || b.min[axis] > a.max[axis] + near);

/** Pieces of one fan that turn as one, which a drawing of their joint already holds apart. */
const together = (a: Piece, b: Piece): boolean => a.turns && b.turns && a.fan === b.fan;

const STANDING: readonly string[] = ['duct', 'ductUpper', 'ductLower', 'lip', 'tailCone', 'body'];
const FRAME: readonly string[] = ['plate', 'arm', 'bridge', 'body'];

/** Whether one is a motor and the other turns with it: the hub may sit on the bell. */
const sits = (a: Piece, b: Piece): boolean =>
  a.fan === b.fan && ((a.kind === 'motor' && b.turns) || (b.kind === 'motor' && a.turns));

/** Whether two pieces are joined: parts of one duct, motor on its seat, frame and ducts, battery in its bay. */
function areMates(a: Piece, b: Piece): boolean {
  const both = (x: (kind: string) => boolean, y: (kind: string) => boolean) =>
    (x(a.kind) && y(b.kind)) || (x(b.kind) && y(a.kind));
  const standing = (kind: string) => STANDING.includes(kind);
  const frame = (kind: string) => FRAME.includes(kind);
  const oneFan = a.fan === b.fan || a.fan === null || b.fan === null;
  return (
    (oneFan && both(standing, standing)) ||
    (oneFan && both((kind) => kind === 'motor', standing)) ||
    both(frame, (kind) => frame(kind) || standing(kind) || kind === 'battery')
  );
}

/**
 * Pairs with the same key stand alike: the same surfaces in the same place to each other, or the mirror image of that, as
 * two pieces of one fan and the same two of a fan that turns the other way.
 */
function pairKey(a: Piece, b: Piece): string {
  if (a.fan !== null && a.fan === b.fan) return `${a.kind} ${a.copy} ${b.kind} ${b.copy}`;
  const between = combined(inverse(a.placement), b.placement).map((value) => value.toFixed(4));
  const what = ({ partId, kind }: Piece) => partId ?? kind;
  return `${what(a)} ${what(b)} ${between.map((value) => (value === '-0.0000' ? '0.0000' : value)).join(' ')}`;
}
