import type { Design } from '../project/schema.ts';
import { ductPieceKinds } from '../shape/duct-pieces.ts';
import { printedVolumes } from '../shape/volumes.ts';
import { ductMesh, ductRingMesh, pieceVolume, tailConeMesh } from './duct.ts';
import { TURNED_OVER, UPRIGHT, type Kind } from './kind.ts';

/** A piece of the duct above the one that carries the motor: a ring, the same for both hands. */
function ringKind(kind: 'lip' | 'ductUpper', id: string, name: string): Kind {
  return {
    kind,
    id,
    name,
    per: 'fan',
    present: ({ fan }) => ductPieceKinds(fan).includes(kind),
    quantity: () => 1,
    handed: () => false,
    mesh: (kernel, design, quality) => ductRingMesh(kernel, design, kind, quality),
    lies: () => TURNED_OVER,
    closedVolume: (design) => pieceVolume(design, kind),
  };
}

/** The piece of the duct that carries the motor; a frame in one body holds it already. */
function baseKind(kind: 'duct' | 'ductLower', id: string, name: string): Kind {
  return {
    kind,
    id,
    name,
    per: 'fan',
    present: ({ fan, craft }) => ductPieceKinds(fan).includes(kind) && craft.frame.kind !== 'one body',
    quantity: () => 1,
    handed: ({ fan }) => fan.stator.curved,
    mesh: ductMesh,
    lies: () => TURNED_OVER,
    closedVolume: (design) => pieceVolume(design, kind),
  };
}

const volumesOf = ({ fan, motor, printer }: Design) => printedVolumes(fan, motor, printer.holeShrink_mm);

/**
 * The standing parts of a fan. The duct and every piece of it stand on their lower ends, the air side of the lip up; the
 * tail cone on its rim.
 */
export const ductKinds: readonly Kind[] = [
  ringKind('lip', 'lip', 'lip'),
  ringKind('ductUpper', 'duct-upper', 'upper duct ring'),
  baseKind('duct', 'duct', 'duct'),
  baseKind('ductLower', 'duct-lower', 'lower duct ring'),
  {
    kind: 'tailCone',
    id: 'tail-cone',
    name: 'tail cone',
    per: 'fan',
    present: ({ fan }) => fan.kind === 'ducted' && fan.duct.tailCone,
    quantity: () => 1,
    handed: () => false,
    mesh: tailConeMesh,
    lies: () => UPRIGHT,
    closedVolume: (design) => volumesOf(design).tailCone,
  },
];
