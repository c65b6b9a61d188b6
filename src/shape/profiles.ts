import type { Fan, Motor } from '../project/schema.ts';
import { bladeAt, bladeCurves } from './blade.ts';
import { fanLayout, type FanLayout } from './layout.ts';
import { oriented, rectangle, type Profile } from './profile.ts';
import { spinnerProfile } from './spinner.ts';

export type { Profile } from './profile.ts';

/** The half-sections of one fan, z downstream as in the layout. Null where the fan has no such part. */
export interface FanProfiles {
  readonly layout: FanLayout;
  readonly duct: Profile | null;
  readonly hub: Profile;
  readonly spinner: Profile | null;
  readonly tipRing: Profile | null;
  readonly motor: Profile;
  /** The plate that carries the motor, without its holes. */
  readonly seat: Profile | null;
  readonly tailCone: Profile | null;
  readonly vane: Profile | null;
  /** Silhouette swept by the blade: front edge from hub to tip, back edge from tip to hub. */
  readonly blade: Profile;
}

export interface ProfileOptions {
  /** Straight pieces for a quarter circle and for the change to the exit. */
  readonly arcSteps?: number;
  /** Places along the span of the blade. */
  readonly bladeSteps?: number;
}

/** Everything the half-section drawing shows of one fan, and what its solids of revolution are turned from. */
export function fanProfiles(fan: Fan, motor: Motor, options: ProfileOptions = {}): FanProfiles {
  const layout = fanLayout(fan, motor);
  const steps = options.arcSteps ?? 16;
  return {
    layout,
    duct: layout.ducted ? ductProfile(layout, steps) : null,
    hub: hubProfile(layout, layout.hubBoreRadius),
    spinner: fan.hub.spinner ? spinnerProfile(fan, layout, { steps }) : null,
    tipRing: layout.ringHalfHeight > 0 ? ringProfile(layout) : null,
    motor: rectangle(layout.motorTopZ, layout.seatTopZ, 0, layout.motorRadius),
    seat: layout.ducted ? rectangle(layout.seatTopZ, layout.seatBottomZ, 0, layout.seatRadius) : null,
    tailCone: layout.ducted && layout.tailZ > layout.seatBottomZ ? tailConeProfile(layout) : null,
    vane: layout.ducted ? vaneProfile(layout, steps) : null,
    blade: bladeProfile(fan, layout, options.bladeSteps ?? 24),
  };
}

/** A lip smaller than this is a square edge [m]: nothing could print it. */
const LEAST_LIP = 1e-6;

/** Where the bore stops being straight: past the blades, yet before the exit. */
function straightEnd(layout: FanLayout): number {
  const exitZ = Math.max(layout.exitZ, 1e-4);
  return Math.min(
    Math.max(layout.rotorZ + Math.max(layout.bladeHalfDepth, layout.ringHalfHeight), 0),
    0.9 * exitZ,
  );
}

/** Radius of the duct's inner face at `z` [m]; lip above 0, straight past the rotor, cosine change to the exit. */
export function passageRadius(layout: FanLayout, z: number): number {
  const { boreRadius, lipRadius, exitRadius } = layout;
  if (z < 0) {
    const up = Math.min(-z, lipRadius);
    return boreRadius + lipRadius - Math.sqrt(lipRadius ** 2 - up ** 2);
  }
  const from = straightEnd(layout);
  const exitZ = Math.max(layout.exitZ, 1e-4);
  const u = Math.min(1, Math.max(0, (z - from) / (exitZ - from)));
  return boreRadius + ((exitRadius - boreRadius) * (1 - Math.cos(Math.PI * u))) / 2;
}

/**
 * Radius of the wall's outer face at `z` [m]: the wall laid off square to the air side but measured along the radius, so
 * that the exit face stays flat; beside the lip the outside of the lip, or the straight wall where the lip is no larger.
 */
export function wallOuterRadius(layout: FanLayout, z: number): number {
  const { boreRadius, lipRadius, wall } = layout;
  if (z < 0) {
    const within = lipRadius - wall;
    if (within <= 0) return boreRadius + wall;
    return boreRadius + lipRadius - Math.sqrt(within ** 2 - Math.min(-z, within) ** 2);
  }
  const u = Math.min(1, Math.max(0, (z - straightEnd(layout)) / exitLength(layout)));
  return passageRadius(layout, z) + wall * Math.hypot(1, exitSlope(layout) * Math.sin(Math.PI * u));
}

/** Length over which the bore changes to the exit [m]. */
export const exitLength = (layout: FanLayout): number => Math.max(layout.exitZ, 1e-4) - straightEnd(layout);

/** Slope of the air side to the axis where it is steepest, half way to the exit; positive where it widens. */
export const exitSlope = (layout: FanLayout): number =>
  ((layout.exitRadius - layout.boreRadius) * Math.PI) / 2 / exitLength(layout);

/**
 * The duct wall with its lip: a shell of constant thickness. The lip is a quarter circle on the air side, ending in a
 * half-round edge. A lip smaller than the wall is a rounded corner of a wall with a flat top; radius 0 is a square edge.
 */
export function ductProfile(layout: FanLayout, steps: number): Profile {
  const { inside, outside } = wallSides(layout, steps);
  return oriented([...inside, ...outside]);
}

/** The two sides of the duct's outline: the air side from the top of the lip to the exit, the outer side back again. */
export function wallSides(
  layout: FanLayout,
  steps: number,
): { readonly inside: readonly [number, number][]; readonly outside: readonly [number, number][] } {
  const { boreRadius: b, wall } = layout;
  const lip = layout.lipRadius < LEAST_LIP ? 0 : layout.lipRadius;
  const exitZ = Math.max(layout.exitZ, 1e-4);
  const inside: [number, number][] = [];
  const outside: [number, number][] = [];
  const quarter = (k: number) => (Math.PI / 2) * (k / steps);
  if (lip > 0) {
    for (let k = 0; k < steps; k++) {
      const a = quarter(steps - k);
      inside.push([-lip * Math.sin(a), b + lip - lip * Math.cos(a)]);
    }
  }
  const from = straightEnd(layout);
  if (from > 0) inside.push([0, b]);
  for (let k = 0; k <= steps; k++) {
    const z = from + ((exitZ - from) * k) / steps;
    inside.push([z, passageRadius(layout, z)]);
    outside.push([z, wallOuterRadius(layout, z)]);
  }
  outside.reverse();
  if (from > 0) outside.push([0, b + wall]);
  if (lip >= wall) {
    if (lip > wall) {
      for (let k = 1; k <= steps; k++) {
        const a = quarter(k);
        outside.push([-(lip - wall) * Math.sin(a), b + lip - (lip - wall) * Math.cos(a)]);
      }
    }
    const half = Math.max(4, Math.round(steps / 2));
    for (let k = 1; k < half; k++) {
      const a = (Math.PI * k) / half;
      outside.push([-lip + wall / 2 + (wall / 2) * Math.cos(a), b + lip + (wall / 2) * Math.sin(a)]);
    }
  } else if (lip > 0) {
    outside.push([-lip, b + wall]);
  }
  return { inside, outside };
}

/** The hub (with its cap, where blades are apart), bored to `boreRadius` [m]; see `FanLayout.hubOpen`. */
export function hubProfile(layout: FanLayout, boreRadius: number): Profile {
  const { hubTopZ, hubBottomZ, hubRadius, hubBossRadius, hubRimRadius, hubWebZ, hubOpen } = layout;
  const hollow = (openZ: number): [number, number][] => [
    [openZ, hubRimRadius],
    [hubWebZ, hubRimRadius],
    [hubWebZ, hubBossRadius],
    [openZ, hubBossRadius],
  ];
  if (hubOpen === 'upstream')
    return oriented([
      [hubWebZ, boreRadius],
      [hubWebZ, hubRimRadius],
      [hubTopZ, hubRimRadius],
      [hubTopZ, hubRadius],
      [hubBottomZ, hubRadius],
      [hubBottomZ, boreRadius],
    ]);
  return oriented([
    [hubTopZ, boreRadius],
    [hubTopZ, hubRadius],
    [hubBottomZ, hubRadius],
    ...(hubOpen === 'downstream' ? hollow(hubBottomZ) : []),
    [hubBottomZ, boreRadius],
  ]);
}

/** The ring that joins the tips and turns with them. */
export const ringProfile = ({ rotorZ, ringHalfHeight, tipRadius, turningRadius }: FanLayout): Profile =>
  rectangle(rotorZ - ringHalfHeight, rotorZ + ringHalfHeight, tipRadius, turningRadius);

/** The tail cone: a part of its own (the screws are reached before it is glued on), hollow, one wall thick. */
export function tailConeProfile(layout: FanLayout): Profile {
  const { seatBottomZ: top, tailZ: tip, seatRadius: radius, wall } = layout;
  const along = wall * Math.hypot(1, (tip - top) / radius);
  const across = wall * Math.hypot(1, radius / (tip - top));
  if (across >= 0.9 * radius)
    return oriented([
      [top, 0],
      [top, radius],
      [tip, 0],
    ]);
  return oriented([
    [top, radius - across],
    [top, radius],
    [tip, 0],
    [tip - along, 0],
  ]);
}

function vaneProfile(layout: FanLayout, steps: number): Profile {
  const { vaneTopZ, vaneBottomZ, vaneInnerRadius } = layout;
  const points: [number, number][] = [
    [vaneBottomZ, vaneInnerRadius],
    [vaneTopZ, vaneInnerRadius],
  ];
  for (let k = 0; k <= steps; k++) {
    const z = vaneTopZ + ((vaneBottomZ - vaneTopZ) * k) / steps;
    points.push([z, passageRadius(layout, z)]);
  }
  return oriented(points);
}

function bladeProfile(fan: Fan, layout: FanLayout, steps: number): Profile {
  const curves = bladeCurves(fan);
  const front: [number, number][] = [];
  const back: [number, number][] = [];
  for (let k = 0; k <= steps; k++) {
    const radius = layout.hubRadius + ((layout.tipRadius - layout.hubRadius) * k) / steps;
    const at = bladeAt(curves, radius);
    const half = (at.chord / 2) * Math.sin(at.angle);
    front.push([layout.rotorZ - half, radius]);
    back.push([layout.rotorZ + half, radius]);
  }
  return oriented([...front, ...back.reverse()]);
}

export { revolvedVolume } from './profile.ts';
