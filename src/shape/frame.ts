import type { Craft } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import {
  armOutline,
  bridgeOutline,
  areaInRectangle,
  outlineArea,
  starOutline,
  type Point,
  type Tongue,
} from './frame-outline.ts';
import { hangsOf, type Hang } from './frame-hang.ts';
import type { FanLayout } from './layout.ts';
import type { LugPlace } from './lugs.ts';
import { wallOuterRadius } from './profiles.ts';

/** Room round the battery in its bay, and round a duct where a strip ends [m]. Common practice, no source. */
const BAY_ROOM = 0.0005;
const HOLLOW_ROOM = 0.0003;

/** End stops and rails of the bay, rim outside its slots, rounding of the plate [m]. Common practice, no source. */
const STOP = 0.002;
const RAIL = 0.0024;
const RIM = 0.003;
const CORNER = 0.004;

/** Slot for a strap 10 mm wide [m], and how high the stops reach up the battery. Common practice, no source. */
const STRAP = { width: 0.012, depth: 0.003, off: 0.0015 } as const;
const STOP_SHARE = 1 / 3;
const MOST_STOP = 0.008;

/** A separate arm is worth having from this length between plate and duct on [m]; below it the plate itself reaches out. */
const SHORTEST_ARM = 0.015;

export interface Hole {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** A box with edges along x and y [m]. */
export interface Block {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
}

/** A flat part: an outline with holes and slots between two heights [m]. */
export interface Slab {
  readonly outline: readonly Point[];
  readonly holes: readonly Hole[];
  readonly slots: readonly Block[];
  readonly topZ: number;
  readonly bottomZ: number;
}

/** Where a drawn strip stands: turned by `angle` [rad], then moved [m]. */
export interface Stand {
  readonly angle: number;
  readonly x: number;
  readonly y: number;
}

/** Everything the frame of a craft is made of. SI, in the frame of the craft: x forward, y right, z down, 0 as in the fan. */
export interface FramePlan {
  readonly kind: 'modular' | 'one body';
  readonly plate: Slab;
  /** Half of the plate in the middle, without its tongues. */
  readonly pad: { readonly halfLength: number; readonly halfWidth: number };
  /** Blocks under the plate, from its lower face down by `depth`: rails the battery lies against, stops at its ends. */
  readonly blocks: readonly (Block & { readonly depth: number })[];
  /** The strip from plate to duct, drawn along +x; null where the plate reaches the ducts itself. */
  readonly arm: Slab | null;
  readonly armStands: readonly Stand[];
  /** The strip between two ducts, drawn along x about the origin; null where there is none. */
  readonly bridge: Slab | null;
  readonly bridgeStands: readonly Stand[];
  /** Turn of each duct about its own axis, so that its lugs face the frame [rad]. */
  readonly spins: readonly number[];
  readonly hangs: readonly Hang[];
  /** Space of the battery and of the electronics board, as boxes [m]. */
  readonly battery: Block & { readonly topZ: number; readonly bottomZ: number };
  readonly board: Block & { readonly topZ: number; readonly bottomZ: number };
  /** From the lower face of the plate to the battery; below 0: the battery would lie in the plate. */
  readonly railHeight: number;
  /** Radius about a fan that the plate must stay out of. */
  readonly keepOut: number;
  readonly screws: number;
}

/** What a plan is drawn from. */
export interface FrameAsk {
  readonly frame: Craft['frame'];
  readonly layout: FanLayout;
  readonly lugs: readonly LugPlace[];
  readonly fans: readonly { readonly x: number; readonly y: number }[];
  /** Middle to middle of neighbours [m] */
  readonly pitch: number;
  /** Height of the middle of the battery [m] */
  readonly batteryZ: number;
  /** How far the webs of one body reach into the walls they join [m]; 0 for what they add to the ducts. */
  readonly into?: number;
  /** Diameters as drawn [m]: clearance hole, hole that holds the screw, clearance hole of the board. */
  readonly holes: { readonly clear: number; readonly held: number; readonly board: number };
}

/** Room between plate and board, and height of the board with what stands on it [m]. Common practice, no source. */
const BOARD = { above: 0.004, height: 0.008, rim: 0.003 } as const;

/**
 * Draws the frame. Strips lie on the lugs' flat faces and end in a hollow round the duct, so that one screw and the wall
 * hold each duct from turning. A plate near the ducts reaches them with tongues; a farther one gets arms of their own,
 * screwed on top of it by two screws each. Fans that cannot be reached straight from the middle hang on their neighbour
 * by a bridge. In one body, strips run into the walls instead. `frameFaults` says what does not fit.
 */
export function framePlan(ask: FrameAsk): FramePlan {
  const { frame, layout, fans, pitch, holes } = ask;
  const mm = metresFromMillimetres;
  const thickness = mm(frame.plate_mm);
  const width = mm(frame.armWidth_mm);
  const bay = {
    length: mm(frame.bayLength_mm),
    width: mm(frame.bayWidth_mm),
    height: mm(frame.bayHeight_mm),
  };
  const modular = frame.kind !== 'one body';
  const lug = ask.lugs.at(0);
  const batteryTop = ask.batteryZ - bay.height / 2;
  // In one body the battery sets the height; else the lugs do, and rails make up the difference.
  const face = modular ? (lug?.topZ ?? 0) : batteryTop;
  const wallRadius = modular
    ? (lug?.wallRadius ?? layout.outerRadius)
    : Math.max(wallOuterRadius(layout, face - thickness), wallOuterRadius(layout, face));
  const keepOut = wallRadius + (modular ? HOLLOW_ROOM : 0);
  const reached = keepOut - (modular ? 0 : (ask.into ?? 0));
  const hangs = hangsOf(fans, layout.outerRadius, pitch, width);
  const direct = hangs.filter(({ parent }) => parent === null);
  const distance = (fan: number) => Math.hypot(fans[fan].x, fans[fan].y);
  const boardHalf = mm(frame.boardSpacing_mm) / 2;
  const slotY = bay.width / 2 + STRAP.off + STRAP.depth / 2;
  const pad = {
    halfLength: Math.max(bay.length / 2 + BAY_ROOM + STOP + 0.001, boardHalf + holes.board / 2 + RIM),
    halfWidth: Math.max(slotY + STRAP.depth / 2 + RIM, boardHalf + holes.board / 2 + RIM),
    corner: CORNER,
  };
  const edge = holes.clear / 2 + 0.003;
  const lugRadius = lug?.radius ?? wallRadius;
  /** Radii of the two screws that hold an arm on its tongue. */
  const screwsOf = (angle: number): [number, number] => {
    const inner = Math.min(
      pad.halfLength / Math.max(Math.abs(Math.cos(angle)), 1e-9),
      pad.halfWidth / Math.max(Math.abs(Math.sin(angle)), 1e-9),
    );
    return [inner + edge, inner + 3.5 * edge];
  };
  const farthest = Math.max(0, ...direct.map(({ angle }) => screwsOf(angle)[1]));
  const alike = direct.every(({ fan }) => Math.abs(distance(fan) - distance(direct[0].fan)) < 1e-9);
  const apart =
    modular &&
    alike &&
    direct.every(({ fan }) => distance(fan) - lugRadius - edge - farthest - edge >= SHORTEST_ARM);
  const plateTop = apart ? face : face - thickness;
  const plateBottom = plateTop + thickness;
  const ends = (radius: number) =>
    direct.map(({ fan, angle }): Tongue =>
      apart
        ? { angle, width, end: farthest + edge }
        : { angle, width, circle: { distance: distance(fan), radius } },
    );
  const at = (angle: number, radius: number, diameter: number): Hole => ({
    x: radius * Math.cos(angle),
    y: radius * Math.sin(angle),
    radius: diameter / 2,
  });
  const inner = farthest - 2.5 * edge;
  const plateHoles = direct.flatMap(({ fan, angle }) =>
    apart
      ? [at(angle, inner, holes.clear), at(angle, farthest, holes.clear)]
      : modular
        ? [at(angle, distance(fan) - lugRadius, holes.held)]
        : [],
  );
  const corners = [
    [1, 1],
    [-1, 1],
    [-1, -1],
    [1, -1],
  ];
  const boardHoles = corners.map(([x, y]): Hole => ({
    x: x * boardHalf,
    y: y * boardHalf,
    radius: holes.board / 2,
  }));
  const slotLength = Math.min(STRAP.width, bay.length / 3);
  const slots = corners.map(([x, y]): Block => ({
    x: (x * bay.length) / 4,
    y: y * slotY,
    length: slotLength,
    width: STRAP.depth,
  }));
  const railHeight = batteryTop - plateBottom;
  const arm: Slab | null = apart
    ? {
        outline: armOutline(width, inner - edge, { distance: distance(direct[0].fan), radius: keepOut }),
        holes: [
          { x: inner, y: 0, radius: holes.held / 2 },
          { x: farthest, y: 0, radius: holes.held / 2 },
          { x: distance(direct[0].fan) - lugRadius, y: 0, radius: holes.held / 2 },
        ],
        slots: [],
        topZ: face - thickness,
        bottomZ: face,
      }
    : null;
  const bridged = modular
    ? hangs.filter(({ parent }) => parent !== null)
    : neighbours(fans, pitch).filter(({ fan, parent }) => {
        const { x, y } = standBetween(fans[fan], fans[parent!]);
        // There the plate joins the two already.
        return Math.abs(x) > pad.halfLength + width / 2 || Math.abs(y) > pad.halfWidth + width / 2;
      });
  const bridge: Slab | null = bridged.length
    ? {
        outline: bridgeOutline(width, pitch / 2, reached),
        holes: modular
          ? [-1, 1].map((side) => ({ x: side * (pitch / 2 - lugRadius), y: 0, radius: holes.held / 2 }))
          : [],
        slots: [],
        topZ: face - thickness,
        bottomZ: face,
      }
    : null;
  const battery = { x: 0, y: 0, length: bay.length, width: bay.width };
  const boardSide = 2 * (boardHalf + BOARD.rim);
  return {
    kind: modular ? 'modular' : 'one body',
    plate: {
      outline: starOutline(pad, ends(reached)),
      holes: [...plateHoles, ...boardHoles],
      slots,
      topZ: plateTop,
      bottomZ: plateBottom,
    },
    pad,
    blocks: bayBlocks(bay, Math.max(0, railHeight)),
    arm,
    armStands: apart ? direct.map(({ angle }) => ({ angle, x: 0, y: 0 })) : [],
    bridge,
    bridgeStands: bridged.map(({ fan, parent }) => standBetween(fans[fan], fans[parent!])),
    spins: fans.map((_, fan) => {
      const hang = hangs.find((found) => found.fan === fan);
      return hang ? hang.angle + Math.PI - (modular ? (lug?.angle ?? 0) : 0) : 0;
    }),
    hangs,
    battery: { ...battery, topZ: batteryTop, bottomZ: batteryTop + bay.height },
    board: {
      x: 0,
      y: 0,
      length: boardSide,
      width: boardSide,
      topZ: plateTop - BOARD.above - BOARD.height,
      bottomZ: plateTop - BOARD.above,
    },
    railHeight,
    keepOut,
    screws: modular ? direct.length * (apart ? 3 : 1) + 2 * bridged.length : 0,
  };
}

/** Every pair of neighbours, which one body joins. */
function neighbours(fans: FrameAsk['fans'], pitch: number): Pick<Hang, 'fan' | 'parent'>[] {
  return fans.flatMap((a, fan) =>
    fans
      .map((b, parent) => ({ fan, parent, apart: Math.hypot(a.x - b.x, a.y - b.y) }))
      .filter(({ parent, apart }) => parent < fan && apart < 1.01 * pitch),
  );
}

function standBetween(a: FrameAsk['fans'][number], b: FrameAsk['fans'][number]): Stand {
  return { angle: Math.atan2(b.y - a.y, b.x - a.x), x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
}

function bayBlocks(
  bay: { readonly length: number; readonly width: number; readonly height: number },
  railHeight: number,
): FramePlan['blocks'] {
  const stop = {
    length: STOP,
    width: bay.width / 2,
    depth: railHeight + Math.min(bay.height * STOP_SHARE, MOST_STOP),
  };
  const x = bay.length / 2 + BAY_ROOM + STOP / 2;
  const rails = railHeight > 1e-5 ? [-1, 1] : [];
  return [
    ...[-1, 1].map((side) => ({ ...stop, x: side * x, y: 0 })),
    ...rails.map((side) => ({
      x: 0,
      y: (side * (bay.width - RAIL)) / 2,
      length: 0.8 * bay.length,
      width: RAIL,
      depth: railHeight,
    })),
  ];
}

/** Volume of a flat part [m3]: area of the outline less holes and slots, times the thickness. */
export function slabVolume({ outline, holes, slots, topZ, bottomZ }: Slab): number {
  const gone =
    holes.reduce((sum, { radius }) => sum + Math.PI * radius ** 2, 0) +
    slots.reduce((sum, { length, width }) => sum + length * width, 0);
  return (outlineArea(outline) - gone) * (bottomZ - topZ);
}

/** Volumes of what a frame is printed in [m3], without the ducts that one body carries. */
export interface FrameVolumes {
  readonly plate: number;
  /** One arm, one bridge. */
  readonly arm: number;
  readonly bridge: number;
  readonly whole: number;
}

export function frameVolumes({
  kind,
  plate,
  blocks,
  arm,
  armStands,
  bridge,
  bridgeStands,
}: FramePlan): FrameVolumes {
  const middle =
    slabVolume(plate) + blocks.reduce((sum, { length, width, depth }) => sum + length * width * depth, 0);
  const each = { arm: arm ? slabVolume(arm) : 0, bridge: bridge ? slabVolume(bridge) : 0 };
  // A web of one body may run across the plate; what both fill counts once. Bridges that are screwed on lie clear of it.
  const shared = bridge && kind === 'one body' ? sharedWithPlate(plate, bridge, bridgeStands) : 0;
  return {
    plate: middle,
    ...each,
    whole: middle + each.arm * armStands.length + each.bridge * bridgeStands.length - shared,
  };
}

/** Volume that the webs of one body share with its plate [m3]; holes and slots of the plate under a web are left out. */
function sharedWithPlate(plate: Slab, web: Slab, stands: FramePlan['bridgeStands']): number {
  const reach = (axis: 0 | 1) => Math.max(...web.outline.map((point) => Math.abs(point[axis])));
  const [length, width] = [2 * reach(0), 2 * reach(1)];
  const depth = Math.min(plate.bottomZ, web.bottomZ) - Math.max(plate.topZ, web.topZ);
  if (!(depth > 0)) return 0;
  return (
    depth *
    stands.reduce(
      (sum, { x, y, angle }) => sum + areaInRectangle(plate.outline, { x, y, angle, length, width }),
      0,
    )
  );
}
