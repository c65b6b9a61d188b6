import type { Fan, Motor } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import { bladeAt, bladeCurves } from './blade.ts';

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

/** A hub is left solid where the hollow would be narrower than this [m]. Common practice, no source. */
const NARROWEST_HOLLOW = 0.002;

/** Hole over thread, room around the shaft end, and least material between two holes [m]. Common practice, no source. */
const SCREW_CLEARANCE = 1.1;
const SHAFT_END_CLEARANCE = 0.001;
const LEAST_WEB = 0.0006;

/**
 * Every derived dimension of one fan [m]. The axis z points downstream; z = 0 where the lip meets the bore, so the lip
 * reaches up to `-lipRadius` and the exit lies at `exitZ`. From top to bottom on the axis: hub, motor, seat, tail cone.
 */
export interface FanLayout {
  readonly ducted: boolean;
  readonly tipRadius: number;
  readonly hubRadius: number;
  readonly boreRadius: number;
  readonly lipRadius: number;
  readonly wall: number;
  readonly topZ: number;
  readonly exitZ: number;
  readonly exitRadius: number;
  readonly outerRadius: number;
  readonly rotorZ: number;
  readonly hubTopZ: number;
  readonly hubBottomZ: number;
  /** Radius of the shaft as bought; the drawn bore is wider by what the printer closes. */
  readonly shaftRadius: number;
  /** The hub is a cup, open downstream: boss around the shaft, web at the top, rim that carries the blades. */
  readonly hubBossRadius: number;
  /** Inner radius of the rim; the boss radius where the hub is solid. */
  readonly hubRimRadius: number;
  readonly hubWebBottomZ: number;
  readonly motorRadius: number;
  readonly motorTopZ: number;
  readonly seatTopZ: number;
  readonly seatBottomZ: number;
  readonly seatRadius: number;
  /** Where the vanes begin: a little within the edge of the plate, clear of the can. */
  readonly vaneInnerRadius: number;
  /** Hole in the middle of the plate, for shaft end and bearing; 0 where the screws leave no room. */
  readonly seatHoleRadius: number;
  readonly mountCircleRadius: number;
  /** Clearance hole of a mounting screw. */
  readonly screwHoleRadius: number;
  readonly tailZ: number;
  readonly vaneTopZ: number;
  readonly vaneBottomZ: number;
  /** Half the axial depth of the blade, at the deepest station. */
  readonly bladeHalfDepth: number;
}

/**
 * Lays the parts of a fan out along its axis. The exit radius follows from the exit area ratio, counted on the annulus
 * outside the hub: pi (exitRadius^2 - hubRadius^2) = ratio * pi (boreRadius^2 - hubRadius^2).
 */
export function fanLayout(fan: Fan, motor: Motor): FanLayout {
  const mm = metresFromMillimetres;
  const ducted = fan.kind === 'ducted';
  const tipRadius = mm(fan.tipDiameter_mm) / 2;
  const hubRadius = mm(fan.hubDiameter_mm) / 2;
  const boreRadius = tipRadius + mm(fan.tipGap_mm);
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
  const motorTopZ = hubBottomZ + AXIAL_CLEARANCE;
  const seatTopZ = motorTopZ + mm(motor.canHeight_mm);
  const seatBottomZ = seatTopZ + SEAT_THICKNESS;
  const shaftRadius = mm(motor.shaftDiameter_mm) / 2;
  const hubBossRadius = Math.min(hubRadius, shaftRadius + BOSS_WALL);
  const rimRadius = hubRadius - Math.max(LEAST_HUB_WALL, 0.15 * hubRadius);
  const webBottomZ = hubTopZ + Math.max(LEAST_HUB_WALL, 0.2 * mm(fan.hubHeight_mm));
  const hollow = rimRadius - hubBossRadius >= NARROWEST_HOLLOW && hubBottomZ - webBottomZ >= NARROWEST_HOLLOW;
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
    hubBossRadius,
    hubRimRadius: hollow ? rimRadius : hubBossRadius,
    hubWebBottomZ: hollow ? webBottomZ : hubBottomZ,
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
