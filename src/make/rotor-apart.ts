import { rotorFits } from '../print/rotor-fits.ts';
import type { Design } from '../project/schema.ts';
import { fanLayout, type FanLayout } from '../shape/layout.ts';
import { rectangle, type Profile } from '../shape/profile.ts';
import { keyOutline, platformHalfAngle, rootKey } from '../shape/root-key.ts';
import { circle } from './circle.ts';
import { circleSegments, facetError, type Quality } from './fineness.ts';
import { sound, withSolids, type Kernel } from './kernel.ts';
import { meshOf, solidOf, type Mesh } from './mesh.ts';
import { bladeMesh } from './rotor.ts';
import { BEYOND, between, grooveSolid, screwContours } from './rotor-holes.ts';
import { turned } from './turned.ts';

type Contour = [number, number][];

const millimetres = (points: readonly (readonly [number, number])[]): Contour =>
  points.map(([x, y]) => [1e3 * x, 1e3 * y]);

/** An arc about the axis [mm], both ends on it. */
function arc(radius: number, from: number, to: number, error: number): Contour {
  const pieces = Math.max(
    2,
    Math.ceil((circleSegments(radius, error) * Math.abs(to - from)) / (2 * Math.PI)),
  );
  return Array.from({ length: pieces + 1 }, (_, i) => {
    const a = from + ((to - from) * i) / pieces;
    return [1e3 * radius * Math.cos(a), 1e3 * radius * Math.sin(a)];
  });
}

/** One right-hand blade with its platform and key, where the first one stands in the fan [mm]. */
export function apartBladeMesh(kernel: Kernel, design: Design, quality: Quality): Mesh {
  const { fan, motor, printer } = design;
  const layout = fanLayout(fan, motor);
  const error = facetError(printer, quality);
  const fits = rotorFits(design, layout);
  const key = rootKey(fan, layout);
  const half = platformHalfAngle(fan, layout, fits.key);
  const topZ = key.platformTopZ + fits.key;
  const platform = [
    ...arc(layout.hubRadius, -half, half, error / 2),
    ...arc(key.platformInnerRadius, half, -half, error / 2),
  ];
  // Into the platform, so that the two have a body in common.
  const foot = millimetres(keyOutline(key, (key.platformInnerRadius + layout.hubRadius) / 2));
  return withSolids((keep) => {
    const blade = sound(keep(solidOf(kernel, bladeMesh(design, layout, error))), 'blade');
    const pieces = [platform, foot].map((contour) =>
      sound(keep(between(kernel, [contour], topZ, key.platformBottomZ)), 'root of the blade'),
    );
    return meshOf(sound(keep(kernel.Manifold.union([blade, ...pieces])), 'blade with its root'));
  });
}

/** The body of the hub that holds blades apart, in the frame of the layout [mm]: floor, core with pockets, holes. */
export function hubBodyMesh(kernel: Kernel, design: Design, quality: Quality): Mesh {
  const { fan, motor, printer } = design;
  const layout = fanLayout(fan, motor);
  const error = facetError(printer, quality);
  const fits = rotorFits(design, layout);
  const key = rootKey(fan, layout);
  const core = key.platformInnerRadius - fits.key;
  const { hubBottomZ, hubRadius } = layout;
  const body: Profile = [
    [hubBottomZ, 0],
    [key.platformTopZ, 0],
    [key.platformTopZ, core],
    [key.platformBottomZ, core],
    [key.platformBottomZ, hubRadius],
    [hubBottomZ, hubRadius],
  ];
  const pocket = millimetres(keyOutline(key, hubRadius, fits.key));
  return withSolids((keep) => {
    const whole = sound(keep(turned(kernel, body, circleSegments(hubRadius, error / 2))), 'hub body');
    const first = keep(between(kernel, [pocket], key.platformTopZ - BEYOND, key.platformBottomZ));
    const pockets = Array.from({ length: fan.bladeCount }, (_, i) =>
      keep(first.rotate([0, 0, (360 * i) / fan.bladeCount])),
    );
    const holes = holeContours(
      design,
      error,
      fits.bore,
      fan.hub.hold === 'press fit' ? fits.screwCore : fits.screwHole,
    );
    const bored = keep(between(kernel, holes, key.platformTopZ - BEYOND, hubBottomZ + BEYOND));
    const cut = keep(kernel.Manifold.union([...pockets, bored]));
    return meshOf(sound(keep(whole.subtract(cut)), 'hub body'));
  });
}

/** The cap that shuts the blades in, in the frame of the layout [mm]. */
export function hubCapMesh(kernel: Kernel, design: Design, quality: Quality): Mesh {
  const { fan, motor, printer } = design;
  const layout: FanLayout = fanLayout(fan, motor);
  const error = facetError(printer, quality);
  const fits = rotorFits(design, layout);
  const { platformTopZ } = rootKey(fan, layout);
  const { hubTopZ, hubRadius } = layout;
  return withSolids((keep) => {
    const plate = rectangle(hubTopZ, platformTopZ, 0, hubRadius);
    let cap = sound(keep(turned(kernel, plate, circleSegments(hubRadius, error / 2))), 'hub cap');
    const holes = holeContours(design, error, fits.capBore, fits.screwHole);
    cap = keep(cap.subtract(keep(between(kernel, holes, hubTopZ - BEYOND, platformTopZ + BEYOND))));
    const groove = grooveSolid(kernel, design, layout, error);
    if (groove) cap = keep(cap.subtract(keep(groove)));
    return meshOf(sound(cap, 'hub cap'));
  });
}

/** Bore and screw holes [mm]; a hub on a threaded shaft is held by its nut and has no screws. */
function holeContours(design: Design, error: number, bore: number, screw: number): Contour[] {
  const contours = [circle(bore, circleSegments(bore, error / 2))];
  if (design.fan.hub.hold !== 'threaded shaft') contours.push(...screwContours(design, screw, error));
  return contours;
}
