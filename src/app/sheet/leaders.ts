import type { Fan } from '../../project/schema.ts';
import { metresFromMillimetres as m, millimetresFromMetres as mm } from '../../quantities/units.ts';
import { passageRadius, type FanProfiles } from '../../shape/profiles.ts';
import { write, type Draft } from './dimension.ts';
import { xOf, yOf, type Frame } from './frame.ts';

/** Dimensions too small to stand between arrows: a line leads to each. */
export function leaders(fan: Fan, { layout }: FanProfiles, frame: Frame): Draft[] {
  const x = (z: number) => xOf(frame, z);
  const y = (r: number) => yOf(frame, r);
  const { duct } = fan;
  const short = frame.compact;
  const labelX = x(layout.exitZ) + (short ? 10 : 20);
  const row = (n: number) =>
    Math.min(y(layout.exitRadius) - 2, y(layout.exitRadius + layout.wall) + 8) - 4 - n * 21;
  const wallZ = Math.max(0.8 * layout.exitZ, layout.exitZ - 0.004);
  const wallR = passageRadius(layout, wallZ) + layout.wall;
  const gapR = layout.tipRadius + m(fan.tipGap_mm) / 2;
  const gapZ = layout.rotorZ + layout.bladeHalfDepth * 0.4;
  const lip = { z: -layout.lipRadius * 0.7, r: layout.boreRadius + layout.lipRadius * 0.3 };
  const lipLabel = { x: x(layout.topZ) - (short ? 4 : 16), y: y(layout.outerRadius) - (short ? 12 : 10) };
  const flowSpan = layout.boreRadius ** 2 - layout.hubRadius ** 2;
  const ratioAt = (exitRadius: number) => (exitRadius ** 2 - layout.hubRadius ** 2) / flowSpan;
  return [
    {
      path: 'fan.duct.lipRadius_mm',
      name: 'Lip radius',
      text: `${short ? 'r' : 'lip r'} ${write(duct.lipRadius_mm)}`,
      value: duct.lipRadius_mm,
      step: 0.5,
      at: lipLabel,
      anchor: 'end',
      leader: true,
      line: `M${x(lip.z)} ${y(lip.r)}L${lipLabel.x - 6} ${lipLabel.y + 8}`,
      handle: { x: x(lip.z), y: y(lip.r), turn: 'along' },
      moved: (dz) => duct.lipRadius_mm - mm(dz),
    },
    {
      path: 'fan.duct.exitAreaRatio',
      name: 'Exit area over rotor area',
      text: `${short ? 'A ×' : 'exit area ×'} ${write(duct.exitAreaRatio, 2)}`,
      value: duct.exitAreaRatio,
      step: 0.01,
      at: { x: labelX, y: row(0) },
      anchor: 'start',
      leader: true,
      line: `M${x(layout.exitZ)} ${y(layout.exitRadius)}L${labelX - 2} ${row(0)}`,
      handle: { x: x(layout.exitZ), y: y(layout.exitRadius), turn: 'across' },
      moved: (_dz, dr) => ratioAt(Math.max(layout.hubRadius, layout.exitRadius + dr)),
    },
    {
      path: 'fan.duct.wall_mm',
      name: 'Wall thickness',
      text: `wall ${write(duct.wall_mm, 2)}`,
      value: duct.wall_mm,
      step: 0.1,
      at: { x: labelX, y: row(1) },
      anchor: 'start',
      leader: true,
      line: `M${x(wallZ)} ${y(wallR)}L${labelX - 2} ${row(1)}`,
      handle: { x: x(wallZ), y: y(wallR), turn: 'across' },
      moved: (_dz, dr) => duct.wall_mm + mm(dr) / 4,
    },
    {
      path: 'fan.tipGap_mm',
      name: 'Tip gap',
      text: `gap ${write(fan.tipGap_mm, 2)}`,
      value: fan.tipGap_mm,
      step: 0.05,
      at: { x: labelX, y: row(2) },
      anchor: 'start',
      leader: true,
      line: `M${x(gapZ)} ${y(gapR)}L${labelX - 2} ${row(2)}`,
      handle: { x: x(gapZ), y: y(gapR), turn: 'across' },
      moved: (_dz, dr) => fan.tipGap_mm + mm(dr) / 4,
    },
  ];
}
