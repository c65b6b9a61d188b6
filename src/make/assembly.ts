import { framePlanOf } from '../craft/frame.ts';
import { placementOf } from '../craft/placement.ts';
import type { Project } from '../project/schema.ts';
import { gramsFromKilograms, millimetresFromMetres } from '../quantities/units.ts';
import { fanLayout } from '../shape/layout.ts';
import { printedVolumes } from '../shape/volumes.ts';
import { fanPlacements } from './assembly-fans.ts';
import { boxMesh, cylinderMesh } from './assembly-solids.ts';
import type { Kind, PartKind, Placement } from './kind.ts';
import { kinds } from './kinds.ts';
import type { Made, MadePart } from './make.ts';
import type { Mesh } from './mesh.ts';
import { combined, shift } from './placement.ts';

/** One thing as it stands in the craft. Its surface is the part's own and shared by all its copies. */
export interface Piece {
  /** Unique in the assembly, for instance `rotor-right-fan-1`. */
  readonly id: string;
  /** As a sentence names it, for instance `rotor of fan 1`. */
  readonly name: string;
  /** The part it is a copy of; null for what is bought. */
  readonly partId: string | null;
  readonly kind: PartKind | 'motor' | 'battery' | 'board';
  /** Bought things are drawn as the space they take up. */
  readonly bought: boolean;
  /** Number of its fan, from 1; null for what belongs to the craft. */
  readonly fan: number | null;
  /** Which of several alike in its fan (in the craft, where the part is the craft's), from 1; null for the only one. */
  readonly copy: number | null;
  /** Whether it turns with the rotor. */
  readonly turns: boolean;
  readonly mesh: Mesh;
  /** From the part on the bed into the craft: 4 by 4, column after column, for lengths in mm. */
  readonly placement: Placement;
}

/** A whole craft put together. x forward, y to the right, z down [mm]; z is 0 where lip and bore of an upright fan meet. */
export interface Assembly {
  readonly pieces: readonly Piece[];
  /** Each fan's own frame in the craft. */
  readonly fans: readonly Placement[];
  /** Of everything aboard, printed or not. */
  readonly centreOfMass_mm: readonly [x: number, y: number, z: number];
  readonly mass_g: number;
  /** Screws between ducts and frame; 0 where no modular frame is printed. */
  readonly frameScrews: number;
}

const TURNING: readonly string[] = ['rotor', 'blade', 'hub', 'hubCap', 'spinner'];

/**
 * Puts the parts of a project together: each fan with the rotor of its hand, its standing parts turned so that the lugs
 * face the frame, the frame, and the space of motors, battery and board. Battery and board are only there where a frame
 * says how they lie.
 */
export function assemble(project: Project, made: Made): Assembly {
  const plan = framePlanOf(project);
  const layout = fanLayout(project.fan, project.motor);
  const fans = fanPlacements(project, plan);
  const entries = new Map<PartKind, Kind>(kinds.map((entry) => [entry.kind, entry]));
  const pieces: Piece[] = [];
  for (const part of made.parts) {
    if (entries.get(part.kind)?.per === 'craft') {
      part.placements.forEach((placement, i) =>
        pieces.push(pieceOf(part, null, placement, part.placements.length > 1 ? i + 1 : null)),
      );
      continue;
    }
    fans.forEach((fan, index) => {
      if (part.hand !== null && part.hand !== fan.hand) return;
      part.placements.forEach((placement, i) =>
        pieces.push(
          pieceOf(
            part,
            index + 1,
            combined(fan.placement, placement),
            part.placements.length > 1 ? i + 1 : null,
          ),
        ),
      );
    });
  }
  const mm = millimetresFromMetres;
  const can = cylinderMesh(mm(layout.motorRadius), mm(layout.seatTopZ - layout.motorTopZ));
  fans.forEach((fan, index) =>
    pieces.push({
      id: `motor-fan-${index + 1}`,
      name: `motor of fan ${index + 1}`,
      ...BOUGHT,
      kind: 'motor',
      fan: index + 1,
      mesh: can,
      placement: combined(fan.placement, shift(0, 0, mm(layout.motorTopZ))),
    }),
  );
  if (plan)
    for (const kind of ['battery', 'board'] as const) {
      const { length, width, topZ, bottomZ, x, y } = plan[kind];
      pieces.push({
        id: kind,
        name: kind === 'board' ? 'electronics board' : kind,
        ...BOUGHT,
        kind,
        fan: null,
        mesh: boxMesh(mm(length), mm(width), mm(bottomZ - topZ)),
        placement: shift(mm(x), mm(y), mm((topZ + bottomZ) / 2)),
      });
    }
  const volumes = printedVolumes(project.fan, project.motor, project.printer.holeShrink_mm);
  const { whole } = placementOf(project, volumes);
  return {
    pieces,
    fans: fans.map(({ placement }) => placement),
    centreOfMass_mm: [mm(whole.centre[0]), mm(whole.centre[1]), mm(whole.centre[2])],
    mass_g: gramsFromKilograms(whole.mass),
    frameScrews: plan?.screws ?? 0,
  };
}

const BOUGHT = { partId: null, bought: true, turns: false, copy: null } as const;

function pieceOf(part: MadePart, fan: number | null, placement: Placement, copy: number | null): Piece {
  const bare = kinds.find(({ kind }) => kind === part.kind)?.name ?? part.name;
  return {
    id: `${part.id}${fan === null ? '' : `-fan-${fan}`}${copy === null ? '' : `-${copy}`}`,
    name: `${bare}${copy === null ? '' : ` ${copy}`}${fan === null ? '' : ` of fan ${fan}`}`,
    partId: part.id,
    kind: part.kind,
    bought: false,
    fan,
    copy,
    turns: TURNING.includes(part.kind),
    mesh: part,
    placement,
  };
}
