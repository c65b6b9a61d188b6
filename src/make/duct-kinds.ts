import type { Design } from '../project/schema.ts';
import { printedVolumes } from '../shape/volumes.ts';
import { ductMesh, tailConeMesh } from './duct.ts';
import { TURNED_OVER, UPRIGHT, type Kind } from './kind.ts';

const volumesOf = ({ fan, motor, printer }: Design) => printedVolumes(fan, motor, printer.holeShrink_mm);

/** The standing parts of a fan. The duct stands on its exit, the tail cone on its rim. */
export const ductKinds: readonly Kind[] = [
  {
    kind: 'duct',
    id: 'duct',
    name: 'duct',
    per: 'fan',
    present: ({ fan }) => fan.kind === 'ducted',
    quantity: () => 1,
    handed: ({ fan }) => fan.stator.curved,
    mesh: ductMesh,
    lies: () => TURNED_OVER,
    closedVolume: (design) => volumesOf(design).duct,
  },
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
