import type { Mesh } from './mesh.ts';

const HEADER = 80;
const TRIANGLE = 50;

/**
 * A binary STL file [mm]: 80 bytes of text, the number of triangles, then for each its normal and three corners as
 * little-endian 32-bit floats and two spare bytes.
 */
export function writeStl(mesh: Mesh, partName: string): Uint8Array {
  const { positions: p, indices } = mesh;
  const count = indices.length / 3;
  const bytes = new Uint8Array(HEADER + 4 + TRIANGLE * count);
  const view = new DataView(bytes.buffer);
  // Readers take a file that begins with "solid" for text.
  const header = `Fanwright, ${partName}, millimetres`;
  for (let i = 0; i < Math.min(HEADER, header.length); i++) {
    const code = header.charCodeAt(i);
    bytes[i] = code >= 32 && code < 127 ? code : 63;
  }
  view.setUint32(HEADER, count, true);
  for (let t = 0; t < count; t++) {
    const corners = [0, 1, 2].map((i) => 3 * indices[3 * t + i]);
    const [a, b, c] = corners;
    const u = [0, 1, 2].map((i) => p[b + i] - p[a + i]);
    const v = [0, 1, 2].map((i) => p[c + i] - p[a + i]);
    const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
    const length = Math.hypot(...n) || 1;
    let at = HEADER + 4 + TRIANGLE * t;
    for (const value of n) {
      view.setFloat32(at, value / length, true);
      at += 4;
    }
    for (const corner of corners)
      for (let i = 0; i < 3; i++) {
        view.setFloat32(at, p[corner + i], true);
        at += 4;
      }
  }
  return bytes;
}
