import { shapeFacts, type Point } from './geometry.ts';
import { contours, type Flat, type LayerRules } from './slice.ts';

/** A column that goes up from where it began, with its least width on the way [mm]. */
export interface Column {
  readonly from: number;
  to: number;
  width: number;
  centre: Point;
  min: Point;
  max: Point;
}

/**
 * Follows the pieces of sampled layers upward. Width is that of the rectangle with the piece's least radius of gyration
 * k, sqrt(12) k: a thin ring counts by its diameter, a thin plate by its thickness.
 */
export function slenderPieces({ lineWidth }: LayerRules) {
  const done: Column[] = [];
  let open: Column[] = [];
  return {
    layer(z: number, section: Flat): void {
      const next: Column[] = [];
      for (const piece of section.decompose()) {
        const { area, leastGyration, centroid } = shapeFacts(contours(piece));
        const { min, max } = piece.bounds();
        piece.delete();
        if (area < lineWidth ** 2) continue;
        const width = Math.sqrt(12) * leastGyration;
        const under = open.filter((column) =>
          [0, 1].every((i) => min[i] <= column.max[i] && max[i] >= column.min[i]),
        );
        // Where columns have joined, or one has grown to twice its width, a new one begins.
        const one = under.length === 1 && width < 2 * under[0].width ? under[0] : null;
        next.push({
          from: one?.from ?? z,
          to: z,
          width: Math.min(width, one?.width ?? width),
          centre: centroid,
          min: [min[0], min[1]],
          max: [max[0], max[1]],
        });
      }
      const carried = new Set(next.map((column) => column.from));
      done.push(...open.filter((column) => !carried.has(column.from)));
      open = next;
    },
    all: (): Column[] => [...done, ...open],
  };
}
