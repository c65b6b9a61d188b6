import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { projectSchema, type Project } from '../project/schema.ts';
import type { Assembly, Piece } from './assembly.ts';
import { boxMesh, cylinderMesh } from './assembly-solids.ts';
import { checkProject } from './interference-project.ts';
import { placeWords } from './interference-words.ts';
import { checkFit } from './interference.ts';
import { loadKernel, type Kernel } from './kernel.ts';
import { make } from './make.ts';
import { measure } from './mesh.ts';
import { shift, turn } from './placement.ts';

const demo: Project = projectSchema.parse(
  JSON.parse(readFileSync('examples/greenhouse-scout/greenhouse-scout.fanwright.json', 'utf8')),
);

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const piece = (
  id: string,
  mesh: Piece['mesh'],
  placement: Piece['placement'],
  own: Partial<Piece> = {},
): Piece => ({
  id,
  name: id,
  partId: id,
  kind: 'hub',
  bought: false,
  fan: null,
  copy: null,
  turns: false,
  mesh,
  placement,
  ...own,
});

const assembly = (...pieces: Piece[]): Assembly => ({
  pieces,
  fans: [shift(0, 0, 0)],
  centreOfMass_mm: [0, 0, 0],
  mass_g: 0,
  frameScrews: 0,
});

describe('bodies whose distance is known', () => {
  const cube = boxMesh(10, 10, 10);

  test('drawn bodies are closed and turned outward', () => {
    expect(measure(cube).volume).toBeCloseTo(1000, 3);
    expect(measure(cylinderMesh(5, 10)).volume / (Math.PI * 250)).toBeCloseTo(1, 2);
  });

  test('apart: the gap and the place', () => {
    const { meetings, collisions } = checkFit(
      kernel,
      assembly(piece('left', cube, shift(0, 0, 0)), piece('right', cube, shift(0, 12.5, 0))),
    );
    expect(collisions).toEqual([]);
    expect(meetings).toHaveLength(1);
    expect(meetings[0].gap_mm).toBeCloseTo(2.5, 4);
    expect(meetings[0].gapAtSpeed_mm).toBeNull();
    expect(Math.abs(meetings[0].at_mm[1])).toBeGreaterThan(4.7);
  });

  test('edge to edge across a corner', () => {
    const { meetings } = checkFit(
      kernel,
      assembly(piece('a', cube, shift(0, 0, 0)), piece('b', cube, shift(13, 14, 0))),
      { near_mm: 6 },
    );
    expect(meetings[0].gap_mm).toBeCloseTo(5, 4);
  });

  test('farther than asked is not listed', () => {
    const two = assembly(piece('a', cube, shift(0, 0, 0)), piece('b', cube, shift(0, 0, 16)));
    expect(checkFit(kernel, two).meetings).toEqual([]);
    expect(checkFit(kernel, two, { near_mm: 7 }).meetings[0].gap_mm).toBeCloseTo(6, 4);
  });

  test('overlapping: refused with how much and where', () => {
    const { meetings, collisions } = checkFit(
      kernel,
      assembly(piece('left', cube, shift(0, 0, 0)), piece('right', cube, shift(0, 9.5, 2))),
    );
    expect(meetings[0].gap_mm).toBeLessThan(-0.4);
    expect(meetings[0].gap_mm).toBeGreaterThan(-0.51);
    expect(meetings[0].at_mm[1]).toBeCloseTo(4.75, 3);
    expect(collisions).toHaveLength(1);
    expect(collisions[0]).toMatch(
      /^Left and right run into each other by about 0\.4\d mm: 4\.75 mm right of the middle/,
    );
  });

  test('one inside the other, without a wall cut: refused', () => {
    const inner = piece('inner', boxMesh(2, 2, 2), shift(0, 0, 0));
    const { collisions } = checkFit(kernel, assembly(piece('outer', cube, shift(0, 0, 0)), inner));
    expect(collisions).toHaveLength(1);
  });

  test('touching: refused, unless the two are joined', () => {
    const below = (kind: Piece['kind']) =>
      assembly(
        piece('seat', cube, shift(0, 0, 0), { kind: 'duct', fan: 1 }),
        piece('on it', cube, shift(0, 0, 10), { kind, fan: 1, bought: true }),
      );
    expect(checkFit(kernel, below('motor')).collisions).toEqual([]);
    expect(checkFit(kernel, below('battery')).collisions[0]).toContain('touch');
    const deep = assembly(
      piece('seat', cube, shift(0, 0, 0), { kind: 'duct', fan: 1 }),
      piece('in it', cube, shift(0, 0, 9), { kind: 'motor', fan: 1 }),
    );
    expect(checkFit(kernel, deep).collisions).toHaveLength(1);
  });

  test('pairs that stand alike are counted, not listed twice', () => {
    const row = [0, 12, 24].map((y) => piece(`cube ${y}`, cube, shift(0, y, 0), { partId: 'cube' }));
    const { meetings } = checkFit(kernel, assembly(...row));
    expect(meetings).toHaveLength(1);
    expect(meetings[0].pairs).toBe(2);
  });

  test('what turns grows about its axis, what stands does not', () => {
    const disc = piece('disc', cylinderMesh(20, 2), turn(0.3), { kind: 'rotor', turns: true, fan: 1 });
    const wall = piece('wall', boxMesh(4, 40, 40), shift(22.5 + 0.0242, 0, 0));
    const { meetings } = checkFit(kernel, assembly(disc, wall), { growth: 0.2e-3, tipRadius: 0.02 });
    expect(meetings[0].gap_mm - meetings[0].gapAtSpeed_mm!).toBeCloseTo(0.2, 2);
    const { collisions } = checkFit(kernel, assembly(disc, wall), { growth: 0.6e-3, tipRadius: 0.02 });
    expect(collisions[0]).toContain('touch at full speed');
  });
});

describe('the demo', () => {
  test('rotor in duct: the stated gap at rest, less exactly the growth at speed', async () => {
    const made = await make(demo, { kernel });
    const { fit, assembly: whole } = checkProject(kernel, demo, made, { growth: 0.05e-3 });
    expect(fit.collisions).toEqual([]);
    const tip = fit.meetings.find(({ a, b }) => a.startsWith('rotor') && b.startsWith('duct'))!;
    expect(tip.pairs).toBe(demo.craft.fanCount);
    expect(Math.abs(tip.gap_mm - demo.fan.tipGap_mm)).toBeLessThan(0.02);
    expect(tip.gap_mm - tip.gapAtSpeed_mm!).toBeCloseTo(0.05, 3);
    // The place lies at the tip of a blade of the fan named.
    const fan = whole.fans[Number(/fan (\d)/.exec(tip.a)![1]) - 1];
    const radius = Math.hypot(tip.at_mm[0] - fan[12], tip.at_mm[1] - fan[13]);
    expect(Math.abs(radius - demo.fan.tipDiameter_mm / 2)).toBeLessThan(1);
    const ducts = fit.meetings.find(({ a, b }) => a.startsWith('duct') && b.startsWith('duct'))!;
    expect(ducts.gap_mm).toBeCloseTo(demo.craft.ductSpacing_mm, 1);
    const wide = checkProject(kernel, demo, made, { growth: 0.6e-3 });
    expect(wide.fit.collisions.join()).toContain('touch at full speed');
  }, 30_000);

  test('without a growth the rotor grows as the strength room says', async () => {
    const made = await make(demo, { kernel, quality: 'coarse' });
    const { fit } = checkProject(kernel, demo, made);
    expect(fit.growth).toBeGreaterThan(0);
    expect(fit.growth).toBeLessThan(0.2e-3);
  }, 30_000);

  test('ducts that lean into each other, and a battery in a duct, are refused', async () => {
    const leaning = { ...demo, craft: { ...demo.craft, ductSpacing_mm: 1, tilt_deg: 8 } };
    const made = await make(leaning, { kernel, quality: 'coarse' });
    const { fit } = checkProject(kernel, leaning, made);
    expect(fit.collisions).toHaveLength(1);
    expect(fit.collisions[0]).toMatch(
      /^Duct of fan \d and duct of fan \d \(and 3 more such pairs\) run into/,
    );
  }, 30_000);

  test('a hub screwed on the bell may touch it, and lists no gap', async () => {
    const hub = { ...demo.fan.hub, hold: 'bell screws' as const };
    const bell = { ...demo, fan: { ...demo.fan, hub } };
    const made = await make(bell, { kernel, quality: 'coarse' });
    const { fit } = checkProject(kernel, bell, made);
    expect(fit.collisions).toEqual([]);
    expect(fit.meetings.filter(({ a, b }) => `${a} ${b}`.includes('motor'))).toEqual([]);
  }, 30_000);

  test('a can too wide for the room between the vanes runs into them', async () => {
    const made = await make(demo, { kernel, quality: 'coarse' });
    const wide = { ...demo, motor: { ...demo.motor, canDiameter_mm: demo.motor.canDiameter_mm + 6 } };
    const { fit } = checkProject(kernel, wide, made);
    expect(fit.collisions.join()).toMatch(/motor of fan/);
  }, 30_000);
});

test('a place in words', () => {
  expect(placeWords([1, -2, 3])).toBe(
    '1.00 mm ahead and 2.00 mm left of the middle, 3.00 mm below the lower edge of the lip',
  );
  expect(placeWords([0.01, 0, 0])).toBe('in the middle, where lip and bore meet');
});
