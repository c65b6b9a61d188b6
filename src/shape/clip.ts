/** A point of a flat outline. */
export type FlatPoint = readonly [x: number, y: number];

/** The part of a closed outline where `nx x + ny y <= bound`; where it falls apart, edges of no width join the pieces. */
export function clippedBelow(outline: readonly FlatPoint[], [nx, ny]: FlatPoint, bound: number): FlatPoint[] {
  return outline.flatMap((p, i): FlatPoint[] => {
    const q = outline[(i + 1) % outline.length];
    const [dp, dq] = [nx * p[0] + ny * p[1] - bound, nx * q[0] + ny * q[1] - bound];
    const kept: FlatPoint[] = dp <= 0 ? [p] : [];
    if (dp * dq < 0) {
      const t = dp / (dp - dq);
      kept.push([p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])]);
    }
    return kept;
  });
}
