import type { Fan, Motor } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import { bladeAt, bladeCurves } from './blade.ts';
import type { FanLayout } from './fan-layout.ts';
import { ringHalfHeight } from './tip-ring.ts';

export type { FanLayout };

/** Clearance along the axis between turning and standing parts [m]. Common practice, no source. */
const AXIAL_CLEARANCE = 0.0008;

/** Clearance around the turning can [m], and how much of it a vane takes back to stand on the plate. Common practice, no source. */
const RADIAL_CLEARANCE = 0.001;
const VANE_OVERLAP = 0.0003;

/** Thickness of the plate that carries the motor [m]. Common practice, no source. */
const SEAT_THICKNESS = 0.002;

/** Wall around the shaft, and least rim and web of a hollow hub [m]. Common practice, no source. */
const BOSS_WALL = 0.002;
const LEAST_HUB_WALL = 0.0016;

/** Wall of the cup around the heads of the bell screws takes the rim's measure; the web under them is at least this [m]. Common practice, no source. */
const LEAST_BELL_WEB = 0.002;

/** Room around a shaft end that a screwed hub passes over, in radius [m]. Common practice, no source. */
const STUB_CLEARANCE = 0.0002;

/** The groove that holds a spinner: depth [m], and web left behind it. Common practice, no source. */
export const SPINNER_GROOVE = 0.001;
const BEHIND_GROOVE = 0.0008;

/** A hub is left solid where the hollow would be narrower than this [m]. Common practice, no source. */
const NARROWEST_HOLLOW = 0.002;

/** Hole over thread, room around the shaft end, and least material between two holes [m]. Common practice, no source. */
const SCREW_CLEARANCE = 1.1;
const SHAFT_END_CLEARANCE = 0.001;
const LEAST_WEB = 0.0006;

/**
 * Lays the parts of a fan out along its axis. The exit radius follows from the exit area ratio, counted on the annulus
 * outside the hub: pi (exitRadius^2 - hubRadius^2) = ratio * pi (boreRadius^2 - hubRadius^2).
 */
export function fanLayout(fan: Fan, motor: Motor): FanLayout {
  const mm = metresFromMillimetres;
  const ducted = fan.kind === 'ducted';
  const tipRadius = mm(fan.tipDiameter_mm) / 2;
  const hubRadius = mm(fan.hubDiameter_mm) / 2;
  const turningRadius = tipRadius + mm(fan.tipRing_mm);
  const boreRadius = turningRadius + mm(fan.tipGap_mm);
  const lipRadius = mm(fan.duct.lipRadius_mm);
  const wall = mm(fan.duct.wall_mm);
  const curves = bladeCurves(fan);
  let bladeHalfDepth = 0;
  for (const station of fan.blade) {
    const at = bladeAt(curves, hubRadius + station.span_ratio * (tipRadius - hubRadius));
    bladeHalfDepth = Math.max(bladeHalfDepth, (at.chord / 2) * Math.abs(Math.sin(at.angle)));
  }
  const rotorZ = mm(fan.duct.rotorDepth_mm);
  const hubTopZ = rotorZ - mm(fan.hubHeight_mm) / 2;
  const hubBottomZ = rotorZ + mm(fan.hubHeight_mm) / 2;
  const { hold } = fan.hub;
  // A pressed hub stands clear of the bell; the others sit on it.
  const motorTopZ = hubBottomZ + (hold === 'press fit' ? AXIAL_CLEARANCE : 0);
  const seatTopZ = motorTopZ + mm(motor.canHeight_mm);
  const seatBottomZ = seatTopZ + SEAT_THICKNESS;
  const shaftRadius = mm(motor.shaftDiameter_mm) / 2;
  const hub = hubOf(fan, shaftRadius, hubTopZ, hubBottomZ);
  const motorRadius = mm(motor.canDiameter_mm) / 2;
  // The plate reaches past the turning can, so that a vane beside the can still stands on it.
  const seatRadius = Math.max(
    motorRadius + RADIAL_CLEARANCE,
    mm(motor.mountCircle_mm) / 2 + mm(motor.mountScrew_mm) * 1.5,
  );
  const mountCircleRadius = mm(motor.mountCircle_mm) / 2;
  const screwHoleRadius = (mm(motor.mountScrew_mm) / 2) * SCREW_CLEARANCE;
  const seatHole = Math.min(
    shaftRadius + SHAFT_END_CLEARANCE,
    mountCircleRadius - screwHoleRadius - LEAST_WEB,
  );
  const exitRadius = Math.sqrt(
    hubRadius ** 2 + fan.duct.exitAreaRatio * Math.max(0, boreRadius ** 2 - hubRadius ** 2),
  );
  return {
    ducted,
    tipRadius,
    turningRadius,
    ringHalfHeight: ringHalfHeight(fan, curves),
    hubRadius,
    boreRadius,
    lipRadius,
    wall,
    topZ: -lipRadius,
    exitZ: mm(fan.duct.length_mm) - lipRadius,
    exitRadius,
    outerRadius: Math.max(boreRadius + (lipRadius >= wall ? lipRadius + wall / 2 : wall), exitRadius + wall),
    rotorZ,
    hubTopZ,
    hubBottomZ,
    shaftRadius,
    ...hub,
    motorRadius,
    motorTopZ,
    seatTopZ,
    seatBottomZ,
    seatRadius,
    vaneInnerRadius: seatRadius - VANE_OVERLAP,
    seatHoleRadius: seatHole >= SHAFT_END_CLEARANCE / 2 ? seatHole : 0,
    mountCircleRadius,
    screwHoleRadius,
    tailZ: seatBottomZ + (fan.duct.tailCone ? 2 * seatRadius : 0),
    vaneTopZ: seatBottomZ - mm(fan.stator.chord_mm),
    vaneBottomZ: seatBottomZ,
    bladeHalfDepth,
  };
}

/** Bore, boss, web and rim of the hub; see `FanLayout`. */
function hubOf(fan: Fan, shaftRadius: number, topZ: number, bottomZ: number) {
  const mm = metresFromMillimetres;
  const { hold, spinner } = fan.hub;
  const hubRadius = mm(fan.hubDiameter_mm) / 2;
  const hubBoreRadius =
    hold === 'threaded shaft'
      ? mm(fan.hub.thread_mm) / 2
      : hold === 'bell screws'
        ? shaftRadius + STUB_CLEARANCE
        : shaftRadius;
  const rimRadius = hubRadius - Math.max(LEAST_HUB_WALL, 0.15 * hubRadius);
  const solid = {
    hubBoreRadius,
    hubOpen: 'solid' as const,
    hubBossRadius: Math.min(hubRadius, hubBoreRadius + BOSS_WALL),
    hubRimRadius: Math.min(hubRadius, hubBoreRadius + BOSS_WALL),
    hubWebZ: bottomZ,
  };
  if (fan.rotorParts === 'blades apart') return solid;
  if (hold === 'bell screws') {
    const webTopZ = bottomZ - Math.max(LEAST_BELL_WEB, 0.25 * (bottomZ - topZ));
    if (webTopZ - topZ < SPINNER_GROOVE || rimRadius <= hubBoreRadius) return solid;
    return {
      ...solid,
      hubOpen: 'upstream' as const,
      hubBossRadius: hubBoreRadius,
      hubRimRadius: rimRadius,
      hubWebZ: webTopZ,
    };
  }
  // A nut presses on the face around the thread, and the boss passes that on to the bell.
  const bossRadius =
    hold === 'threaded shaft' ? Math.min(hubRadius, nutRadius(fan) + LEAST_WEB) : solid.hubBossRadius;
  const web = Math.max(
    LEAST_HUB_WALL,
    0.2 * mm(fan.hubHeight_mm),
    spinner ? SPINNER_GROOVE + BEHIND_GROOVE : 0,
  );
  const webBottomZ = topZ + web;
  const hollow = rimRadius - bossRadius >= NARROWEST_HOLLOW && bottomZ - webBottomZ >= NARROWEST_HOLLOW;
  if (!hollow) return { ...solid, hubBossRadius: bossRadius, hubRimRadius: bossRadius };
  return {
    ...solid,
    hubOpen: 'downstream' as const,
    hubBossRadius: bossRadius,
    hubRimRadius: rimRadius,
    hubWebZ: webBottomZ,
  };
}

/** Radius over the corners of the nut on a threaded shaft [m]: 0.93 of the thread. Common practice, no source. */
export const nutRadius = (fan: Fan): number => 0.93 * metresFromMillimetres(fan.hub.thread_mm);

/** Radius of the head of a hub screw [m]: 0.85 of the thread, as small motors' screws have it. Common practice, no source. */
export const headRadius = (fan: Fan): number => 0.85 * metresFromMillimetres(fan.hub.screw_mm);
