import { printedVolumes } from '../shape/volumes.ts';
import { UPRIGHT, type Kind } from './kind.ts';
import { rotorMesh } from './rotor.ts';

/** The turning parts of a fan. The rotor lies with its closed face down. */
export const rotorKinds: readonly Kind[] = [
  {
    kind: 'rotor',
    id: 'rotor',
    name: 'rotor',
    per: 'fan',
    present: () => true,
    quantity: () => 1,
    handed: () => true,
    mesh: rotorMesh,
    lies: () => UPRIGHT,
    closedVolume: ({ fan, motor, printer }) => printedVolumes(fan, motor, printer.holeShrink_mm).rotor,
  },
];
