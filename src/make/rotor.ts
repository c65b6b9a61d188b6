import { rotorFits } from '../print/rotor-fits.ts';
import type { Design, Fan } from '../project/schema.ts';
import { bladeAt, bladeCurves, type BladeCurves } from '../shape/blade.ts';
import { fanLayout, type FanLayout } from '../shape/layout.ts';
import { hubProfile, ringProfile } from '../shape/profiles.ts';
import { rootKey } from '../shape/root-key.ts';
import { blendOffset, rootBlendRadius } from '../shape/root.ts';
import { sectionOutline, sectionSpecAt } from '../shape/section.ts';
import { spinnerProfile } from '../shape/spinner.ts';
import { circleSegments, facetError, type Quality } from './fineness.ts';
import { sound, withSolids, type Kernel } from './kernel.ts';
import { loft, type WrappedSection } from './loft.ts';
import { meshOf, solidOf, type Mesh } from './mesh.ts';
import { BEYOND, between, grooveSolid, screwContours } from './rotor-holes.ts';
import { turned } from './turned.ts';

/** Triangles all blades together may have; facets grow where a rotor would need more. */
const MOST_TRIANGLES = 50_000;

/** The blade reaches this share of the rim into the hub, and no deeper than this [m]. */
const ROOT_SHARE = 0.6;
const DEEPEST_ROOT = 0.002;

/**
 * The right-hand rotor in one piece, in the frame of the layout [mm]: hub with its holes, blades lofted through sections
 * that lie on cylinders about the axis (so the tip is a piece of the tip cylinder), their roots growing into the hub by
 * the blend, and the ring that joins the tips. Seen from upstream it turns anticlockwise, thrust to -z.
 */
export function rotorMesh(kernel: Kernel, design: Design, quality: Quality): Mesh {
  const { fan, motor, printer } = design;
  const layout = fanLayout(fan, motor);
  const error = facetError(printer, quality);
  const fits = rotorFits(design, layout);
  const segments = circleSegments(layout.hubRadius, error / 2);
  return withSolids((keep) => {
    const hub = keep(turned(kernel, hubProfile(layout, fits.bore), segments));
    const blade = sound(keep(solidOf(kernel, bladeMesh(design, layout, error))), 'blade');
    const joined = Array.from({ length: fan.bladeCount }, (_, i) =>
      keep(blade.rotate([0, 0, (360 * i) / fan.bladeCount])),
    );
    if (layout.ringHalfHeight > 0)
      joined.push(keep(turned(kernel, ringProfile(layout), circleSegments(layout.turningRadius, error / 2))));
    let rotor = keep(kernel.Manifold.union([sound(hub, 'hub'), ...joined]));
    if (fan.hub.hold === 'bell screws') {
      const holes = screwContours(design, fits.screwHole, error);
      const { hubTopZ, hubBottomZ, hubOpen, hubWebZ } = layout;
      const topZ = (hubOpen === 'upstream' ? hubWebZ : hubTopZ) - BEYOND / 2;
      rotor = keep(rotor.subtract(keep(between(kernel, holes, topZ, hubBottomZ + BEYOND))));
    }
    const groove = grooveSolid(kernel, design, layout, error);
    if (groove) rotor = keep(rotor.subtract(keep(groove)));
    return meshOf(sound(rotor, 'rotor'));
  });
}

/** The spinner in the frame of the layout [mm]. */
export function spinnerMesh(kernel: Kernel, design: Design, quality: Quality): Mesh {
  const layout = fanLayout(design.fan, design.motor);
  const error = facetError(design.printer, quality);
  const segments = circleSegments(layout.hubRadius, error / 2);
  const gap = rotorFits(design, layout).tongue;
  const profile = spinnerProfile(design.fan, layout, { gap, steps: Math.max(6, Math.ceil(segments / 4)) });
  return withSolids((keep) => meshOf(sound(keep(turned(kernel, profile, segments)), 'spinner')));
}

/** One blade from within the hub's rim to the tip, or into the tip ring. */
export function bladeMesh(design: Design, layout: FanLayout, error: number): Mesh {
  const { fan } = design;
  const curves = bladeCurves(fan);
  const blend = rootBlendRadius(fan, layout, curves);
  let allowed = error;
  for (;;) {
    const points = pointsPerSide(curves, layout, allowed);
    const radii = spanRadii(curves, layout, blend, allowed);
    if (fan.bladeCount * radii.length * (2 * points + 1) * 2 <= MOST_TRIANGLES || allowed > 1e-3) {
      return loft([
        wrapped(innerRadius(fan, layout), layout.hubRadius),
        ...radii.map((radius) => wrapped(radius, radius)),
        ...(layout.ringHalfHeight > 0 ? [wrapped(intoRing(layout), layout.tipRadius)] : []),
      ]);
    }
    allowed *= 1.3;

    function wrapped(radius: number, wrapRadius: number): WrappedSection {
      const at = bladeAt(curves, wrapRadius);
      return {
        radius,
        wrapRadius,
        outline: sectionOutline(sectionSpecAt(fan.section, at), points),
        chord: at.chord,
        angle: at.angle,
        middleZ: layout.rotorZ,
        grow: blendOffset(blend, wrapRadius - layout.hubRadius),
      };
    }
  }
}

/** Where the blade ends inside the hub's rim, or inside the platform of a blade apart. */
function innerRadius(fan: Fan, layout: FanLayout): number {
  const inner =
    fan.rotorParts === 'blades apart'
      ? rootKey(fan, layout).platformInnerRadius
      : layout.hubOpen === 'solid'
        ? layout.hubBoreRadius
        : layout.hubRimRadius;
  return layout.hubRadius - Math.min(ROOT_SHARE * (layout.hubRadius - inner), DEEPEST_ROOT);
}

/** Where the blade ends inside the tip ring. */
const intoRing = ({ tipRadius, turningRadius }: FanLayout): number =>
  tipRadius + ROOT_SHARE * (turningRadius - tipRadius);

/** Points a side so that the widest section, bent by camber and by its cylinder, stays within `error`. */
function pointsPerSide(curves: BladeCurves, layout: FanLayout, error: number): number {
  let most = 0;
  for (let k = 0; k <= 8; k++) {
    const at = bladeAt(curves, curves.hubRadius + ((curves.tipRadius - curves.hubRadius) * k) / 8);
    const bend = (8 * Math.abs(at.camber)) / at.chord + (2 * at.thickness) / at.chord + 1 / layout.hubRadius;
    // Pieces of length s on a curve of curvature k stand off by k s^2 / 8; half the points lie on the middle of a side.
    most = Math.max(most, (2 * at.chord) / Math.sqrt((8 * error) / bend));
  }
  return Math.min(80, Math.max(10, Math.ceil(most) + 8));
}

/** Radii from hub to tip: along the blend by equal angles, then as many as the edges of the blade need to stay within `error`. */
function spanRadii(curves: BladeCurves, layout: FanLayout, blend: number, error: number): number[] {
  const { hubRadius, tipRadius } = layout;
  const radii: number[] = [];
  if (blend > 0) {
    const steps = Math.max(3, Math.ceil(Math.PI / 4 / Math.acos(1 - Math.min(0.3, error / blend))));
    for (let k = 0; k < steps; k++)
      radii.push(hubRadius + blend * (1 - Math.cos((Math.PI / 2) * (k / steps))));
  }
  const from = hubRadius + blend;
  let pieces = 4;
  while (pieces < 96 && spanError(curves, from, tipRadius, pieces) > error) pieces = Math.ceil(pieces * 1.4);
  for (let k = 0; k < pieces; k++) radii.push(from + ((tipRadius - from) * k) / pieces);
  radii.push(tipRadius);
  // Rings of facets narrower than what can be resolved would be of no use to any printer.
  return radii.filter((radius, i) => i === radii.length - 1 || i === 0 || radius - radii[i - 1] >= error);
}

/** Largest distance of the blade's two edges from straight pieces between stations [m]. */
function spanError(curves: BladeCurves, from: number, to: number, pieces: number): number {
  const edge = (radius: number, side: number) => {
    const at = bladeAt(curves, radius);
    const turn = (side * at.chord * Math.cos(at.angle)) / radius;
    return [radius * Math.cos(turn), radius * Math.sin(turn), side * at.chord * Math.sin(at.angle)];
  };
  let worst = 0;
  const step = (to - from) / pieces;
  for (let k = 0; k < pieces; k++)
    for (const side of [-0.5, 0.5]) {
      const [a, b, m] = [0, 1, 0.5].map((part) => edge(from + (k + part) * step, side));
      worst = Math.max(worst, Math.hypot(...m.map((value, i) => value - (a[i] + b[i]) / 2)));
    }
  return worst;
}
