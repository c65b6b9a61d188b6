import type { Fan } from '../../project/schema.ts';
import { millimetresFromMetres as mm } from '../../quantities/units.ts';
import type { FanProfiles } from '../../shape/profiles.ts';
import { filled, write, type Dimension, type Draft } from './dimension.ts';
import { xOf, yOf, type Frame } from './frame.ts';
import { leaders } from './leaders.ts';

/** Every dimension of the half-section that has a place on it. */
export function dimensionsOf(fan: Fan, profiles: FanProfiles, frame: Frame): readonly Dimension[] {
  const drafts = [...rotorDimensions(fan, profiles, frame)];
  if (profiles.layout.ducted)
    drafts.push(...leaders(fan, profiles, frame), ...ductDimensions(fan, profiles, frame));
  return drafts.map(filled);
}

/** Places of the two upright dimension lines left of the drawing. */
export function leftColumns({ layout, blade }: FanProfiles, frame: Frame): readonly [number, number] {
  const front = Math.min(layout.hubTopZ, ...blade.map(([z]) => z));
  const hub = xOf(frame, Math.min(layout.hubTopZ, front)) - (frame.compact ? 28 : 46);
  const edge = xOf(frame, layout.ducted ? Math.min(layout.topZ, front) : front);
  return [Math.min(edge - (frame.compact ? 14 : 20), hub - (frame.compact ? 46 : 84)), hub];
}

function rotorDimensions(fan: Fan, profiles: FanProfiles, frame: Frame): Draft[] {
  const { layout } = profiles;
  const x = (z: number) => xOf(frame, z);
  const y = (r: number) => yOf(frame, r);
  const [tipX, hubX] = leftColumns(profiles, frame);
  const axis = frame.axisY;
  const below = axis + 30;
  const named = (name: string) => (frame.compact ? '' : ` ${name}`);
  const bladeMiddle = (layout.hubRadius + layout.tipRadius) / 2;
  const bladeWidth = 2 * layout.bladeHalfDepth * frame.pxPerM;
  const front = Math.min(...profiles.blade.map(([z]) => z));
  return [
    {
      path: 'fan.tipDiameter_mm',
      name: 'Tip diameter',
      text: `Ø ${write(fan.tipDiameter_mm)}${named('tip')}`,
      value: fan.tipDiameter_mm,
      step: 0.5,
      at: { x: tipX, y: (axis + y(layout.tipRadius)) / 2 },
      line: `M${tipX} ${axis}V${y(layout.tipRadius)}`,
      extension: `M${tipX - 6} ${y(layout.tipRadius)}H${x(front) - 3}`,
      handle: { x: tipX, y: y(layout.tipRadius), turn: 'across' },
      moved: (_dz, dr) => fan.tipDiameter_mm + 2 * mm(dr),
    },
    {
      path: 'fan.hubDiameter_mm',
      name: 'Hub diameter',
      text: `Ø ${write(fan.hubDiameter_mm)}${named('hub')}`,
      value: fan.hubDiameter_mm,
      step: 0.5,
      at: { x: hubX, y: (axis + y(layout.hubRadius)) / 2 },
      line: `M${hubX} ${axis}V${y(layout.hubRadius)}`,
      extension: `M${hubX - 6} ${y(layout.hubRadius)}H${x(layout.hubTopZ) - 3}`,
      handle: { x: hubX, y: y(layout.hubRadius), turn: 'across' },
      moved: (_dz, dr) => fan.hubDiameter_mm + 2 * mm(dr),
    },
    {
      path: 'fan.hubHeight_mm',
      name: 'Hub height',
      text: write(fan.hubHeight_mm),
      value: fan.hubHeight_mm,
      step: 0.5,
      at: { x: (x(layout.hubTopZ) + x(layout.hubBottomZ)) / 2, y: below + 15 },
      line: `M${x(layout.hubTopZ)} ${below}H${x(layout.hubBottomZ)}`,
      extension: `M${x(layout.hubTopZ)} ${axis + 4}V${below + 5}M${x(layout.hubBottomZ)} ${axis + 4}V${below + 5}`,
      handle: { x: x(layout.hubBottomZ), y: below, turn: 'along' },
      moved: (dz) => fan.hubHeight_mm + 2 * mm(dz),
    },
    {
      path: 'fan.bladeCount',
      name: 'Number of blades',
      text: `${fan.bladeCount} ${fan.bladeCount === 1 ? 'blade' : 'blades'}`,
      value: fan.bladeCount,
      step: 1,
      at: { x: x(layout.rotorZ), y: y(bladeMiddle), upright: bladeWidth < 74 },
      line: '',
    },
  ];
}

function ductDimensions(fan: Fan, { layout }: FanProfiles, frame: Frame): Draft[] {
  const x = (z: number) => xOf(frame, z);
  const y = (r: number) => yOf(frame, r);
  const { duct, stator } = fan;
  const axis = frame.axisY;
  const upper = y(layout.outerRadius) - 60;
  const lower = y(layout.outerRadius) - 24;
  const below = axis + 30;
  const outerX = frame.width - (frame.compact ? 24 : 46);
  const outer_mm = 2 * mm(layout.outerRadius);
  const depthText = write(duct.rotorDepth_mm);
  const depthRoom = Math.abs(x(layout.rotorZ) - x(0)) > depthText.length * 7 + 26;
  // Under a short hub and vane their two numbers would touch; the second then stands a row lower.
  const crowded =
    x((layout.vaneTopZ + layout.vaneBottomZ) / 2) - x((layout.hubTopZ + layout.hubBottomZ) / 2) < 42;
  const vaneMiddle = (layout.seatRadius + layout.boreRadius) / 2;
  return [
    {
      path: 'fan.duct.length_mm',
      name: 'Duct length',
      text: `${write(duct.length_mm)}${frame.compact ? '' : ' duct'}`,
      value: duct.length_mm,
      step: 0.5,
      at: { x: (x(layout.topZ) + x(layout.exitZ)) / 2, y: upper },
      line: `M${x(layout.topZ)} ${upper}H${x(layout.exitZ)}`,
      extension:
        `M${x(layout.topZ)} ${y(layout.boreRadius + layout.lipRadius) - 4}V${upper - 5}` +
        `M${x(layout.exitZ)} ${y(layout.exitRadius + layout.wall) - 4}V${upper - 5}`,
      handle: { x: x(layout.exitZ), y: upper, turn: 'along' },
      moved: (dz) => duct.length_mm + mm(dz),
    },
    {
      path: 'fan.duct.rotorDepth_mm',
      name: 'Rotor depth below the lip',
      text: depthText,
      value: duct.rotorDepth_mm,
      step: 0.5,
      at: depthRoom
        ? { x: (x(0) + x(layout.rotorZ)) / 2, y: lower }
        : { x: Math.max(x(0), x(layout.rotorZ)) + 26, y: lower },
      line: `M${x(0)} ${lower}H${x(layout.rotorZ)}`,
      extension: `M${x(0)} ${y(layout.boreRadius)}V${lower - 5}M${x(layout.rotorZ)} ${y(layout.tipRadius) + 4}V${lower - 5}`,
      handle: { x: x(layout.rotorZ), y: lower, turn: 'along' },
      moved: (dz) => duct.rotorDepth_mm + mm(dz),
    },
    {
      path: 'fan.stator.chord_mm',
      name: 'Vane chord',
      text: write(stator.chord_mm),
      value: stator.chord_mm,
      step: 0.5,
      at: { x: (x(layout.vaneTopZ) + x(layout.vaneBottomZ)) / 2, y: below + (crowded ? 31 : 15) },
      line: `M${x(layout.vaneTopZ)} ${below}H${x(layout.vaneBottomZ)}`,
      extension: `M${x(layout.vaneTopZ)} ${axis + 4}V${below + 5}M${x(layout.vaneBottomZ)} ${axis + 4}V${below + 5}`,
      handle: { x: x(layout.vaneTopZ), y: below, turn: 'along' },
      moved: (dz) => stator.chord_mm - mm(dz),
    },
    {
      path: 'fan.stator.vaneCount',
      name: 'Number of vanes',
      text: `${stator.vaneCount} vanes`,
      value: stator.vaneCount,
      step: 1,
      at: {
        x: (x(layout.vaneTopZ) + x(layout.vaneBottomZ)) / 2,
        y: y(vaneMiddle),
        upright: (layout.vaneBottomZ - layout.vaneTopZ) * frame.pxPerM < 74,
      },
      line: '',
    },
    {
      path: null,
      name: 'Outer diameter',
      text: `Ø ${write(outer_mm)}${frame.compact ? '' : ' outer'}`,
      value: outer_mm,
      step: 0,
      at: { x: outerX, y: axis - (axis - y(layout.outerRadius)) * 0.42 },
      line: `M${outerX} ${axis}V${y(layout.outerRadius)}`,
      extension: `M${x(layout.topZ) + 8} ${y(layout.outerRadius)}H${outerX + 6}`,
    },
  ];
}
