import { cylinderVelocity } from './cylinder.ts';
import type { Wake } from './influence.ts';
import { drawnIn, tipDepth, type CarriedTip, type WakePath } from './path.ts';
import { velocityAt } from './segment.ts';

/** Step of age of the carried tip vortex [rad], and how many turns of it are carried by the flow. */
const STEP = Math.PI / 12;
const MOST_TURNS = 2;
const LEAST_TURNS = 1;

/** A tip vortex never draws in further than this, over R; momentum theory's own limit is 0.71. */
const LEAST_RADIUS = 0.5;

/** Fastest drift followed, over Omega R; wakes in hover move at a tenth of it. */
const FASTEST = 1;
const MOST_RADIUS = 1.5;

/** A tip vortex laid along the published rule, to start from. */
export function startCarried(path: WakePath, blades: number): CarriedTip {
  // Four passages matter: beyond them the vortex is too far down to be felt one by one.
  const turns = Math.min(MOST_TURNS, Math.max(LEAST_TURNS, 4 / blades));
  const n = Math.round((2 * Math.PI * turns) / STEP);
  const psi = Float64Array.from({ length: n + 1 }, (_, k) => k * STEP);
  return { step: STEP, radius: psi.map((p) => drawnIn(path, p)), depth: psi.map((p) => tipDepth(path, p)) };
}

/** Euler's constant less 1/2; see `tipDrift`. */
const CHORD_EXCESS = 0.577_215_664_9 - 0.5;

/** Velocity of the air over Omega R: toward the wake and away from the axis. */
export interface Drift {
  readonly down: number;
  readonly out: number;
}

/**
 * Where the flow would carry the tip vortex: from the blade tip, the velocity at the vortex summed over its age (trapezoid).
 * Velocities are taken at every second point and joined straight. `least` is the least descent per radian.
 */
export function carry(
  wake: Wake,
  gamma: Float64Array,
  peak: number,
  at: CarriedTip,
  least: number,
): CarriedTip {
  const n = at.radius.length;
  const down = new Float64Array(n);
  const out = new Float64Array(n);
  const { tipAges } = wake;
  let behind = 0;
  let node = 1;
  for (let k = 2; k < n; k += 2) {
    const psi = k * at.step;
    while (node < tipAges.length - 2 && tipAges[node] < psi - 1e-6) node++;
    const drift = tipDrift(wake, gamma, peak, node);
    down[k] = Math.min(FASTEST, Math.max(least, drift.down));
    out[k] = Math.min(FASTEST, Math.max(-FASTEST, drift.out));
    if (behind === 0) {
      // Ages before the roll-up is done move as the first point seen.
      down[0] = down[k];
      out[0] = out[k];
    }
    down[k - 1] = (down[k] + down[behind]) / 2;
    out[k - 1] = (out[k] + out[behind]) / 2;
    behind = k;
  }
  for (let k = behind + 1; k < n; k++) {
    down[k] = down[behind];
    out[k] = out[behind];
  }
  const radius = new Float64Array(n);
  const depth = new Float64Array(n);
  radius[0] = 1;
  for (let k = 1; k < n; k++) {
    depth[k] = depth[k - 1] + (at.step * (down[k] + down[k - 1])) / 2;
    const to = radius[k - 1] + (at.step * (out[k] + out[k - 1])) / 2;
    radius[k] = Math.min(MOST_RADIUS, Math.max(LEAST_RADIUS, to));
  }
  return { step: at.step, radius, depth };
}

/** `at` moved by `share` of the way to `to`. */
export function moved(at: CarriedTip, to: CarriedTip, share: number): CarriedTip {
  return {
    step: at.step,
    radius: at.radius.map((v, k) => v + share * (to.radius[k] - v)),
    depth: at.depth.map((v, k) => v + share * (to.depth[k] - v)),
  };
}

/** Largest distance between two tip vortices at the same age, over R. */
export function apart(a: CarriedTip, b: CarriedTip): number {
  let most = 0;
  for (let k = 0; k < a.radius.length; k++)
    most = Math.max(most, Math.abs(a.radius[k] - b.radius[k]), Math.abs(a.depth[k] - b.depth[k]));
  return most;
}

/**
 * Velocity at which the tip vortex is carried at its point `node`, in the flow of the whole wake and all blades, for
 * bound circulation `gamma` rolled up outboard of station `peak`. A vortex bent to radius `a` drives itself: the two
 * pieces that meet at the point give nothing, so the arc of half angle d they stand for is added as that part of a thin
 * ring's own speed, G / (4 pi a) (ln(8 a / core) - 1/4 - ln cot(d / 4)), less the excess of straight pieces over the
 * arcs they replace: near the point, piece k of a finely cut arc gives (1/k + 1/(k+1)) / 2 where the arc gives
 * ln((k+1)/k), which sums to Euler's constant less 1/2.
 * Source: Saffman, Vortex Dynamics, 1992, section 10.2 (ring of even core), with the arc's share by direct integration.
 */
export function tipDrift(wake: Wake, gamma: Float64Array, peak: number, node: number): Drift {
  const n = gamma.length;
  const v = new Float64Array(3);
  const x = wake.tip.x[node];
  const y = wake.tip.y[node];
  const z = wake.tip.z[node];
  const away = Math.hypot(x, y);
  const lumps = trailedInPairs(gamma, peak);
  let up = 0;
  let out = 0;
  for (let blade = 0; blade < wake.blades; blade++) {
    const turn = (2 * Math.PI * blade) / wake.blades;
    const cos = Math.cos(turn);
    const sin = Math.sin(turn);
    const X = x * cos + y * sin;
    const Y = -x * sin + y * cos;
    for (let j = 0; j <= n; j++) {
      const lump = lumps[j];
      if (lump !== 0) {
        velocityAt(j > peak ? wake.outers[j] : wake.sheets[j], X, Y, z, v);
        up += lump * v[2];
        out += (lump * (v[0] * X + v[1] * Y)) / away;
      }
      if (j < n) {
        boundVelocity(wake.edges[j], wake.edges[j + 1], X, Y, z, v);
        up += gamma[j] * v[2];
        out += (gamma[j] * v[1] * Y) / away;
      }
    }
    velocityAt(wake.tip, X, Y, z, v);
    up += gamma[peak] * v[2];
    out += (gamma[peak] * (v[0] * X + v[1] * Y)) / away;
  }
  let down = -up;
  for (let j = 0; j <= peak; j++) {
    const end = wake.sheetEnds[j];
    const trailed = (j > 0 ? gamma[j - 1] : 0) - gamma[j];
    down += trailed * end.strength * cylinderVelocity(end.radius, Math.max(0.05, end.depth + z), away);
  }
  const end = wake.tipEnd;
  down += gamma[peak] * end.strength * cylinderVelocity(end.radius, Math.max(0.05, end.depth + z), away);
  const half = (wake.tipAges[node + 1] - wake.tipAges[node - 1]) / 2;
  const own = Math.log((8 * away) / wake.tipCore) - 0.25 + Math.log(Math.tan(half / 4)) - CHORD_EXCESS;
  return { down: down + (gamma[peak] / (4 * Math.PI * away)) * Math.max(0, own), out };
}

/**
 * Circulation trailed at each edge; on the sheet, whose single filaments the far tip vortex cannot tell apart, two
 * neighbours go on the outer one of them.
 */
function trailedInPairs(gamma: Float64Array, peak: number): Float64Array {
  const n = gamma.length;
  const trailed = new Float64Array(n + 1);
  for (let j = 0; j <= n; j++) trailed[j] = (j > 0 ? gamma[j - 1] : 0) - (j < n ? gamma[j] : 0);
  for (let j = peak; j > 0; j -= 2) {
    trailed[j] += trailed[j - 1];
    trailed[j - 1] = 0;
  }
  return trailed;
}

/** Velocity (y and z) of the piece of the x axis from `a` to `b` with unit circulation. */
function boundVelocity(a: number, b: number, X: number, Y: number, Z: number, v: Float64Array): void {
  const h2 = Y * Y + Z * Z;
  v[1] = 0;
  v[2] = 0;
  if (h2 < 1e-12) return;
  const along = (X - a) / Math.sqrt((X - a) ** 2 + h2) - (X - b) / Math.sqrt((X - b) ** 2 + h2);
  const scale = along / (4 * Math.PI * h2);
  v[1] = -scale * Z;
  v[2] = scale * Y;
}
