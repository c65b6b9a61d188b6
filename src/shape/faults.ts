import type { Fan, Motor } from '../project/schema.ts';
import { millimetresFromMetres } from '../quantities/units.ts';
import { formatNumber } from '../quantities/format.ts';
import { bladeAt, bladeCurves } from './blade.ts';
import { divisionFaults } from './division-faults.ts';
import { fanLayout, type FanLayout } from './layout.ts';
import { passageRadius } from './profiles.ts';
import { bladeClearance, halfDepth } from './root.ts';
import type { GeometryFault } from './fault.ts';
import { apartFaults, hubFaults, hubHeightForRoot, rootRoom } from './rotor-faults.ts';

export type { GeometryFault };

/** Least wall around a bore or between holes, and least blade height [m]. Common practice, no source. */
const LEAST_WALL = 0.0006;
const LEAST_BLADE = 0.001;

/** Least clearance between turning and standing parts along the axis [m]. Common practice, no source. */
const LEAST_GAP = 0.0005;

/** Least width of the passage beside the motor [m]. Common practice, no source. */
const LEAST_PASSAGE = 0.001;

/** Places along the span where the blades are checked against each other. */
const SPAN_CHECKS = 8;

const mm = (length: number): string => `${formatNumber(millimetresFromMetres(length), 3)} mm`;

/** What keeps this fan from being built as drawn, in plain sentences; empty where everything fits. */
export function geometryFaults(fan: Fan, motor: Motor): GeometryFault[] {
  const layout = fanLayout(fan, motor);
  return [...rotorFaults(fan, motor, layout), ...(layout.ducted ? ductFaults(fan, motor, layout) : [])];
}

function rotorFaults(fan: Fan, motor: Motor, layout: FanLayout): GeometryFault[] {
  const faults: GeometryFault[] = [];
  const { hubRadius, tipRadius, hubBoreRadius } = layout;
  if (tipRadius - hubRadius < LEAST_BLADE) {
    faults.push({
      path: 'fan.hubDiameter_mm',
      text:
        `The hub is ${mm(2 * hubRadius)} across and the tips ${mm(2 * tipRadius)}, which leaves no blade. ` +
        `A hub below ${mm(2 * (tipRadius - LEAST_BLADE))} would do.`,
    });
    return faults;
  }
  if (hubRadius - hubBoreRadius < LEAST_WALL) {
    faults.push({
      path: 'fan.hubDiameter_mm',
      text:
        `The hub is ${mm(2 * hubRadius)} across but ${fan.hub.hold === 'press fit' ? 'the shaft' : 'its hole'} ${mm(2 * hubBoreRadius)}. ` +
        `A hub above ${mm(2 * (hubBoreRadius + LEAST_WALL))} leaves a wall around the bore.`,
    });
  }
  const curves = bladeCurves(fan);
  const rootDepth = 2 * halfDepth(bladeAt(curves, hubRadius));
  const height = rootRoom(fan, layout);
  if (rootDepth > height) {
    const apart = fan.rotorParts === 'blades apart';
    const between = apart ? ' between its cap and its floor' : '';
    faults.push({
      path: 'fan.hubHeight_mm',
      text: `The blade is ${mm(rootDepth)} deep where it meets the hub, the hub only ${mm(Math.max(0, height))} high${between}. A hub at least ${apart ? `${mm(hubHeightForRoot(fan, rootDepth))} high` : 'as high'}, or a narrower or flatter blade root, would do.`,
    });
  }
  let worst = { clearance: Infinity, radius: 0 };
  for (let k = 0; k <= SPAN_CHECKS; k++) {
    const radius = hubRadius + ((tipRadius - hubRadius) * k) / SPAN_CHECKS;
    const clearance = bladeClearance(bladeAt(curves, radius), fan.bladeCount);
    if (clearance < worst.clearance) worst = { clearance, radius };
  }
  if (worst.clearance <= 0) {
    faults.push({
      path: 'fan.bladeCount',
      text: `Neighbouring blades run into each other ${mm(worst.radius)} from the axis. Fewer or narrower blades, or a larger hub, would do.`,
    });
  }
  return [...faults, ...hubFaults(fan, motor, layout), ...apartFaults(fan, layout)];
}

function ductFaults(fan: Fan, motor: Motor, layout: FanLayout): GeometryFault[] {
  const faults: GeometryFault[] = [];
  const add = (path: string, text: string) => faults.push({ path, text });
  const length = layout.exitZ - layout.topZ;
  const longer = (by: number) => `A duct of ${mm(length + by)} or longer would do.`;
  const curves = bladeCurves(fan);
  let reach = 0;
  for (let k = 0; k <= SPAN_CHECKS; k++) {
    const radius = layout.hubRadius + ((layout.tipRadius - layout.hubRadius) * k) / SPAN_CHECKS;
    reach = Math.max(reach, halfDepth(bladeAt(curves, radius)));
  }
  const bladesBottom = layout.rotorZ + Math.max(reach, layout.ringHalfHeight);
  if (layout.exitZ <= 0.0005) {
    add('fan.duct.length_mm', `The duct ends within its own lip. ${longer(0.001 - layout.exitZ)}`);
    return faults;
  }
  if (bladesBottom > layout.exitZ)
    add(
      'fan.duct.length_mm',
      `The blades reach ${mm(bladesBottom - layout.exitZ)} out of the exit. ${longer(bladesBottom - layout.exitZ)}`,
    );
  if (layout.seatBottomZ > layout.exitZ)
    add(
      'fan.duct.length_mm',
      `The plate that carries the motor lies ${mm(layout.seatBottomZ - layout.exitZ)} outside the exit. ${longer(layout.seatBottomZ - layout.exitZ)}`,
    );
  if (layout.vaneTopZ < 0)
    add(
      'fan.stator.chord_mm',
      `The vanes reach ${mm(-layout.vaneTopZ)} up into the lip. Vanes of ${mm(layout.vaneBottomZ)} or shorter would do.`,
    );
  const turning = Math.max(bladesBottom, layout.hubBottomZ);
  if (layout.vaneTopZ < turning + LEAST_GAP)
    add(
      'fan.stator.chord_mm',
      `The vanes begin ${mm(Math.abs(layout.vaneTopZ - turning))} ${layout.vaneTopZ < turning ? 'inside' : 'behind'} the turning rotor. Vanes of ${mm(Math.max(0, layout.vaneBottomZ - turning - LEAST_GAP))} or shorter would do.`,
    );
  const passage = Math.min(
    passageRadius(layout, Math.max(0, layout.vaneTopZ)),
    passageRadius(layout, layout.motorTopZ),
    passageRadius(layout, Math.min(layout.seatBottomZ, layout.exitZ)),
  );
  if (passage - layout.seatRadius < LEAST_PASSAGE)
    add(
      layout.seatRadius > layout.motorRadius + 0.001 ? 'motor.mountCircle_mm' : 'motor.canDiameter_mm',
      `The motor and its seat are ${mm(2 * layout.seatRadius)} across in a passage of ${mm(2 * passage)}. The passage must be at least ${mm(2 * LEAST_PASSAGE)} wider: a larger duct or a smaller motor would do.`,
    );
  const crowd = (2 * Math.PI * layout.seatRadius) / fan.stator.vaneCount;
  const vane = fan.stator.thickness_mm * 1e-3 + LEAST_WALL;
  if (vane > crowd)
    add(
      'fan.stator.vaneCount',
      `${fan.stator.vaneCount} vanes of ${formatNumber(fan.stator.thickness_mm)} mm do not fit round the motor seat. Up to ${Math.max(2, Math.floor((2 * Math.PI * layout.seatRadius) / vane))} would do.`,
    );
  if (fan.stator.thickness_mm > 0.4 * fan.stator.chord_mm)
    add(
      'fan.stator.thickness_mm',
      `A vane ${formatNumber(fan.stator.thickness_mm)} mm thick on a chord of ${formatNumber(fan.stator.chord_mm)} mm is a post, not a vane. Up to ${formatNumber(0.4 * fan.stator.chord_mm)} mm would do.`,
    );
  const between = 2 * layout.mountCircleRadius * Math.sin(Math.PI / motor.mountHoles);
  if (between - 2 * layout.screwHoleRadius < LEAST_WALL)
    add(
      'motor.mountCircle_mm',
      `${motor.mountHoles} screw holes of ${mm(2 * layout.screwHoleRadius)} run into each other on a circle of ${mm(2 * layout.mountCircleRadius)}. Check the circle, the number of holes and the screw.`,
    );
  return [...faults, ...divisionFaults(fan, layout, turning)];
}
