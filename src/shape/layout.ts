import type { Fan, Motor } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import { bladeAt, bladeCurves } from './blade.ts';

/** Clearance along the axis between turning and standing parts [m]. Common practice, no source. */
const AXIAL_CLEARANCE = 0.0008;

/** Thickness of the plate that carries the motor [m]. Common practice, no source. */
const SEAT_THICKNESS = 0.002;

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
  readonly motorRadius: number;
  readonly motorTopZ: number;
  readonly seatTopZ: number;
  readonly seatBottomZ: number;
  readonly seatRadius: number;
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
  const motorRadius = mm(motor.canDiameter_mm) / 2;
  const seatRadius = Math.max(motorRadius, mm(motor.mountCircle_mm) / 2 + mm(motor.mountScrew_mm) * 1.5);
  const exitRadius = Math.sqrt(hubRadius ** 2 + fan.duct.exitAreaRatio * (boreRadius ** 2 - hubRadius ** 2));
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
    outerRadius: Math.max(boreRadius + Math.max(lipRadius, wall), exitRadius + wall),
    rotorZ,
    hubTopZ,
    hubBottomZ,
    motorRadius,
    motorTopZ,
    seatTopZ,
    seatBottomZ,
    seatRadius,
    tailZ: seatBottomZ + (fan.duct.tailCone ? 2 * seatRadius : 0),
    vaneTopZ: seatBottomZ - mm(fan.stator.chord_mm),
    vaneBottomZ: seatBottomZ,
    bladeHalfDepth,
  };
}
