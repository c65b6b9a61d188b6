import type { Outline } from '../shape/section.ts';
import { measure, type Mesh } from './mesh.ts';

/** One section on its cylinder about the axis. All lengths [m], angles [rad]. */
export interface WrappedSection {
  /** Radius at which the section lies. */
  readonly radius: number;
  /** Radius at which its widths turn into angles; `radius`, or the hub's for what reaches into the hub. */
  readonly wrapRadius: number;
  readonly outline: Outline;
  readonly chord: number;
  /** Chord to plane of rotation */
  readonly angle: number;
  /** Where the middle of the chord stands along the axis. */
  readonly middleZ: number;
  /** How far the outline is moved outward, for a blend. */
  readonly grow: number;
}

/** The sections behind a lofted surface: points `around` each, how far each was grown, all points one after another [mm]. */
export interface LoftPoints {
  readonly around: number;
  readonly grow: readonly number[];
  readonly positions: Float32Array;
}

/** Remembered beside the surfaces, for what draws exact curves through the same points. */
const lofted = new WeakMap<Float32Array, LoftPoints>();

/** What a surface was lofted through, asked by its coordinates; undefined where `loft` did not make them. */
export const loftPointsOf = (positions: Float32Array): LoftPoints | undefined => lofted.get(positions);

/**
 * A closed surface [mm] through sections of equal point count, each wrapped on its own cylinder about z, the middle of
 * every chord on one radial line. The front edge lies toward negative angles and (for a positive blade angle) upstream,
 * the suction side faces upstream: a right-hand rotor, whose thrust points to -z and which turns toward negative angles.
 */
export function loft(sections: readonly WrappedSection[]): Mesh {
  const around = sections[0].outline.x.length;
  const positions = new Float32Array(3 * around * sections.length);
  let at = 0;
  for (const section of sections) {
    const { radius, wrapRadius, chord, angle, middleZ } = section;
    const { x, y } = grown(section.outline, section.grow / chord);
    for (let i = 0; i < around; i++) {
      const along = (x[i] - 0.5) * chord;
      const up = y[i] * chord;
      const turn = (along * Math.cos(angle) + up * Math.sin(angle)) / wrapRadius;
      positions[at++] = 1e3 * radius * Math.cos(turn);
      positions[at++] = 1e3 * radius * Math.sin(turn);
      positions[at++] = 1e3 * (middleZ + along * Math.sin(angle) - up * Math.cos(angle));
    }
  }
  lofted.set(positions, { around, grow: sections.map(({ grow }) => grow), positions });
  const indices: number[] = [];
  const nose = (around - 1) / 2;
  for (let s = 0; s + 1 < sections.length; s++) {
    for (let i = 0; i < around; i++) {
      const j = (i + 1) % around;
      const [a, b, c, d] = [s * around + i, s * around + j, (s + 1) * around + i, (s + 1) * around + j];
      // The same diagonal above and below, so that a thin blade's two sides stay apart however it is twisted.
      if (i < nose) indices.push(a, c, b, b, c, d);
      else indices.push(a, c, d, a, d, b);
    }
  }
  const last = (sections.length - 1) * around;
  for (let k = 0; k < nose; k++) {
    const [above, below, nextAbove, nextBelow] = [nose - k, nose + k, nose - k - 1, nose + k + 1];
    indices.push(nextAbove, below, nextBelow);
    indices.push(last + nextAbove, last + nextBelow, last + below);
    if (k > 0) {
      indices.push(nextAbove, above, below);
      indices.push(last + nextAbove, last + below, last + above);
    }
  }
  const mesh = { positions, indices: Uint32Array.from(indices) };
  return measure(mesh).volume >= 0 ? mesh : turnedRound(mesh);
}

function turnedRound(mesh: Mesh): Mesh {
  const indices = mesh.indices.slice();
  for (let i = 0; i < indices.length; i += 3) {
    indices[i] = mesh.indices[i + 1];
    indices[i + 1] = mesh.indices[i];
  }
  return { positions: mesh.positions, indices };
}

/** An anticlockwise outline with each point moved outward by `by` along the mean direction of its two edges' normals. */
function grown({ x, y }: Outline, by: number): Outline {
  if (by === 0) return { x, y };
  const n = x.length;
  const toX = new Float64Array(n);
  const toY = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const before = unitEdge(x, y, (i + n - 1) % n, i);
    const after = unitEdge(x, y, i, (i + 1) % n);
    const nx = before[1] + after[1];
    const ny = -before[0] - after[0];
    const length = Math.hypot(nx, ny) || 1;
    toX[i] = x[i] + (by * nx) / length;
    toY[i] = y[i] + (by * ny) / length;
  }
  return { x: toX, y: toY };
}

function unitEdge(x: Float64Array, y: Float64Array, from: number, to: number): [number, number] {
  const dx = x[to] - x[from];
  const dy = y[to] - y[from];
  const length = Math.hypot(dx, dy) || 1;
  return [dx / length, dy / length];
}
