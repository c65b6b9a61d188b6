import { integrate } from '../numerics/quadrature.ts';
import type { Fan } from '../project/schema.ts';
import { bladeAt, bladeCurves } from './blade.ts';
import { SPINNER_GROOVE, type FanLayout } from './layout.ts';
import { revolvedVolume } from './profile.ts';
import { hubProfile, ringProfile } from './profiles.ts';
import { keyArea, platformHalfAngle, rootKey } from './root-key.ts';
import { rootBlendRadius } from './root.ts';
import type { RotorFits } from './rotor-fits.ts';
import { sectionIntegrals, sectionOutline, sectionSpecAt } from './section.ts';
import { spinnerProfile, spinnerSeat } from './spinner.ts';

/** Volumes of what turns in one fan [m3]; 0 for a piece that this rotor does not have. */
export interface RotorVolumes {
  /** All that turns: hub, blades, ring, cap, spinner. */
  readonly whole: number;
  /** All blades outside the hub, blends included. */
  readonly blades: number;
  /** The hub with its holes; where blades are apart, its body without the cap. */
  readonly hub: number;
  readonly tipRing: number;
  readonly hubCap: number;
  /** One blade apart, with its platform and key. */
  readonly blade: number;
  readonly spinner: number;
}

/** Points a side of the outlines behind the integrals: 0.2 % of the area from the limit, as a test shows. */
const POINTS = 20;

/**
 * Closed integrals of a rotor's pieces, without a solid:
 * - blades: B times the integral of the section area over the radius from hub to tip, the sections lying on cylinders
 *   about the axis (so this is the volume exactly), plus the root blend P b^2 (1 - pi/4) + pi b^3 (5/3 - pi/2) with the
 *   root's perimeter P and blend radius b;
 * - hub, cap, tip ring, spinner: Pappus on the profiles, less holes, groove and pockets, each its area times its depth;
 * - a blade apart: its share of the blades, its platform (a piece of ring) and its key (area times height).
 */
export function rotorVolumes(fan: Fan, layout: FanLayout, fits: RotorFits): RotorVolumes {
  const blades = bladeVolumes(fan, layout);
  const tipRing = layout.ringHalfHeight > 0 ? revolvedVolume(ringProfile(layout)) : 0;
  const spinner = fan.hub.spinner ? revolvedVolume(spinnerProfile(fan, layout, { gap: fits.tongue })) : 0;
  const pieces =
    fan.rotorParts === 'one piece'
      ? { hub: wholeHub(fan, layout, fits), hubCap: 0, blade: 0 }
      : apartPieces(fan, layout, fits, blades / fan.bladeCount);
  const turning = pieces.hub + pieces.hubCap + spinner + tipRing;
  return {
    whole: turning + (fan.rotorParts === 'one piece' ? blades : fan.bladeCount * pieces.blade),
    blades,
    tipRing,
    spinner,
    ...pieces,
  };
}

function bladeVolumes(fan: Fan, layout: FanLayout): number {
  const { hubRadius, tipRadius } = layout;
  const curves = bladeCurves(fan);
  const integralsAt = (radius: number) => {
    const at = bladeAt(curves, radius);
    return { chord: at.chord, of: sectionIntegrals(sectionOutline(sectionSpecAt(fan.section, at), POINTS)) };
  };
  const areaAt = (radius: number) => {
    const { chord, of } = integralsAt(radius);
    return of.area * chord * chord;
  };
  const span = tipRadius <= hubRadius ? 0 : integrate(areaAt, hubRadius, tipRadius, 2);
  const blend = rootBlendRadius(fan, layout, curves);
  const root = integralsAt(hubRadius);
  const blendVolume =
    root.of.perimeter * root.chord * blend ** 2 * (1 - Math.PI / 4) +
    Math.PI * blend ** 3 * (5 / 3 - Math.PI / 2);
  return fan.bladeCount * (span + blendVolume);
}

const disc = (radius: number): number => Math.PI * radius ** 2;

function grooveVolume(fan: Fan, layout: FanLayout, gap = 0): number {
  const seat = spinnerSeat(layout);
  if (!fan.hub.spinner || !seat.cut) return 0;
  return SPINNER_GROOVE * (disc(seat.outerRadius) - disc(Math.max(0, seat.innerRadius - gap)));
}

function wholeHub(fan: Fan, layout: FanLayout, fits: RotorFits): number {
  const { hubOpen, hubBottomZ, hubWebZ, hubTopZ } = layout;
  const web = hubOpen === 'upstream' ? hubBottomZ - hubWebZ : hubBottomZ - hubTopZ;
  const screws = fan.hub.hold === 'bell screws' ? fan.hub.screwCount * disc(fits.screwHole) * web : 0;
  return Math.max(0, revolvedVolume(hubProfile(layout, fits.bore)) - screws - grooveVolume(fan, layout));
}

/** Hub body, cap and one blade where blades are apart. */
function apartPieces(fan: Fan, layout: FanLayout, fits: RotorFits, blade: number) {
  const { hubTopZ, hubBottomZ, hubRadius } = layout;
  const key = rootKey(fan, layout);
  const { flange, platformInnerRadius: inner } = key;
  const height = hubBottomZ - hubTopZ;
  const screwed = fan.hub.hold !== 'threaded shaft';
  const count = screwed ? fan.hub.screwCount : 0;
  const inBody = count * disc(fan.hub.hold === 'press fit' ? fits.screwCore : fits.screwHole);
  const core = disc(inner - fits.key) - fan.bladeCount * keyArea(key, inner - fits.key, fits.key);
  const slot = Math.max(0, height - 2 * flange);
  const hub =
    slot * (core - disc(fits.bore) - inBody) + flange * (disc(hubRadius) - disc(fits.bore) - inBody);
  const cap =
    flange * (disc(hubRadius) - disc(fits.capBore) - count * disc(fits.screwHole)) -
    grooveVolume(fan, layout);
  const platform =
    Math.max(0, platformHalfAngle(fan, layout, fits.key)) * (hubRadius ** 2 - inner ** 2) +
    keyArea(key, inner);
  return {
    hub: Math.max(0, hub),
    hubCap: Math.max(0, cap),
    blade: blade + Math.max(0, slot - fits.key) * platform,
  };
}
