/** A point [z, r] in metres. */
export type Point = readonly [number, number];

/** A fine, ordered sampling of a smooth outline with the corners left sharp. */
export interface Curve {
  readonly z: Float64Array;
  readonly r: Float64Array;
  /** Arc length from the first point [m]. */
  readonly s: Float64Array;
  /** Curvature [1/m], unsigned. */
  readonly bend: Float64Array;
  /** Indices of the corners, the two ends included. */
  readonly corners: readonly number[];
}

/** A vertex that turns by more than this is a corner, less belongs to a curve [rad]. */
const CORNER = (40 * Math.PI) / 180;

/** Samples per span between two points of the polyline: at least, and on one as long as the whole outline. */
const FINE = 10;
const FINE_WHOLE = 160;

/** A span longer than this many of its neighbour's lengths is a straight run, not a chord of the same curve. */
const STRAIGHT_RUN = 2.5;

/**
 * Smooth curve through an open polyline, sharp at its corners: cubics between the points, with directions such that the
 * chords of an arc become that arc and a straight line that meets it stays straight.
 */
export function smoothCurve(polyline: readonly Point[]): Curve {
  const points = withoutRepeats(polyline);
  if (points.length < 2) throw new Error('smoothCurve needs at least two different points');
  const turns = points.map((_, i) => (i > 0 && i < points.length - 1 ? turning(points, i) : Math.PI));
  const z: number[] = [points[0][0]];
  const r: number[] = [points[0][1]];
  const corners = [0];
  const whole = points.reduce(
    (sum, [pz, pr], i) => (i === 0 ? 0 : sum + Math.hypot(pz - points[i - 1][0], pr - points[i - 1][1])),
    0,
  );
  let from = 0;
  for (let i = 1; i < points.length; i++) {
    if (Math.abs(turns[i]) < CORNER) continue;
    smoothRun(points.slice(from, i + 1), whole, z, r);
    corners.push(z.length - 1);
    from = i;
  }
  const n = z.length;
  const s = new Float64Array(n);
  for (let i = 1; i < n; i++) s[i] = s[i - 1] + Math.hypot(z[i] - z[i - 1], r[i] - r[i - 1]);
  const bend = new Float64Array(n);
  const sharp = new Set(corners);
  for (let i = 1; i < n - 1; i++) {
    if (sharp.has(i)) continue;
    const a = Math.atan2(r[i] - r[i - 1], z[i] - z[i - 1]);
    const b = Math.atan2(r[i + 1] - r[i], z[i + 1] - z[i]);
    bend[i] = (2 * Math.abs(wrapped(b - a))) / (s[i + 1] - s[i - 1]);
  }
  return { z: Float64Array.from(z), r: Float64Array.from(r), s, bend, corners };
}

function smoothRun(run: readonly Point[], whole: number, z: number[], r: number[]): void {
  const points = splitStraightRuns(run);
  const count = points.length - 1;
  const angle: number[] = [];
  const length: number[] = [];
  for (let i = 0; i < count; i++) {
    const dz = points[i + 1][0] - points[i][0];
    const dr = points[i + 1][1] - points[i][1];
    const raw = Math.atan2(dr, dz);
    angle.push(i === 0 ? raw : angle[i - 1] + wrapped(raw - angle[i - 1]));
    length.push(Math.hypot(dz, dr));
  }
  const tangent = tangents(angle, length);
  for (let i = 0; i < count; i++) {
    // Chord to arc, so that the cubic's speed is that of the arc.
    const half = Math.abs(tangent[i + 1] - tangent[i]) / 4;
    const pull = length[i] / (half > 1e-6 ? Math.cos(half) ** 2 : 1);
    // Finer towards the ends, where a corner may want short panels.
    const samples = FINE + Math.round((FINE_WHOLE * length[i]) / whole);
    for (let k = 1; k <= samples; k++) {
      const u = (1 - Math.cos((Math.PI * k) / samples)) / 2;
      const h1 = u * (1 - u) * (1 - u) * pull;
      const h2 = u * u * (u - 1) * pull;
      const h3 = u * u * (3 - 2 * u);
      const [z0, r0] = points[i];
      const [z1, r1] = points[i + 1];
      z.push(z0 + h3 * (z1 - z0) + h1 * Math.cos(tangent[i]) + h2 * Math.cos(tangent[i + 1]));
      r.push(r0 + h3 * (r1 - r0) + h1 * Math.sin(tangent[i]) + h2 * Math.sin(tangent[i + 1]));
    }
  }
}

/**
 * Direction at each vertex from the curvature of the span on either side, taken as a circular arc: its chord's direction
 * plus or minus half its turn, both sides' answers averaged. A span's curvature is that of whichever of its ends changes
 * less to the next vertex out, so that where an arc meets a line or another arc neither is smeared by the other (the
 * choice of smoother stencil of Harten and others, J. Comput. Phys. 71 (1987) 231-303).
 */
function tangents(angle: readonly number[], length: readonly number[]): number[] {
  const count = angle.length;
  if (count === 1) return [angle[0], angle[0]];
  // Curvature at inner vertices 1 .. count - 1; the ends take their neighbour's.
  const bend = (v: number) => {
    const i = Math.min(Math.max(v, 1), count - 1);
    return (2 * (angle[i] - angle[i - 1])) / (length[i] + length[i - 1]);
  };
  const halfTurn = length.map((l, i) => {
    const first = i > 0 ? Math.abs(bend(i) - bend(i - 1)) : Infinity;
    const second = i + 1 < count ? Math.abs(bend(i + 1) - bend(i + 2)) : Infinity;
    const whole = first === second ? (bend(i) + bend(i + 1)) / 2 : first < second ? bend(i) : bend(i + 1);
    return (whole * l) / 2;
  });
  return Array.from({ length: count + 1 }, (_, v) => {
    if (v === 0) return angle[0] - halfTurn[0];
    if (v === count) return angle[count - 1] + halfTurn[count - 1];
    return (angle[v - 1] + halfTurn[v - 1] + angle[v] - halfTurn[v]) / 2;
  });
}

function splitStraightRuns(run: readonly Point[]): Point[] {
  const span = (i: number) =>
    i < 0 || i + 1 >= run.length
      ? Infinity
      : Math.hypot(run[i + 1][0] - run[i][0], run[i + 1][1] - run[i][1]);
  const out: Point[] = [];
  for (let i = 0; i + 1 < run.length; i++) {
    out.push(run[i]);
    if (span(i) > STRAIGHT_RUN * Math.min(span(i - 1), span(i + 1)))
      for (let k = 1; k < 3; k++)
        out.push([
          run[i][0] + ((run[i + 1][0] - run[i][0]) * k) / 3,
          run[i][1] + ((run[i + 1][1] - run[i][1]) * k) / 3,
        ]);
  }
  out.push(run[run.length - 1]);
  return out;
}

function withoutRepeats(polyline: readonly Point[]): Point[] {
  const size = polyline.reduce((most, [z, r]) => Math.max(most, Math.abs(z), Math.abs(r)), 0);
  return polyline.filter(
    ([z, r], i) => i === 0 || Math.hypot(z - polyline[i - 1][0], r - polyline[i - 1][1]) > 1e-9 * size,
  );
}

function turning(points: readonly Point[], i: number): number {
  const a = Math.atan2(points[i][1] - points[i - 1][1], points[i][0] - points[i - 1][0]);
  const b = Math.atan2(points[i + 1][1] - points[i][1], points[i + 1][0] - points[i][0]);
  return wrapped(b - a);
}

const wrapped = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
