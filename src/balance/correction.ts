import { radiansFromDegrees } from '../quantities/units.ts';

/** An unbalance at the bench, or the correction against one: mass times radius, and the place it points to. */
export interface Moment {
  readonly amount_gmm: number;
  readonly angle_deg: number;
}

/** Any angle as 0 to below 360 degrees. */
export const wholeTurn = (angle_deg: number): number => ((angle_deg % 360) + 360) % 360;

/** The moment that takes `moment` away: the same amount on the other side. */
export const against = ({ amount_gmm, angle_deg }: Moment): Moment => ({
  amount_gmm,
  angle_deg: wholeTurn(angle_deg + 180),
});

/**
 * Unbalance from two knife edges: the heavy side comes to rest at the bottom at `restAngle_deg`; the mass that, stuck on
 * the light side at `radius_mm`, lets the rotor rest anywhere has the moment of the unbalance.
 */
export const knifeEdge = (restAngle_deg: number, mass_g: number, radius_mm: number): Moment => ({
  amount_gmm: mass_g * radius_mm,
  angle_deg: wholeTurn(restAngle_deg),
});

/** A share of a correction at one of the places that may carry it. */
export interface Share {
  /** 0-based number of the place. */
  readonly place: number;
  readonly amount_gmm: number;
}

/** A correction split between places, and what they could not carry. */
export interface Split {
  readonly shares: readonly Share[];
  readonly left_gmm: number;
}

/**
 * Splits a correction between the two of `places_deg` on either side of it (the blades, as a rule), w1 e1 + w2 e2 = U:
 * w1 = U sin(b) / sin(a + b), w2 = U sin(a) / sin(a + b) with a, b the angles from U to them. Where the two are half a
 * turn or more apart (two blades) only the part along the nearer one can be carried; `left_gmm` is the rest.
 * Throws without places.
 */
export function splitCorrection({ amount_gmm, angle_deg }: Moment, places_deg: readonly number[]): Split {
  if (places_deg.length === 0) throw new Error('splitCorrection needs a place that can carry a mass');
  const ahead = places_deg.map((place) => wholeTurn(place - angle_deg));
  const after = ahead.indexOf(Math.min(...ahead));
  const before = ahead.indexOf(Math.max(...ahead));
  const a = radiansFromDegrees(360 - ahead[before]);
  const b = radiansFromDegrees(ahead[after]);
  const on = (place: number, share: number): Share[] =>
    share * amount_gmm > 1e-9 * amount_gmm ? [{ place, amount_gmm: share * amount_gmm }] : [];
  if (b < 1e-9) return { shares: on(after, 1), left_gmm: 0 };
  if (a + b >= Math.PI - 1e-9) {
    const [place, off] = a < b ? [before, a] : [after, b];
    const along = Math.max(0, Math.cos(off));
    return { shares: on(place, along), left_gmm: amount_gmm * (along > 0 ? Math.abs(Math.sin(off)) : 1) };
  }
  return {
    shares: [...on(before, Math.sin(b) / Math.sin(a + b)), ...on(after, Math.sin(a) / Math.sin(a + b))],
    left_gmm: 0,
  };
}

/** Mass [g] that has the moment at `radius_mm`. Throws where the radius is not above 0. */
export function massAtRadius(amount_gmm: number, radius_mm: number): number {
  if (!(radius_mm > 0)) throw new Error(`massAtRadius needs a radius above 0; it was ${radius_mm} mm`);
  return amount_gmm / radius_mm;
}

/** Depth [mm] a drill of `drill_mm` goes into solid material to take `mass_g` away, h = 4 m / (rho pi d^2); tip not counted. */
export const drillDepth = (mass_g: number, drill_mm: number, density_kgpm3: number): number =>
  (4 * mass_g) / (density_kgpm3 * 1e-6 * Math.PI * drill_mm ** 2);

/** Volume [mm3] to sand away for `mass_g`. */
export const sandedVolume = (mass_g: number, density_kgpm3: number): number =>
  mass_g / (density_kgpm3 * 1e-6);

/** Length [mm] of tape of `tape_gpm` grams a metre that weighs `mass_g`. */
export const tapeLength = (mass_g: number, tape_gpm: number): number => (mass_g / tape_gpm) * 1000;
