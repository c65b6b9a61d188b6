import { evaluateCubic, shapeKeepingCubic, type ShapeKeepingCubic } from '../numerics/interpolate.ts';
import type { Fan } from '../project/schema.ts';
import { metresFromMillimetres, radiansFromDegrees } from '../quantities/units.ts';

/** A blade as four curves over the span (0 at the hub, 1 at the tip). */
export interface BladeCurves {
  readonly hubRadius: number;
  readonly tipRadius: number;
  /** [m] */
  readonly chord: ShapeKeepingCubic;
  /** [rad] to the plane of rotation */
  readonly angle: ShapeKeepingCubic;
  readonly thickness: ShapeKeepingCubic;
  readonly camber: ShapeKeepingCubic;
}

/** The blade at one radius. */
export interface BladeSection {
  /** [m] */
  readonly radius: number;
  /** [m] */
  readonly chord: number;
  /** Chord to plane of rotation [rad] */
  readonly angle: number;
  /** Largest thickness over chord */
  readonly thickness: number;
  /** Height of the mean line over chord */
  readonly camber: number;
}

/** Stations nearer than about this share of the span stand at the same place. */
const SAME_PLACE = 1e-6;

/**
 * The curves through the stations of a fan's blade. Stations may come in any order; of two at the same place the later
 * one counts. Solids and physics both read the blade from here.
 */
export function bladeCurves(fan: Fan): BladeCurves {
  const byPlace = new Map(fan.blade.map((station) => [Math.round(station.span_ratio / SAME_PLACE), station]));
  const stations = [...byPlace.values()].sort((a, b) => a.span_ratio - b.span_ratio);
  const spans = stations.map((s) => s.span_ratio);
  const curve = (value: (s: (typeof stations)[number]) => number) =>
    shapeKeepingCubic(spans, stations.map(value));
  return {
    hubRadius: metresFromMillimetres(fan.hubDiameter_mm) / 2,
    tipRadius: metresFromMillimetres(fan.tipDiameter_mm) / 2,
    chord: curve((s) => metresFromMillimetres(s.chord_mm)),
    angle: curve((s) => radiansFromDegrees(s.angle_deg)),
    thickness: curve((s) => s.thickness_ratio),
    camber: curve((s) => s.camber_ratio),
  };
}

/** The blade at `radius` [m]; ends held outside hub and tip. A hub as large as the tip leaves the tip's section. */
export function bladeAt(curves: BladeCurves, radius: number): BladeSection {
  const height = curves.tipRadius - curves.hubRadius;
  const span = height > 0 ? (radius - curves.hubRadius) / height : 1;
  return {
    radius,
    chord: evaluateCubic(curves.chord, span),
    angle: evaluateCubic(curves.angle, span),
    thickness: evaluateCubic(curves.thickness, span),
    camber: evaluateCubic(curves.camber, span),
  };
}
