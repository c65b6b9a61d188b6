import type { Curve } from './curve.ts';

/** End points of the panels along one outline [m]. */
export interface Nodes {
  readonly z: Float64Array;
  readonly r: Float64Array;
}

/** A panel turns by about this much where the outline curves [rad], before all are scaled to the number asked for. */
const TURN = 0.16;

/** Panels at a corner, and along a thin wall, in thicknesses of the body there. */
const AT_CORNER = 0.12;
const ALONG_WALL = 0.9;

/** A panel may outgrow its neighbour by about this share. */
const GROWTH = 0.22;

/** Longest panel, in lengths of the whole outline. */
const LONGEST = 0.035;

/**
 * `count` panels along a curve, fine at corners, where it bends and where the body is thin, growing smoothly between:
 * a wished length at every sample, limited in growth both ways, then scaled so that the number comes out.
 */
export function spaceNodes(curve: Curve, count: number): Nodes {
  const { z, r, s, bend, corners } = curve;
  const n = s.length;
  const total = s[n - 1];
  const thick = thickness(curve);
  const wish = new Float64Array(n);
  for (let i = 0; i < n; i++)
    wish[i] = Math.min(LONGEST * total, ALONG_WALL * thick[i], bend[i] > 0 ? TURN / bend[i] : Infinity);
  for (const c of corners)
    if (r[c] > 0) wish[c] = Math.min(wish[c], AT_CORNER * Math.min(thick[c], 0.1 * total));
  for (let i = 1; i < n; i++) wish[i] = Math.min(wish[i], wish[i - 1] + GROWTH * (s[i] - s[i - 1]));
  for (let i = n - 2; i >= 0; i--) wish[i] = Math.min(wish[i], wish[i + 1] + GROWTH * (s[i + 1] - s[i]));
  const number = new Float64Array(n);
  for (let i = 1; i < n; i++)
    number[i] = number[i - 1] + ((s[i] - s[i - 1]) * (1 / wish[i] + 1 / wish[i - 1])) / 2;
  // Each stretch between corners gets whole panels, so that a corner is always an end.
  const places: number[] = [0];
  let used = 0;
  for (let c = 1; c < corners.length; c++) {
    const from = corners[c - 1];
    const to = corners[c];
    const share = Math.round((count * number[to]) / number[n - 1]) - used;
    const pieces = Math.max(c + 1 === corners.length ? count - used : share, 2);
    let j = from;
    for (let k = 1; k <= pieces; k++) {
      const target = number[from] + ((number[to] - number[from]) * k) / pieces;
      while (j < to - 1 && number[j + 1] < target) j++;
      places.push(k === pieces ? to : j + (target - number[j]) / (number[j + 1] - number[j]));
    }
    used += pieces;
  }
  const pick = (values: Float64Array) =>
    Float64Array.from(places, (p) => {
      const j = Math.min(Math.floor(p), n - 2);
      return values[j] + (p - j) * (values[j + 1] - values[j]);
    });
  return { z: pick(z), r: pick(r) };
}

/** Distance [m] from each sample to the nearest one that faces the other way: the body's local thickness. */
function thickness({ z, r, s }: Curve): Float64Array {
  const n = s.length;
  const stride = Math.max(1, Math.floor(n / 250));
  const out = new Float64Array(n).fill(Infinity);
  const tz = new Float64Array(n);
  const tr = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const a = Math.max(0, i - 1);
    const b = Math.min(n - 1, i + 1);
    const l = Math.hypot(z[b] - z[a], r[b] - r[a]) || 1;
    tz[i] = (z[b] - z[a]) / l;
    tr[i] = (r[b] - r[a]) / l;
  }
  for (let i = 0; i < n; i += stride) {
    let least = 2 * r[i] > 0 ? 2 * r[i] : Infinity;
    for (let j = 0; j + 1 < n; j++) {
      if (tz[i] * tz[j] + tr[i] * tr[j] > -0.5) continue;
      // Distance to the piece, as long straight pieces carry few samples.
      const ez = z[j + 1] - z[j];
      const er = r[j + 1] - r[j];
      const u = Math.min(
        1,
        Math.max(0, ((z[i] - z[j]) * ez + (r[i] - r[j]) * er) / (ez * ez + er * er || 1)),
      );
      least = Math.min(least, Math.hypot(z[i] - z[j] - u * ez, r[i] - r[j] - u * er));
    }
    for (let k = i; k < Math.min(n, i + stride); k++) out[k] = least;
  }
  // Where a round edge turns, the facing samples are the edge's own: not thinner than the thinnest wall near by.
  let floor = Infinity;
  const sorted = Array.from(out)
    .filter(Number.isFinite)
    .sort((a, b) => a - b);
  if (sorted.length > 0) floor = sorted[Math.floor(sorted.length / 4)];
  for (let i = 0; i < n; i++) out[i] = Math.max(out[i], 0.5 * floor);
  return out;
}
