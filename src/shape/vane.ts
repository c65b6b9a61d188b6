import type { Fan } from '../project/schema.ts';
import { metresFromMillimetres, radiansFromDegrees } from '../quantities/units.ts';
import type { SectionSpec } from './section.ts';

/** Section of a vane with its chord along it: a plate, bent to an arc where the vanes are curved. */
export function vaneSpec(fan: Fan): SectionSpec {
  const { chord, thickness, camber } = vaneSize(fan);
  return {
    family: fan.stator.curved ? 'arc-plate' : 'flat-plate',
    thickness: thickness / chord,
    camber,
    camberPosition: 0.5,
    trailingEdge: (0.5 * thickness) / chord,
  };
}

/**
 * A vane's chord [m], thickness [m], angle of the chord to the plane of rotation [rad] and camber over chord. Behind a
 * right-hand rotor the air turns with the blades; a curved vane meets it at `turn_deg` to the axis and lets it go along
 * the axis, so its chord leans past a right angle and its mean line bends the other way than a blade's. Its depth along
 * the axis is `chord_mm`.
 */
export function vaneSize(fan: Fan) {
  const depth = metresFromMillimetres(fan.stator.chord_mm);
  const half = fan.stator.curved ? radiansFromDegrees(fan.stator.turn_deg) / 2 : 0;
  return {
    chord: depth / Math.cos(half),
    thickness: metresFromMillimetres(fan.stator.thickness_mm),
    angle: Math.PI / 2 + half,
    camber: -Math.tan(half / 2) / 2,
  };
}
