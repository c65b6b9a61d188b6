import { rotorFits } from '../print/rotor-fits.ts';
import type { Design } from '../project/schema.ts';
import { fanLayout } from '../shape/layout.ts';
import { lyingDown } from '../shape/lies.ts';
import { rotorVolumes, type RotorVolumes } from '../shape/rotor-volumes.ts';
import { TURNED_OVER, UPRIGHT, type Kind, type Rotation } from './kind.ts';
import { apartBladeMesh, hubBodyMesh, hubCapMesh } from './rotor-apart.ts';
import { rotorMesh, spinnerMesh } from './rotor.ts';

const apart = ({ fan }: Design): boolean => fan.rotorParts === 'blades apart';

function volumesOf(design: Design): RotorVolumes {
  const layout = fanLayout(design.fan, design.motor);
  return rotorVolumes(design.fan, layout, rotorFits(design, layout));
}

/** The blade's radial line is the bed's z: it stands on the foot of its key. */
const STANDING: Rotation = [
  [0, 1, 0],
  [0, 0, 1],
  [1, 0, 0],
];

/**
 * How a blade apart lies, as `fan.bladesPrinted` says. Standing on the flat foot of its key, both air sides are walls that
 * print smooth and true without support, but the pull of rotation acts across the layers. Lying with the chord at 70 % of
 * the span flat, pressure side down, it acts along them, which is stronger; the pressure side then shows steps and needs
 * support.
 */
function bladeLies({ fan }: Design): Rotation {
  if (fan.bladesPrinted !== 'lying') return STANDING;
  const [, y, z] = lyingDown(fan);
  return [
    [1, 0, 0],
    [0, -z, y],
    [0, -y, -z],
  ];
}

/** Screwed to the bell, the rotor's closed side is the one that faces downstream. */
const rotorLies = ({ fan, motor }: Design): Rotation =>
  fanLayout(fan, motor).hubOpen === 'upstream' ? TURNED_OVER : UPRIGHT;

const turning = { per: 'fan', quantity: () => 1, handed: () => false, lies: () => UPRIGHT } as const;

/**
 * The turning parts of a fan. A rotor in one piece lies with its closed side down; of one in parts the hub body stands on
 * its floor with the pockets open above, the cap lies on its outer face, the spinner stands on its tongue.
 */
export const rotorKinds: readonly Kind[] = [
  {
    ...turning,
    kind: 'rotor',
    id: 'rotor',
    name: 'rotor',
    present: (design) => !apart(design),
    handed: () => true,
    mesh: rotorMesh,
    lies: rotorLies,
    closedVolume: (design) => {
      const { hub, blades, tipRing } = volumesOf(design);
      return hub + blades + tipRing;
    },
  },
  {
    ...turning,
    kind: 'blade',
    id: 'blade',
    name: 'blade',
    present: apart,
    quantity: ({ fan }) => fan.bladeCount,
    handed: () => true,
    mesh: apartBladeMesh,
    lies: bladeLies,
    closedVolume: (design) => volumesOf(design).blade,
  },
  {
    ...turning,
    kind: 'hub',
    id: 'hub',
    name: 'hub body',
    present: apart,
    mesh: hubBodyMesh,
    lies: () => TURNED_OVER,
    closedVolume: (design) => volumesOf(design).hub,
  },
  {
    ...turning,
    kind: 'hubCap',
    id: 'hub-cap',
    name: 'hub cap',
    present: apart,
    mesh: hubCapMesh,
    closedVolume: (design) => volumesOf(design).hubCap,
  },
  {
    ...turning,
    kind: 'spinner',
    id: 'spinner',
    name: 'spinner',
    present: ({ fan }) => fan.hub.spinner,
    mesh: spinnerMesh,
    lies: () => TURNED_OVER,
    closedVolume: (design) => volumesOf(design).spinner,
  },
];
