import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { assess } from '../assess/assess.ts';
import { craftFrameFaults, framePlanOf, frameVolumesOf } from '../craft/frame.ts';
import { massItems } from '../craft/mass.ts';
import { placementOf } from '../craft/placement.ts';
import { projectSchema, type Project } from '../project/schema.ts';
import { outlineArea } from '../shape/frame-outline.ts';
import { slabVolume } from '../shape/frame.ts';
import { fanLayout } from '../shape/layout.ts';
import { lugPlaces } from '../shape/lugs.ts';
import { printedVolumes } from '../shape/volumes.ts';
import { assemble } from './assembly.ts';
import { loadKernel, type Kernel } from './kernel.ts';
import { make } from './make.ts';
import { solidOf } from './mesh.ts';

const read = projectSchema.parse(
  JSON.parse(readFileSync('examples/greenhouse-scout/greenhouse-scout.fanwright.json', 'utf8')),
);

interface Change {
  readonly craft?: Partial<Project['craft']>;
  readonly frame?: Partial<Project['craft']['frame']>;
  readonly duct?: Partial<Project['fan']['duct']>;
}

/** The demo as it would be with a frame of ours: ducts far enough apart for its battery between them. */
const framed = ({ craft, frame, duct }: Change = {}): Project => ({
  ...read,
  craft: {
    ...read.craft,
    layout: 'ring',
    ductSpacing_mm: 30,
    batteryBelow_mm: 32,
    tilt_deg: 0,
    ...craft,
    frame: { ...read.craft.frame, kind: 'modular', ...frame },
  },
  fan: {
    ...read.fan,
    duct: { ...read.fan.duct, lugCount: frame?.kind === 'one body' ? 0 : 1, ...duct },
  },
});

const CRAFTS: [string, Change][] = [
  ['three in a ring', { craft: { fanCount: 3, ductSpacing_mm: 60 } }],
  ['four in a ring', {}],
  ['six in a ring', { craft: { fanCount: 6 } }],
  ['eight in a ring, with arms', { craft: { fanCount: 8, ductSpacing_mm: 10 } }],
  ['four in a row, with bridges', { craft: { layout: 'row', ductSpacing_mm: 45 }, duct: { lugCount: 2 } }],
  [
    'eight in two rows',
    { craft: { fanCount: 8, layout: 'two rows', ductSpacing_mm: 40 }, duct: { lugCount: 8 } },
  ],
  ['four in one body', { frame: { kind: 'one body' } }],
  [
    'two in one body, joined by the plate alone',
    { craft: { fanCount: 2, ductSpacing_mm: 50 }, frame: { kind: 'one body' } },
  ],
  ['with inserts', { frame: { fastening: 'heat-set insert', plate_mm: 3 } }],
];

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

describe.each(CRAFTS)('a frame of %s', (_, change) => {
  const project = framed(change);

  test('has no fault, and parts of the volume its integrals say, each one piece', async () => {
    expect(craftFrameFaults(project)).toEqual([]);
    const { parts } = await make(project, { kernel, quality: 'coarse' });
    const frame = parts.filter(({ kind }) => ['plate', 'arm', 'bridge', 'body'].includes(kind));
    expect(frame.length).toBeGreaterThan(0);
    let mass = 0;
    for (const part of frame) {
      expect(Math.abs(part.volume_m3 / part.closedVolume_m3 - 1)).toBeLessThan(0.01);
      const solid = solidOf(kernel, part);
      const pieces = solid.decompose();
      expect(pieces.length).toBe(1);
      expect(part.placements.length).toBe(part.quantity);
      for (const one of [...pieces, solid]) one.delete();
      mass += part.quantity * part.mass_g;
    }
    const volumes = printedVolumes(project.fan, project.motor, project.printer.holeShrink_mm);
    const row = massItems(project, volumes).find(({ name }) => name === 'frame')!;
    const ducts =
      project.craft.frame.kind === 'one body'
        ? project.craft.fanCount * volumes.duct * project.material.density_kgpm3 * 1e3
        : 0;
    expect(Math.abs((row.total_g + ducts) / mass - 1)).toBeLessThan(0.01);
  }, 20_000);

  test('every screw of a strip meets the hole of a lug', () => {
    const plan = framePlanOf(project)!;
    if (plan.kind === 'one body') return;
    const layout = fanLayout(project.fan, project.motor);
    const lugs = lugPlaces(layout, project.fan);
    const { fans } = placementOf(project, printedVolumes(project.fan, project.motor));
    const lugHoles = fans.flatMap((fan, i) =>
      lugs.map(({ angle, radius }) => [
        fan.x + radius * Math.cos(angle + plan.spins[i]),
        fan.y + radius * Math.sin(angle + plan.spins[i]),
      ]),
    );
    const drawn = (slab: typeof plan.arm, stands: typeof plan.armStands, pick: (x: number) => boolean) =>
      stands.flatMap(({ angle, x, y }) =>
        (slab?.holes ?? [])
          .filter((hole) => pick(hole.x))
          .map((hole) => [
            x + hole.x * Math.cos(angle) - hole.y * Math.sin(angle),
            y + hole.x * Math.sin(angle) + hole.y * Math.cos(angle),
          ]),
      );
    const farthest = Math.max(...(plan.arm?.holes ?? []).map(({ x }) => x), 0);
    const holes = [
      ...(plan.arm ? [] : plan.plate.holes.slice(0, -4).map(({ x, y }) => [x, y])),
      ...drawn(plan.arm, plan.armStands, (x) => x === farthest),
      ...drawn(plan.bridge, plan.bridgeStands, () => true),
    ];
    expect(holes.length).toBeGreaterThanOrEqual(fans.length);
    for (const [x, y] of holes)
      expect(Math.min(...lugHoles.map(([lx, ly]) => Math.hypot(lx - x, ly - y)))).toBeLessThan(1e-6);
  });

  test('fans stand where the craft room puts them', async () => {
    const made = await make(project, { kernel, quality: 'coarse' });
    const { fans, pieces, centreOfMass_mm, mass_g } = assemble(project, made);
    const placed = placementOf(
      project,
      printedVolumes(project.fan, project.motor, project.printer.holeShrink_mm),
    );
    fans.forEach((fan, i) => {
      expect(fan[12]).toBeCloseTo(1e3 * placed.fans[i].x, 9);
      expect(fan[13]).toBeCloseTo(1e3 * placed.fans[i].y, 9);
      const rotor = pieces.find((piece) => piece.kind === 'rotor' && piece.fan === i + 1)!;
      const hands = made.parts.filter(({ kind }) => kind === 'rotor').length;
      if (hands === 2) expect(rotor.partId).toBe(placed.fans[i].turns === 1 ? 'rotor-left' : 'rotor-right');
    });
    centreOfMass_mm.forEach((value, axis) => expect(value).toBeCloseTo(1e3 * placed.whole.centre[axis], 9));
    expect(mass_g).toBeCloseTo(assess(project).craft.mass_g, 6);
  }, 20_000);
});

test('area of an outline by hand: a pad, a pad with a square tongue', () => {
  const plan = framePlanOf(framed())!;
  const { halfLength: a, halfWidth: b } = plan.pad;
  const tongues = slabVolume(plan.plate) / (plan.plate.bottomZ - plan.plate.topZ);
  // More than the bare pad with its holes, less than the square that holds everything.
  const xs = plan.plate.outline.map(([x]) => x);
  expect(outlineArea(plan.plate.outline)).toBeGreaterThan(4 * a * b - (4 - Math.PI) * 0.004 ** 2);
  expect(tongues).toBeLessThan((Math.max(...xs) - Math.min(...xs)) ** 2);
});

describe('what does not fit is said', () => {
  const texts = (change: Change) =>
    craftFrameFaults(framed(change)).map(({ path, text }) => `${path}: ${text}`);

  test('no lugs, and lugs that face elsewhere', () => {
    expect(texts({ duct: { lugCount: 0 } })[0]).toMatch(
      /^fan\.duct\.lugCount: .* have none\. 1 lug would do\.$/,
    );
    const eight = { craft: { fanCount: 8, layout: 'two rows', ductSpacing_mm: 40 } as const };
    expect(texts({ ...eight, duct: { lugCount: 4 } })[0]).toContain('8 lugs would do');
  });

  test('the spacing in the sentence does, a little less does not', () => {
    const [text] = texts({ craft: { ductSpacing_mm: 4 } });
    const spacing = Number(
      /ductSpacing_mm of ([\d.]+)/.exec(texts({ craft: { ductSpacing_mm: 4 } }).join())![1],
    );
    expect(text).toBeTruthy();
    const bay = (mm: number) =>
      texts({ craft: { ductSpacing_mm: mm } }).filter((line) => line.includes('reaches'));
    expect(bay(spacing)).toEqual([]);
    expect(bay(spacing - 0.3)).toHaveLength(1);
  });

  test('the battery height in the sentence does', () => {
    const [text] = texts({ craft: { batteryBelow_mm: 10 } });
    const least = Number(/\. ([\d.]+) to/.exec(text)![1]);
    expect(texts({ craft: { batteryBelow_mm: least + 0.1 } })).toEqual([]);
  });

  test.each([
    ['leaning fans', { craft: { tilt_deg: 5 } }, /^craft\.tilt_deg/],
    ['a fan in the middle', { craft: { fanCount: 3, layout: 'row' } as const }, /^craft\.layout/],
    ['other screws in frame and lugs', { frame: { bolt_mm: 3 } }, /M3 screws and the lugs of the ducts M2/],
    ['inserts in a thin plate', { frame: { fastening: 'heat-set insert' as const } }, /3\.00 mm to hold/],
    ['narrow strips', { frame: { armWidth_mm: 3 } }, /^craft\.frame\.armWidth_mm/],
    [
      'a plate larger than the bed',
      { craft: { fanCount: 8, ductSpacing_mm: 200 }, frame: { bayLength_mm: 300 } },
      /more than the bed/,
    ],
    ['one body with lugs', { frame: { kind: 'one body' as const }, duct: { lugCount: 2 } }, /without lugs/],
    [
      'one body with its battery under the exit',
      { frame: { kind: 'one body' as const }, craft: { batteryBelow_mm: 90 } },
      /would do/,
    ],
  ])('%s', (_, change: Change, pattern: RegExp) => {
    expect(texts(change).join('\n')).toMatch(pattern);
  });

  test('assess stops on it, and make refuses it', async () => {
    const project = framed({ craft: { tilt_deg: 5 } });
    expect(
      assess(project).remarks.some(({ weight, path }) => weight === 'stop' && path === 'craft.tilt_deg'),
    ).toBe(true);
    await expect(make(project, { kernel })).rejects.toThrow('lean by 5');
  });
});

test('no frame weighs nothing and asks for nothing', () => {
  const none = framed({ frame: { kind: 'none' }, duct: { lugCount: 0 }, craft: { tilt_deg: 5 } });
  expect(frameVolumesOf(none).whole).toBe(0);
  expect(craftFrameFaults(none)).toEqual([]);
});
