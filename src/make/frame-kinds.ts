import { framePlanOf, frameVolumesOf } from '../craft/frame.ts';
import type { Design } from '../project/schema.ts';
import { baseVolume } from './duct.ts';
import { armMesh, armPlacements, bodyMesh, bridgeMesh, bridgePlacements, plateMesh } from './frame.ts';
import { TURNED_OVER, UPRIGHT, type Kind } from './kind.ts';
import { turn } from './placement.ts';

const framed = (design: Design, kind: 'modular' | 'one body') =>
  design.craft.frame.kind === kind ? framePlanOf(design) : null;

const once = {
  per: 'craft',
  quantity: () => 1,
  handed: () => false,
  stands: () => [turn(0)],
} as const;

/** The parts that hold a craft together. A plate lies on its upper face, bay up; the body stands on the exits. */
export const frameKinds: readonly Kind[] = [
  {
    ...once,
    kind: 'body',
    id: 'body',
    name: 'body',
    present: (design) => framed(design, 'one body') !== null,
    mesh: bodyMesh,
    lies: () => TURNED_OVER,
    closedVolume: (design) => frameVolumesOf(design).whole + design.craft.fanCount * baseVolume(design),
  },
  {
    ...once,
    kind: 'plate',
    id: 'frame-plate',
    name: 'frame plate',
    present: (design) => framed(design, 'modular') !== null,
    mesh: plateMesh,
    lies: () => UPRIGHT,
    closedVolume: (design) => frameVolumesOf(design).plate,
  },
  {
    kind: 'arm',
    id: 'frame-arm',
    name: 'frame arm',
    per: 'craft',
    present: (design) => Boolean(framed(design, 'modular')?.arm),
    quantity: (design) => framed(design, 'modular')?.armStands.length ?? 0,
    handed: () => false,
    mesh: armMesh,
    lies: () => UPRIGHT,
    stands: armPlacements,
    closedVolume: (design) => frameVolumesOf(design).arm,
  },
  {
    kind: 'bridge',
    id: 'frame-bridge',
    name: 'frame bridge',
    per: 'craft',
    present: (design) => Boolean(framed(design, 'modular')?.bridge),
    quantity: (design) => framed(design, 'modular')?.bridgeStands.length ?? 0,
    handed: () => false,
    mesh: bridgeMesh,
    lies: () => UPRIGHT,
    stands: bridgePlacements,
    closedVolume: (design) => frameVolumesOf(design).bridge,
  },
];
