import type { Fan } from '../project/schema.ts';
import { formatNumber } from '../quantities/format.ts';
import { millimetresFromMetres } from '../quantities/units.ts';
import type { GeometryFault } from './fault.ts';
import { ductJoints, jointOverlap } from './joints.ts';
import type { FanLayout } from './layout.ts';
import { lugPlaces } from './lugs.ts';
import { passageRadius } from './profiles.ts';
import { SLOT_RIM, wireSlot } from './wire-slot.ts';

/** Thinnest wall whose end may slide into a collar [m]: it would tear or not print. Common practice, no source. */
const LEAST_SPIGOT = 0.0006;

/** Least way between two lugs, and from a lug to the slot [m]. Common practice, no source. */
const BETWEEN = 0.001;

/** A lug wider than this share of the duct's radius, to each side, is no lug. Common practice, no source. */
const WIDEST_LUG = 0.5;

const mm = (length: number): string => `${formatNumber(millimetresFromMetres(length), 3)} mm`;

/** What keeps the duct from being divided, slotted or given lugs as asked; `turningEndZ` is where the rotor ends [m]. */
export function divisionFaults(fan: Fan, layout: FanLayout, turningEndZ: number): GeometryFault[] {
  return [...jointFaults(fan, layout, turningEndZ), ...slotFaults(fan, layout), ...lugFaults(fan, layout)];
}

function jointFaults(fan: Fan, layout: FanLayout, turningEndZ: number): GeometryFault[] {
  const faults: GeometryFault[] = [];
  const joints = ductJoints(layout, fan);
  if (joints.length === 0) return faults;
  const add = (path: string, text: string) => faults.push({ path, text });
  const overlap = jointOverlap(layout);
  if (layout.wall < LEAST_SPIGOT)
    add(
      'fan.duct.wall_mm',
      `The pieces of the duct slide into each other by the full wall, and ${mm(layout.wall)} is too thin for that. A wall of ${mm(LEAST_SPIGOT)} or more would do.`,
    );
  const lip = joints.find(({ kind }) => kind === 'lip');
  const ring = joints.find(({ kind }) => kind === 'ring');
  if (ring) {
    const firstZ = lip ? lip.footZ : 0;
    if (ring.mouthZ < firstZ)
      add(
        'fan.duct.rings',
        `The two rings overlap by ${mm(overlap)} above the vanes, ${mm(firstZ - ring.mouthZ)} of it beside the ${lip ? "lip's own joint" : 'lip'}. A duct in one ring, vanes ${mm(firstZ - ring.mouthZ)} shorter, or a rotor that much deeper would do.`,
      );
    if (ring.z < turningEndZ)
      add(
        'fan.duct.rings',
        `The two rings would meet ${mm(turningEndZ - ring.z)} beside the turning rotor. Vanes ${mm(turningEndZ - ring.z)} shorter, or a duct in one ring would do.`,
      );
  } else if (lip && lip.z > layout.vaneTopZ)
    add(
      'fan.duct.lipApart',
      `The lip's joint reaches ${mm(lip.z)} below the lip, where the vanes begin at ${mm(layout.vaneTopZ)}. Vanes ${mm(lip.z - layout.vaneTopZ)} shorter, or a lip in one with the duct would do.`,
    );
  const last = joints[joints.length - 1];
  if (last.collarBottomZ > layout.exitZ)
    add(
      'fan.duct.length_mm',
      `The duct ends ${mm(last.collarBottomZ - layout.exitZ)} above the lower edge of its ${last.kind === 'lip' ? "lip's" : "rings'"} collar. That much longer would do.`,
    );
  return faults;
}

function slotFaults(fan: Fan, layout: FanLayout): GeometryFault[] {
  const slot = wireSlot(layout, fan);
  if (!slot) return [];
  const faults: GeometryFault[] = [];
  const add = (path: string, text: string) => faults.push({ path, text });
  const over = slot.bottomZ + SLOT_RIM - layout.exitZ;
  if (over > 1e-9)
    add(
      'fan.duct.wireSlot_mm',
      `A slot ${mm(slot.width)} wide is as high, and between vanes and exit there is room for ${mm(Math.max(0, slot.width - over))}. A narrower slot, or a duct ${mm(over)} longer would do.`,
    );
  const radius = passageRadius(layout, layout.vaneBottomZ);
  const gap = (2 * Math.PI * radius) / fan.stator.vaneCount - fan.stator.thickness_mm * 1e-3;
  if (slot.width > gap)
    add(
      'fan.duct.wireSlot_mm',
      `A slot ${mm(slot.width)} wide is wider than the ${mm(gap)} from vane to vane. A slot up to that would do.`,
    );
  return faults;
}

function lugFaults(fan: Fan, layout: FanLayout): GeometryFault[] {
  const lugs = lugPlaces(layout, fan);
  if (lugs.length === 0) return [];
  const faults: GeometryFault[] = [];
  const add = (path: string, text: string) => faults.push({ path, text });
  const [{ wallRadius, halfWidth, topZ, bottomZ }] = lugs;
  if (halfWidth > WIDEST_LUG * wallRadius) {
    add(
      'fan.duct.lugHole_mm',
      `A lug for a ${formatNumber(fan.duct.lugHole_mm)} mm screw is ${mm(2 * halfWidth)} wide, on a duct ${mm(2 * wallRadius)} across. A smaller screw would do.`,
    );
    return faults;
  }
  if (bottomZ > layout.exitZ)
    add(
      'fan.duct.length_mm',
      `The lugs begin at the vanes and reach ${mm(bottomZ - layout.exitZ)} past the exit. A duct that much longer, or a smaller screw would do.`,
    );
  const lip = ductJoints(layout, fan).find(({ kind }) => kind === 'lip');
  const free = lip ? lip.footZ : 0;
  if (topZ < free)
    add(
      'fan.duct.lugCount',
      `The lugs begin at the vanes, ${mm(free - topZ)} up into the ${lip ? "lip's joint" : 'lip'}. Vanes ${mm(free - topZ)} shorter would do.`,
    );
  const most = Math.floor(Math.PI / Math.asin(Math.min(1, (halfWidth + BETWEEN / 2) / wallRadius)));
  if (lugs.length > most)
    add(
      'fan.duct.lugCount',
      `${lugs.length} lugs ${mm(2 * halfWidth)} wide do not fit round the duct. Up to ${most} would do.`,
    );
  const slot = wireSlot(layout, fan);
  if (slot) {
    const apart = Math.min(
      ...lugs.map(({ angle }) => {
        const turn = Math.abs(angle - slot.angle) % (2 * Math.PI);
        return wallRadius * Math.min(turn, 2 * Math.PI - turn);
      }),
    );
    const over = halfWidth + slot.width / 2 + BETWEEN - apart;
    if (over > 0)
      add(
        'fan.duct.wireSlot_mm',
        `The slot for the leads runs ${mm(over)} into a lug beside it. Fewer lugs, a smaller screw or a narrower slot would do.`,
      );
  }
  return faults;
}
