import type { Fan } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import { SPINNER_GROOVE, headRadius, nutRadius, type FanLayout } from './layout.ts';
import { oriented, type Profile } from './profile.ts';

/** Wall of the spinner, and of the hub outside its groove [m]; the tongue is one wall wide. Common practice, no source. */
const WALL = 0.0012;

/** Height of the spinner over the hub's radius: a little flatter than a half ball. Common practice, no source. */
const SLENDER = 0.8;

/** Height of a nut and of the thread above it, and of a screw head, over the thread size. Common practice, no source. */
const NUT_HEIGHT = 1.3;
const HEAD_HEIGHT = 1;

/** How much of its depth the tongue leaves free at the bottom of the groove [m]. */
const UNDER_TONGUE = 0.0002;

/** Where the spinner sits in the hub [m]: the tongue stands in a groove, or in the hub's own hollow. */
export interface SpinnerSeat {
  readonly outerRadius: number;
  readonly innerRadius: number;
  /** Whether the groove has to be cut. */
  readonly cut: boolean;
}

export function spinnerSeat({ hubRadius, hubRimRadius, hubOpen }: FanLayout): SpinnerSeat {
  const outerRadius = hubOpen === 'upstream' ? hubRimRadius : hubRadius - WALL;
  return { outerRadius, innerRadius: outerRadius - WALL, cut: hubOpen !== 'upstream' };
}

/** What stands under the spinner on the face of the hub [m]: how far from the axis, and how high. */
export function underSpinner(fan: Fan, layout: FanLayout): { radius: number; height: number } {
  const mm = metresFromMillimetres;
  const { hold, screwCircle_mm, screw_mm, thread_mm } = fan.hub;
  if (hold === 'threaded shaft') return { radius: nutRadius(fan), height: NUT_HEIGHT * mm(thread_mm) };
  if (layout.hubOpen === 'upstream' || fan.rotorParts === 'one piece') return { radius: 0, height: 0 };
  return { radius: mm(screwCircle_mm) / 2 + headRadius(fan), height: HEAD_HEIGHT * mm(screw_mm) };
}

/**
 * The spinner: a hollow half ellipsoid on the hub's upstream face, as wide as the hub and 0.8 of its radius high (higher
 * where a nut or screw heads stand under it), with a tongue all round that is pressed into the hub. `gap` [m] is left on
 * each side of the tongue.
 */
export function spinnerProfile(
  fan: Fan,
  layout: FanLayout,
  { gap = 0, steps = 16 }: { readonly gap?: number; readonly steps?: number } = {},
): Profile {
  const { hubRadius, hubTopZ } = layout;
  const seat = spinnerSeat(layout);
  const innerRadius = Math.max(1e-4, seat.innerRadius + gap);
  const below = underSpinner(fan, layout);
  const share = Math.min(0.95, below.radius / innerRadius);
  const height = Math.max(SLENDER * hubRadius, below.height / Math.sqrt(1 - share * share) + 2 * WALL);
  const quarter = (radius: number, up: number): [number, number][] =>
    Array.from({ length: steps + 1 }, (_, k) => {
      const a = (Math.PI / 2) * (k / steps);
      return [hubTopZ - up * Math.sin(a), k === steps ? 0 : radius * Math.cos(a)];
    });
  const foot = hubTopZ + SPINNER_GROOVE - UNDER_TONGUE;
  const tongue = Math.max(innerRadius + 1e-4, seat.outerRadius - gap);
  return oriented([
    ...quarter(innerRadius, Math.max(0.2 * height, height - WALL)).reverse(),
    [foot, innerRadius],
    [foot, tongue],
    [hubTopZ, tongue],
    ...quarter(Math.max(hubRadius, tongue + 1e-5), height),
  ]);
}
