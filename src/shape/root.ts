import type { Fan } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import { sectionHollow, sectionSpecAt } from './section.ts';
import { bladeAt, bladeCurves, type BladeCurves, type BladeSection } from './blade.ts';
import type { FanLayout } from './fan-layout.ts';
import { platformRoom, rootKey } from './root-key.ts';

/** Circumference over which the offset of a blend is kept clear of the neighbouring blade. */
const NEIGHBOUR_SHARE = 0.45;

/** Share of the radius of a section's hollow side that a blend may fill before it would fold over itself. */
const HOLLOW_SHARE = 0.7;

/** What a blend leaves free at the edge of the platform of a blade apart, over the thickness of the hub's cap. */
const PLATFORM_EDGE = 0.25;

/**
 * Clear distance between neighbouring blades at one radius [m]; zero or less: they run into each other. Two blades are
 * the same section shifted round by the pitch 2 pi r / B, so they clear either along the chord or square to it.
 */
export function bladeClearance(at: BladeSection, bladeCount: number): number {
  const pitch = (2 * Math.PI * at.radius) / bladeCount;
  const along = pitch * Math.abs(Math.cos(at.angle)) - at.chord;
  const across = pitch * Math.abs(Math.sin(at.angle)) - (at.thickness + Math.abs(at.camber)) * at.chord;
  return Math.max(along, across);
}

/** Half the room a section takes along the axis [m], its thickness and camber included. */
export function halfDepth(at: BladeSection): number {
  const height = (at.thickness / 2 + Math.abs(at.camber)) * at.chord;
  return (at.chord / 2) * Math.abs(Math.sin(at.angle)) + height * Math.cos(at.angle);
}

/**
 * Radius of the blend from blade to hub as it can be made [m]: the wanted one, less where the hub's faces, the next
 * blade, the length of the blade or the hollow of its section leave less room.
 */
export function rootBlendRadius(fan: Fan, layout: FanLayout, curves: BladeCurves = bladeCurves(fan)): number {
  const root = bladeAt(curves, layout.hubRadius);
  const apart = fan.rotorParts === 'blades apart';
  const flange = apart ? rootKey(fan, layout).flange : 0;
  const room = Math.min(
    metresFromMillimetres(fan.rootFillet_mm),
    (layout.hubBottomZ - layout.hubTopZ) / 2 - flange - PLATFORM_EDGE * flange - halfDepth(root),
    apart ? platformRoom(fan, layout, curves) * layout.hubRadius - PLATFORM_EDGE * flange : Infinity,
    NEIGHBOUR_SHARE * bladeClearance(root, fan.bladeCount),
    (layout.tipRadius - layout.hubRadius) / 3,
    HOLLOW_SHARE * sectionHollow(sectionSpecAt(fan.section, root)) * root.chord,
  );
  return room > 1e-5 ? room : 0;
}

/** How far a blend of radius `blend` stands off the blade at `height` above the hub [m]: a quarter circle. */
export function blendOffset(blend: number, height: number): number {
  if (height >= blend) return 0;
  const left = blend - Math.max(0, height);
  return blend - Math.sqrt(blend * blend - left * left);
}
