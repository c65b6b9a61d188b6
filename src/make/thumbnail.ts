import { zlibSync } from 'fflate';
import type { Mesh } from './mesh.ts';

/** A surface and where it is drawn: moved by x and y [mm]. */
export interface Shown {
  readonly mesh: Mesh;
  readonly x: number;
  readonly y: number;
}

/** Pixels are drawn this much finer and averaged, so that edges come out smooth. */
const FINER = 3;

/** Colour of the parts, and where the light comes from seen from the camera: left, above, from the front. */
const COLOUR = [84, 148, 178] as const;
const LIGHT = unit([-0.45, 0.55, 0.7]);

/** Looking down on the bed from the front, a little from the right. */
const RIGHT = unit([1, 0.45, 0]);
const BACK = unit([0.28, -0.62, 0.73]);
const UP = cross(BACK, RIGHT);

/** A square PNG picture of parts on their bed with a clear background; drawn by depth buffer, equal input equal bytes. */
export function thumbnail(shown: readonly Shown[], size = 256): Uint8Array {
  const fine = size * FINER;
  const right = orthogonal(RIGHT, BACK);
  const seen = shown.map(({ mesh, x, y }) => {
    const p = mesh.positions;
    const out = new Float64Array(p.length);
    for (let i = 0; i < p.length; i += 3) {
      const v = [p[i] + x, p[i + 1] + y, p[i + 2]];
      out[i] = dot(v, right);
      out[i + 1] = -dot(v, UP);
      out[i + 2] = dot(v, BACK);
    }
    return { out, indices: mesh.indices };
  });
  let [left, top, most, low] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { out } of seen)
    for (let i = 0; i < out.length; i += 3) {
      left = Math.min(left, out[i]);
      most = Math.max(most, out[i]);
      top = Math.min(top, out[i + 1]);
      low = Math.max(low, out[i + 1]);
    }
  const scale = (0.92 * fine) / Math.max(most - left, low - top, 1e-9);
  const [dx, dy] = [(fine - scale * (most + left)) / 2, (fine - scale * (low + top)) / 2];
  const depth = new Float64Array(fine * fine).fill(-Infinity);
  const shade = new Float32Array(fine * fine);
  for (const { out, indices } of seen)
    for (let t = 0; t < indices.length; t += 3) {
      const at = (k: number): [number, number, number] => {
        const i = 3 * indices[t + k];
        return [out[i] * scale + dx, out[i + 1] * scale + dy, out[i + 2] * scale];
      };
      triangle(depth, shade, fine, at(0), at(1), at(2));
    }
  const pixels = new Uint8Array(size * size * 4);
  for (let y = 0; y < size; y++)
    for (let x = 0; x < size; x++) {
      let [filled, light] = [0, 0];
      for (let v = 0; v < FINER; v++)
        for (let u = 0; u < FINER; u++) {
          const i = (y * FINER + v) * fine + x * FINER + u;
          if (depth[i] === -Infinity) continue;
          filled++;
          light += shade[i];
        }
      if (filled === 0) continue;
      const to = 4 * (y * size + x);
      COLOUR.forEach((value, k) => (pixels[to + k] = Math.min(255, Math.round((value * light) / filled))));
      pixels[to + 3] = Math.round((255 * filled) / FINER ** 2);
    }
  return png(pixels, size);
}

type Point = readonly [number, number, number];

function triangle(
  depth: Float64Array,
  shade: Float32Array,
  size: number,
  a: Point,
  b: Point,
  c: Point,
): void {
  const area = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
  // On the page y runs down, so what faces the camera runs clockwise there.
  if (area >= 0) return;
  const [u, v] = [0, 1].map((k) => [b, c].map((p) => p[k] - a[k]));
  const [uz, vz] = [b[2] - a[2], c[2] - a[2]];
  const normal = unit([uz * v[1] - v[0] * vz, uz * u[1] - u[0] * vz, -area]);
  const light = 0.38 + 0.75 * Math.max(0, dot(normal, LIGHT));
  const [x0, x1] = [
    Math.max(0, Math.floor(Math.min(a[0], b[0], c[0]))),
    Math.min(size - 1, Math.ceil(Math.max(a[0], b[0], c[0]))),
  ];
  const [y0, y1] = [
    Math.max(0, Math.floor(Math.min(a[1], b[1], c[1]))),
    Math.min(size - 1, Math.ceil(Math.max(a[1], b[1], c[1]))),
  ];
  for (let y = y0; y <= y1; y++)
    for (let x = x0; x <= x1; x++) {
      const [px, py] = [x + 0.5, y + 0.5];
      const wb = ((px - a[0]) * (c[1] - a[1]) - (py - a[1]) * (c[0] - a[0])) / area;
      const wc = ((b[0] - a[0]) * (py - a[1]) - (b[1] - a[1]) * (px - a[0])) / area;
      if (wb < 0 || wc < 0 || wb + wc > 1) continue;
      const z = a[2] + wb * uz + wc * vz;
      const i = y * size + x;
      if (z <= depth[i]) continue;
      depth[i] = z;
      shade[i] = light;
    }
}

function unit(v: readonly number[]): number[] {
  const length = Math.hypot(...v) || 1;
  return v.map((value) => value / length);
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function cross(a: readonly number[], b: readonly number[]): number[] {
  return unit([a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]);
}

/** What is left of `a` across `b`. */
function orthogonal(a: readonly number[], b: readonly number[]): number[] {
  const along = dot(a, b);
  return unit(a.map((value, i) => value - along * b[i]));
}

/** A PNG file (ISO/IEC 15948) of 8-bit red, green, blue and opacity. */
export function png(pixels: Uint8Array, size: number): Uint8Array {
  const lines = new Uint8Array(size * (4 * size + 1));
  for (let y = 0; y < size; y++)
    lines.set(pixels.subarray(4 * size * y, 4 * size * (y + 1)), y * (4 * size + 1) + 1);
  const header = new Uint8Array(13);
  const view = new DataView(header.buffer);
  view.setUint32(0, size);
  view.setUint32(4, size);
  header.set([8, 6, 0, 0, 0], 8);
  const pieces = [
    Uint8Array.of(137, 80, 78, 71, 13, 10, 26, 10),
    chunk('IHDR', header),
    chunk('IDAT', zlibSync(lines, { level: 9 })),
    chunk('IEND', new Uint8Array(0)),
  ];
  const file = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    file.set(piece, at);
    at += piece.length;
  }
  return file;
}

function chunk(type: string, data: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(12 + data.length);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, data.length);
  for (let i = 0; i < 4; i++) bytes[4 + i] = type.charCodeAt(i);
  bytes.set(data, 8);
  view.setUint32(8 + data.length, crc(bytes.subarray(4, 8 + data.length)));
  return bytes;
}

/** The check sum of PNG chunks: CRC-32, polynomial EDB88320. */
function crc(bytes: Uint8Array): number {
  let sum = ~0;
  for (const byte of bytes) {
    sum ^= byte;
    for (let k = 0; k < 8; k++) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  }
  return ~sum >>> 0;
}
