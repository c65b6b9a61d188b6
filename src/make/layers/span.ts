import { areaBelow, areaInDisc, shapeFacts, type Point } from './geometry.ts';

/** How a part with blades stands on the bed to the axis of its fan. Lengths [mm]. */
export interface Span {
  /** Where the blades begin and end. */
  readonly from: number;
  readonly to: number;
  readonly radiusAt: (x: number, y: number, z: number) => number;
  /**
   * `upright`: the axis stands on the bed's origin; else the blade's own direction on the bed and the radius of the bed's
   * origin along it.
   */
  readonly stands: 'upright' | { readonly along: readonly [number, number, number]; readonly origin: number };
}

/** Pieces of the span that are weighed apart. */
const BINS = 24;

/** A blade is missing where more than this share of it is lost. */
const MISSING = 0.5;

export type SpanShares = ReturnType<typeof spanShares>;

/** Weighs what is lost against what was drawn along the span of the blades, layer after layer. */
export function spanShares(span: Span) {
  const drawn = new Float64Array(BINS);
  const lost = new Float64Array(BINS);
  const edge = (k: number) => span.from + ((span.to - span.from) * k) / BINS;
  const add = (into: Float64Array, contours: readonly (readonly Point[])[], z: number) => {
    if (contours.length === 0) return;
    let before = within(span, contours, edge(0), z);
    for (let k = 0; k < BINS; k++) {
      const next = within(span, contours, edge(k + 1), z);
      into[k] += next - before;
      before = next;
    }
  };
  return {
    layer(section: readonly (readonly Point[])[], gone: readonly (readonly Point[])[], z: number): void {
      add(drawn, section, z);
      add(lost, gone, z);
    },
    /** Stretches of the span where the blade is missing, from radius to radius. */
    missing(): [number, number][] {
      const stretches: [number, number][] = [];
      for (let k = 0; k < BINS; k++) {
        if (!(lost[k] > MISSING * drawn[k])) continue;
        const last = stretches.at(-1);
        if (last && last[1] === edge(k)) last[1] = edge(k + 1);
        else stretches.push([edge(k), edge(k + 1)]);
      }
      return stretches;
    },
  };
}

function within(span: Span, contours: readonly (readonly Point[])[], radius: number, z: number): number {
  if (span.stands === 'upright') return areaInDisc(contours, radius);
  const { along, origin } = span.stands;
  const bound = radius - origin - along[2] * z;
  const flat = Math.hypot(along[0], along[1]);
  if (flat > 0.05) return areaBelow(contours, [along[0], along[1]], bound);
  return bound >= 0 ? shapeFacts(contours).area : 0;
}
