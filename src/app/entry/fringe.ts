/** Points of a closed outline with the outward normal at each; unit length. */
export interface Edge {
  readonly x: number;
  readonly y: number;
  readonly nx: number;
  readonly ny: number;
}

/** Outward normals along an outline given by its points in order, whichever way round; the last point joins the first. */
export function edgesOf(x: readonly number[], y: readonly number[]): readonly Edge[] {
  const count = x.length;
  let area = 0;
  for (let i = 0; i < count; i++) {
    const next = (i + 1) % count;
    area += x[i] * y[next] - x[next] * y[i];
  }
  const side = area > 0 ? 1 : -1;
  return x.map((at, i) => {
    const a = Math.max(0, i - 1);
    const b = Math.min(count - 1, i + 1);
    const dx = x[b] - x[a];
    const dy = y[b] - y[a];
    const length = Math.hypot(dx, dy) || 1;
    return { x: at, y: y[i], nx: (side * dy) / length, ny: (-side * dx) / length };
  });
}
