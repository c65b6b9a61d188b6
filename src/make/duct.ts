import type { Design } from '../project/schema.ts';
import { matingGap } from '../print/fits.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import {
  ductPieceKinds,
  ductPieces,
  pieceProfile,
  type DuctPiece,
  type DuctPieceKind,
} from '../shape/duct-pieces.ts';
import { ductPieceVolumes } from '../shape/duct-volumes.ts';
import { fanLayout, type FanLayout } from '../shape/layout.ts';
import { tailConeProfile } from '../shape/profiles.ts';
import { lugSolid, slotSolid } from './duct-fittings.ts';
import { seatSolid, vaneSolid } from './duct-stator.ts';
import { circleSegments, facetError, type Quality } from './fineness.ts';
import { sound, withSolids, type Kernel, type Solid } from './kernel.ts';
import { meshOf, type Mesh } from './mesh.ts';
import { turned } from './turned.ts';

/** Radial clearance of the duct's joints as drawn for this printer [m]: a slide fit, so that pieces go together by hand. */
export function jointGap({ fan, printer }: Pick<Design, 'fan' | 'printer'>): number {
  return Math.max(0, matingGap('slide', metresFromMillimetres(fan.tipDiameter_mm), printer));
}

/** Volume of one piece of the duct without a solid [m3]. */
export function pieceVolume(design: Design, kind: DuctPieceKind): number {
  const { fan, motor, printer } = design;
  const widening = metresFromMillimetres(printer.holeShrink_mm) / 2;
  const pieces = ductPieceVolumes(fan, motor, fanLayout(fan, motor), widening, jointGap(design));
  return pieces.find((piece) => piece.kind === kind)?.volume ?? 0;
}

/** The same of the piece that carries the motor. */
export function baseVolume(design: Design): number {
  const base = ductPieceKinds(design.fan).at(-1);
  return base ? pieceVolume(design, base) : 0;
}

/**
 * The piece of the duct that carries the motor, in the frame of the layout [mm]: the whole duct where it is not divided.
 * Wall, the plate that carries the motor on vanes that merge into both, lugs, and the slot for the leads. Curved vanes
 * are curved for a right-hand rotor.
 */
export function ductMesh(kernel: Kernel, design: Design, quality: Quality): Mesh {
  return withSolids((keep) => meshOf(keep(ductSolid(kernel, design, quality))));
}

/** The same as a solid, which the caller frees. */
export function ductSolid(kernel: Kernel, design: Design, quality: Quality): Solid {
  const layout = fanLayout(design.fan, design.motor);
  const error = facetError(design.printer, quality);
  const segments = circleSegments(layout.boreRadius, error / 2);
  return withSolids((keep) => {
    const piece = ductPieces(layout, design.fan, jointGap(design)).at(-1);
    if (!piece) throw new Error('An open rotor has no duct.');
    const ring = keep(turned(kernel, pieceProfile(layout, piece, arcSteps(layout, error)), segments));
    const slot = slotSolid(kernel, design.fan, layout);
    const wall = slot ? keep(ring.subtract(keep(slot))) : ring;
    const seat = keep(seatSolid(kernel, design, layout, error));
    const vanes = keep(vaneSolid(kernel, design, layout, error, segments));
    const parts = [sound(wall, 'duct wall'), sound(seat, 'motor seat'), sound(vanes, 'vanes')];
    const lugs = lugSolid(kernel, design, layout, error);
    if (lugs) parts.push(sound(keep(lugs), 'lugs'));
    return sound(kernel.Manifold.union(parts), 'duct');
  });
}

/** A piece of the duct above the one that carries the motor, in the frame of the layout [mm]. */
export function ductRingMesh(kernel: Kernel, design: Design, kind: DuctPieceKind, quality: Quality): Mesh {
  const layout = fanLayout(design.fan, design.motor);
  const error = facetError(design.printer, quality);
  const segments = circleSegments(layout.boreRadius, error / 2);
  const isWanted = (piece: DuctPiece) => piece.kind === kind;
  const piece = ductPieces(layout, design.fan, jointGap(design)).find(isWanted);
  if (!piece) throw new Error(`This duct has no piece ${kind}.`);
  return withSolids((keep) =>
    meshOf(sound(keep(turned(kernel, pieceProfile(layout, piece, arcSteps(layout, error)), segments)), kind)),
  );
}

/** The tail cone in the frame of the layout [mm]. */
export function tailConeMesh(kernel: Kernel, design: Design, quality: Quality): Mesh {
  const layout = fanLayout(design.fan, design.motor);
  const segments = circleSegments(layout.seatRadius, facetError(design.printer, quality) / 4);
  return withSolids((keep) =>
    meshOf(sound(keep(turned(kernel, tailConeProfile(layout), segments)), 'tail cone')),
  );
}

/** Straight pieces for the lip's quarter circle and the change to the exit, each within `error` [m] of its curve. */
function arcSteps(layout: FanLayout, error: number): number {
  const radius = Math.max(layout.lipRadius, layout.wall);
  // A half cosine of height 2 A in n pieces stands off its pieces by A pi^2 / (8 n^2).
  const amplitude = Math.abs(layout.exitRadius - layout.boreRadius) / 2;
  const change = Math.PI * Math.sqrt(amplitude / (8 * error));
  return Math.min(40, Math.max(6, Math.ceil(circleSegments(radius, error) / 4), Math.ceil(change)));
}
