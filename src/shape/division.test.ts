import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { projectSchema, type Fan } from '../project/schema.ts';
import { ductPieceKinds, ductPieces, pieceProfile } from './duct-pieces.ts';
import { ductPieceVolumes } from './duct-volumes.ts';
import { exitHalfAngle, largestExitRatio, STEEPEST_EXIT } from './exit.ts';
import { geometryFaults } from './faults.ts';
import { ductJoints } from './joints.ts';
import { fanLayout } from './layout.ts';
import { lugPlaces } from './lugs.ts';
import { passageRadius, revolvedVolume } from './profiles.ts';
import { printedVolumes } from './volumes.ts';
import { wireSlot } from './wire-slot.ts';

const { fan: drawn, motor } = projectSchema.parse(
  JSON.parse(readFileSync('examples/greenhouse-scout/greenhouse-scout.fanwright.json', 'utf8')),
);
// Dimensions of its own, so that the demo may be tuned.
const fan: Fan = {
  ...drawn,
  duct: {
    ...drawn.duct,
    lipRadius_mm: 6.5,
    length_mm: 38,
    wall_mm: 1,
    exitAreaRatio: 1.05,
    rotorDepth_mm: 6,
  },
  stator: { ...drawn.stator, vaneCount: 4, chord_mm: 10, thickness_mm: 1.6, curved: false },
};
type Change = Partial<Fan['duct']>;
const withDuct = (duct: Change, stator: Partial<Fan['stator']> = {}): Fan => ({
  ...fan,
  duct: { ...fan.duct, ...duct },
  stator: { ...fan.stator, ...stator },
});
const layoutOf = (of: Fan) => fanLayout(of, motor);

test('a duct comes in the pieces its keys ask for, from top to bottom', () => {
  const kinds = (duct: Change) => ductPieceKinds(withDuct(duct));
  expect(kinds({})).toEqual(['duct']);
  expect(kinds({ lipApart: true })).toEqual(['lip', 'duct']);
  expect(kinds({ rings: 2 })).toEqual(['ductUpper', 'ductLower']);
  expect(kinds({ rings: 2, lipApart: true })).toEqual(['lip', 'ductUpper', 'ductLower']);
  expect(ductPieceKinds({ ...fan, kind: 'open' })).toEqual([]);
});

test('pieces with no gap are the whole wall and their collars', () => {
  const of = withDuct({ rings: 2, lipApart: true });
  const layout = layoutOf(of);
  const [whole] = ductPieces(layout, fan).map((piece) => revolvedVolume(pieceProfile(layout, piece, 40)));
  const pieces = ductPieces(layout, of, 0).map((piece) => revolvedVolume(pieceProfile(layout, piece, 40)));
  const collars = ductJoints(layout, of, 0).map((joint) => {
    // A ring beside the spigot and below it, and a cone of 45 degrees; the wall about straight beside it.
    const ring = Math.PI * (joint.collarRadius ** 2 - joint.spigotRadius ** 2);
    const t = joint.collarRadius - joint.spigotRadius;
    const cone = 2 * Math.PI * (joint.spigotRadius + t / 3) * (t ** 2 / 2);
    return ring * (joint.collarBottomZ - joint.mouthZ) + cone;
  });
  const sum = (values: number[]) => values.reduce((a, b) => a + b, 0);
  expect((sum(pieces) - whole) / sum(collars)).toBeCloseTo(1, 1);
});

test('volumes: a gap takes what lies in it, lugs and slot add up, all pieces together are the duct', () => {
  const of = withDuct({ rings: 2, lipApart: true, lugCount: 3, wireSlot_mm: 4 });
  const layout = layoutOf(of);
  const pieces = ductPieceVolumes(of, motor, layout, 0, 0.0003);
  const total = pieces.reduce((sum, { volume }) => sum + volume, 0);
  expect(printedVolumes(of, motor, 0, layout, 0.0003).duct).toBeCloseTo(total, 14);
  const tight = printedVolumes(of, motor, 0, layout, 0).duct;
  const gaps = ductJoints(layout, of).reduce(
    (sum, { mouthZ, z, spigotRadius, socketRadius }) =>
      sum + Math.PI * (socketRadius ** 2 - spigotRadius ** 2) * (z - mouthZ),
    0,
  );
  expect((tight - total) / gaps).toBeCloseTo(1, 6);
  const duct = (change: Change) => printedVolumes(withDuct(change), motor).duct;
  // Three lugs are half of six; the slot is about its area times the wall.
  expect(duct({ lugCount: 6 }) - duct({})).toBeCloseTo(2 * (duct({ lugCount: 3 }) - duct({})), 14);
  expect((duct({}) - duct({ wireSlot_mm: 4 })) / (12e-6 * 0.001)).toBeCloseTo(1, 1);
});

test('the exit has its area ratio exactly, on a smooth curve that starts and ends along the axis', () => {
  for (const exitAreaRatio of [0.8, 1, 1.05, 1.3]) {
    const layout = layoutOf(withDuct({ exitAreaRatio }));
    const { hubRadius, boreRadius, exitZ } = layout;
    const area = (r: number) => r ** 2 - hubRadius ** 2;
    expect(area(passageRadius(layout, exitZ)) / area(boreRadius)).toBeCloseTo(exitAreaRatio, 12);
    const slope = (z: number) => (passageRadius(layout, z + 1e-6) - passageRadius(layout, z - 1e-6)) / 2e-6;
    let steepest = 0;
    for (let z = 0; z < exitZ; z += exitZ / 2000) steepest = Math.max(steepest, Math.abs(slope(z)));
    expect(Math.tan(exitHalfAngle(layout))).toBeCloseTo(steepest * Math.sign(exitAreaRatio - 1 || 1), 4);
    expect(Math.abs(slope(exitZ - 2e-6))).toBeLessThan(1e-3);
  }
  const largest = largestExitRatio(layoutOf(fan));
  expect(largest).toBeGreaterThan(1.1);
  expect(exitHalfAngle(layoutOf(withDuct({ exitAreaRatio: largest })))).toBeCloseTo(STEEPEST_EXIT, 12);
});

test('lugs stand evenly, clear of the slot, outside collar and exit, and the same for both hands', () => {
  const of = withDuct({ rings: 2, lugCount: 5, wireSlot_mm: 3 });
  const layout = layoutOf(of);
  const lugs = lugPlaces(layout, of);
  const [joint] = ductJoints(layout, of);
  const turned = lugs.map(({ angle }) => (angle * 5) / (2 * Math.PI));
  expect(turned.map((value) => +value.toFixed(9))).toEqual([0.5, 1.5, 2.5, 3.5, 4.5]);
  for (const lug of lugs) {
    expect(lug.radius - lug.halfWidth).toBeGreaterThanOrEqual(joint.collarRadius - 1e-12);
    expect(lug.radius - lug.pocketRadius).toBeGreaterThan(layout.exitRadius + layout.wall);
    expect(lug.topZ).toBeGreaterThan(joint.z);
    expect(lug.bottomZ - lug.topZ).toBeCloseTo(0.002, 12);
  }
  expect(lugPlaces(layout, { ...of, kind: 'open', duct: { ...of.duct, lugCount: 0 } })).toEqual([]);
});

test('the slot lies at the back edge of a vane, also of a curved one', () => {
  const straight = wireSlot(layoutOf(withDuct({ wireSlot_mm: 4 })), withDuct({ wireSlot_mm: 4 }))!;
  expect(straight.angle).toBeCloseTo(0, 12);
  const of = withDuct({ wireSlot_mm: 4 }, { curved: true, turn_deg: 30 });
  const curved = wireSlot(layoutOf(of), of)!;
  // 10 mm deep, leaning 15 degrees: the back edge lies 5 tan 15 mm aside.
  const aside = (5e-3 * Math.tan(Math.PI / 12)) / passageRadius(layoutOf(of), layoutOf(of).vaneBottomZ);
  expect(curved.angle).toBeCloseTo(-aside, 9);
  expect(wireSlot(layoutOf(fan), fan)).toBeNull();
});

describe('what cannot be built', () => {
  const first = (duct: Change, stator: Partial<Fan['stator']> = {}) => {
    const faults = geometryFaults(withDuct(duct, stator), motor);
    return faults.map(({ path, text }) => `${path}: ${text}`);
  };
  const all: Change = { rings: 2, lipApart: true, lugCount: 4, wireSlot_mm: 4 };

  test('all of it fits this fan', () => expect(first(all)).toEqual([]));

  test.each<[string, Change, Partial<Fan['stator']>, string]>([
    ['wall too thin to slide', { lipApart: true, wall_mm: 0.4 }, {}, 'fan.duct.wall_mm'],
    ['no room for two joints', { ...all, lugCount: 0, wall_mm: 4 }, {}, 'fan.duct.rings'],
    ['slot too high', { wireSlot_mm: 6 }, {}, 'fan.duct.wireSlot_mm'],
    [
      'slot wider than from vane to vane',
      { wireSlot_mm: 15, length_mm: 60 },
      { vaneCount: 16 },
      'fan.duct.wireSlot_mm',
    ],
    ['more lugs than fit', { lugCount: 8, lugHole_mm: 8, wall_mm: 6 }, {}, 'fan.duct.lugCount'],
    [
      'slot into a lug',
      { lugCount: 8, lugHole_mm: 5, wireSlot_mm: 14, length_mm: 55 },
      {},
      'fan.duct.wireSlot_mm',
    ],
  ])('%s', (_, duct, stator, path) => {
    const lines = first(duct, stator);
    expect(lines.map((line) => line.split(': ')[0])).toContain(path);
    for (const line of lines) expect(line).toMatch(/: [A-Z0-9][^\n]*would do\.$/);
  });

  test('a sentence says what would do, and that does', () => {
    expect(first({ wireSlot_mm: 6 })).toEqual([
      'fan.duct.wireSlot_mm: A slot 6.00 mm wide is as high, and between vanes and exit there is room for 4.00 mm. A narrower slot, or a duct 2.00 mm longer would do.',
    ]);
    expect(first({ wireSlot_mm: 6, length_mm: 40 })).toEqual([]);
    expect(first({ wireSlot_mm: 4 })).toEqual([]);
    expect(first({ lipApart: true, wall_mm: 0.4 })).toEqual([
      'fan.duct.wall_mm: The pieces of the duct slide into each other by the full wall, and 0.400 mm is too thin for that. A wall of 0.600 mm or more would do.',
    ]);
    expect(first({ lipApart: true, wall_mm: 0.6 })).toEqual([]);
  });
});
