import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { demo as read } from '../../tests/demo.ts';
import { rotorFits } from '../print/rotor-fits.ts';
import type { Project } from '../project/schema.ts';
import { geometryFaults } from '../shape/faults.ts';
import { fanLayout } from '../shape/layout.ts';
import { rootKey } from '../shape/root-key.ts';
import { rotorVolumes } from '../shape/rotor-volumes.ts';
import { printedVolumes } from '../shape/volumes.ts';
import { facetError } from './fineness.ts';
import { loadKernel, type Kernel, type Solid } from './kernel.ts';
import { make } from './make.ts';
import { solidOf, type Mesh } from './mesh.ts';
import { makePart, partKinds, type PartKind, type PartSolid } from './part.ts';

/** Designs tried here; FANWRIGHT_DESIGNS=500 in the environment tries as many as the release was held to. */
const RUNS = Number(process.env.FANWRIGHT_DESIGNS ?? 60);

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const TURNING: readonly PartKind[] = ['rotor', 'blade', 'hub', 'hubCap', 'spinner'];
const turningParts = (project: Project): PartSolid[] =>
  partKinds(project)
    .filter((kind) => TURNING.includes(kind))
    .map((kind) => makePart(kernel, project, kind));

const change = (fan: Partial<Project['fan']>, hub: Partial<Project['fan']['hub']> = {}): Project => ({
  ...read,
  craft: { ...read.craft, frame: { ...read.craft.frame, kind: 'none' } },
  fan: { ...read.fan, hubHeight_mm: 14, ...fan, hub: { ...read.fan.hub, thread_mm: 3, ...hub } },
});
const open = (fan: Partial<Project['fan']>, hub: Partial<Project['fan']['hub']> = {}) =>
  change({ kind: 'open', ...fan }, hub);

/** Edges not run along exactly once each way, and places that hold more than one corner. */
function openness({ positions, indices }: Mesh) {
  const count = positions.length / 3;
  const runs = new Set<number>();
  let twice = 0;
  for (let i = 0; i < indices.length; i++) {
    const key = indices[i] * count + indices[i % 3 === 2 ? i - 2 : i + 1];
    if (runs.has(key)) twice++;
    runs.add(key);
  }
  let single = 0;
  for (const key of runs) if (!runs.has((key % count) * count + Math.floor(key / count))) single++;
  const places = new Set<string>();
  for (let i = 0; i < positions.length; i += 3)
    places.add(`${positions[i]} ${positions[i + 1]} ${positions[i + 2]}`);
  return { twice, single, sharedPlaces: count - places.size };
}

/** Holes through a part, from how it is built. */
function holesOf({ fan }: Project, kind: PartKind): number {
  const { hold, screwCount } = fan.hub;
  switch (kind) {
    case 'rotor':
      return 1 + (hold === 'bell screws' ? screwCount : 0) + (fan.tipRing_mm > 0 ? fan.bladeCount : 0);
    case 'hub':
    case 'hubCap':
      return 1 + (hold === 'threaded shaft' ? 0 : screwCount);
    default:
      return 0;
  }
}

function expectSolid(project: Project, part: PartSolid): void {
  expect(openness(part)).toEqual({ twice: 0, single: 0, sharedPlaces: 0 });
  expect(part.volume_m3).toBeGreaterThan(0);
  expect(Math.abs(part.volume_m3 / part.closedVolume_m3 - 1), part.kind).toBeLessThan(0.01);
  expect(part.boundingBox_mm.min[2]).toBeCloseTo(0, 3);
  const again = solidOf(kernel, part);
  const pieces = again.decompose();
  expect(again.status()).toBe('NoError');
  expect(pieces).toHaveLength(1);
  expect([part.kind, again.genus()]).toEqual([part.kind, holesOf(project, part.kind)]);
  for (const solid of [again, ...pieces]) solid.delete();
}

/** Largest distance from the axis in the fan's frame [mm]. */
function reach({ positions: p, placement: m }: PartSolid): number {
  let most = 0;
  for (let i = 0; i < p.length; i += 3) {
    const [x, y] = [0, 1].map((k) => m[k] * p[i] + m[k + 4] * p[i + 1] + m[k + 8] * p[i + 2] + m[k + 12]);
    most = Math.max(most, Math.hypot(x, y));
  }
  return most;
}

function placed(part: PartSolid): Solid[] {
  const free = solidOf(kernel, part);
  const solids = part.placements.map((m) => free.transform(m as Parameters<typeof free.transform>[0]));
  free.delete();
  return solids;
}

/** Volume that the pieces of a rotor share where they stand [mm3]. */
function shared(parts: readonly PartSolid[]): number {
  const solids = parts.flatMap(placed);
  let most = 0;
  solids.forEach((a, i) =>
    solids.slice(i + 1).forEach((b) => {
      const common = a.intersect(b);
      most = Math.max(most, common.volume());
      common.delete();
    }),
  );
  for (const solid of solids) solid.delete();
  return most;
}

const HOLDS = ['press fit', 'bell screws', 'threaded shaft'] as const;

describe('every way to hold and divide a rotor', () => {
  const ways = HOLDS.flatMap((hold) =>
    [false, true].flatMap((spinner) => [
      { hold, spinner, rotorParts: 'one piece' as const, tipRing_mm: 0 },
      { hold, spinner, rotorParts: 'one piece' as const, tipRing_mm: 1 },
      { hold, spinner, rotorParts: 'blades apart' as const, tipRing_mm: 0 },
    ]),
  );
  test.each(ways)(
    '$hold, $rotorParts, spinner $spinner, ring $tipRing_mm mm',
    ({ hold, spinner, rotorParts, tipRing_mm }) => {
      const project = open({ rotorParts, tipRing_mm }, { hold, spinner });
      expect(geometryFaults(project.fan, project.motor)).toEqual([]);
      const parts = turningParts(project);
      for (const part of parts) expectSolid(project, part);
      expect(shared(parts)).toBeLessThan(1e-6);
      const layout = fanLayout(project.fan, project.motor);
      const furthest = Math.max(...parts.map(reach));
      expect(Math.abs(furthest - 1e3 * layout.turningRadius)).toBeLessThan(0.02);
      expect(furthest).toBeCloseTo(project.fan.tipDiameter_mm / 2 + tipRing_mm, 1);
      const turning = parts.reduce((sum, part) => sum + part.placements.length * part.volume_m3, 0);
      // The mass build-up counts gaps as they come out, the solids are drawn with what the printer closes of them.
      const counted = printedVolumes(project.fan, project.motor, project.printer.holeShrink_mm).rotor;
      expect(Math.abs(turning / counted - 1)).toBeLessThan(rotorParts === 'one piece' ? 0.01 : 0.05);
    },
  );

  test('blades apart come as right and left blades; hub, cap and spinner fit both', async () => {
    const made = await make(open({ rotorParts: 'blades apart' }, { spinner: true }), { kernel });
    const { bladeCount } = read.fan;
    const half = (read.craft.fanCount / 2) * bladeCount;
    expect(made.parts.map(({ id, quantity }) => [id, quantity])).toEqual([
      ['blade-right', half],
      ['blade-left', half],
      ['hub', read.craft.fanCount],
      ['hub-cap', read.craft.fanCount],
      ['spinner', read.craft.fanCount],
    ]);
    const [right, left] = made.parts;
    for (let i = 0; i < right.positions.length; i++)
      if (left.positions[i] !== (i % 3 === 1 ? -right.positions[i] : right.positions[i]))
        throw new Error(`coordinate ${i} differs`);
    // The mirrored hub is the same hub: mirrored blades slide into the same pockets.
    expect(shared([left, made.parts[2], made.parts[3]])).toBeLessThan(1e-6);
  });

  test('a key can slide out along the axis, but not outward', () => {
    const project = open({ rotorParts: 'blades apart' });
    const layout = fanLayout(project.fan, project.motor);
    const [blade, hub] = (['blade', 'hub'] as const).map((kind) => placed(makePart(kernel, project, kind)));
    const common = (x: number, z: number) => {
      const moved = blade[0].translate([x, 0, z]);
      const both = moved.intersect(hub[0]);
      const volume = both.volume();
      moved.delete();
      both.delete();
      return volume;
    };
    for (const up of [1, 4, 8, 12]) expect(common(0, -up)).toBeLessThan(1e-6);
    const gap = 1e3 * rotorFits(project, layout).key;
    expect(common(gap * 0.9, 0)).toBeLessThan(1e-6);
    expect(common(gap + 1, 0)).toBeGreaterThan(1);
    for (const solid of [...blade, ...hub]) solid.delete();
  });

  test('between key and pocket there is the gap of a sliding fit', () => {
    const project = open({ rotorParts: 'blades apart' });
    const gap = 1e3 * rotorFits(project).key;
    const [blade, hub] = (['blade', 'hub'] as const).map((kind) => placed(makePart(kernel, project, kind)));
    // The blade rests on the floor; lifted by the gap it is as far from it as from everything else.
    const lifted = blade[0].translate([0, 0, -gap]);
    expect(lifted.minGap(hub[0], 1)).toBeCloseTo(gap, 2);
    for (const solid of [...blade, ...hub, lifted]) solid.delete();
  });

  test('a blade stands on the foot of its key, or lies with its chord flat', () => {
    const standing = makePart(kernel, open({ rotorParts: 'blades apart' }), 'blade');
    const { fan, motor } = open({});
    const foot = 1e3 * rootKey({ ...fan, rotorParts: 'blades apart' }, fanLayout(fan, motor)).footRadius;
    expect(standing.boundingBox_mm.max[2]).toBeCloseTo(fan.tipDiameter_mm / 2 - foot, 1);
    const lying = makePart(kernel, open({ rotorParts: 'blades apart', bladesPrinted: 'lying' }), 'blade');
    expect(lying.boundingBox_mm.max[2]).toBeLessThan(0.6 * standing.boundingBox_mm.max[2]);
    // Outward of the root the blade is nearly level: its height there is far less than its width.
    let [low, high, left, right] = [Infinity, -Infinity, Infinity, -Infinity];
    const { positions: p } = lying;
    for (let i = 0; i < p.length; i += 3) {
      if (p[i] < 0.65 * (fan.tipDiameter_mm / 2)) continue;
      [low, high] = [Math.min(low, p[i + 2]), Math.max(high, p[i + 2])];
      [left, right] = [Math.min(left, p[i + 1]), Math.max(right, p[i + 1])];
    }
    expect(high - low).toBeLessThan(0.35 * (right - left));
  });

  test('the ring keeps the stated gap to the duct', () => {
    const project = change({ hubHeight_mm: read.fan.hubHeight_mm, tipRing_mm: 1 });
    const [rotor, duct] = (['rotor', 'duct'] as const).map(
      (kind) => placed(makePart(kernel, project, kind))[0],
    );
    const gap = rotor.minGap(duct, 2);
    expect(Math.abs(gap - project.fan.tipGap_mm)).toBeLessThan(0.02);
    for (const solid of [rotor, duct]) solid.delete();
  });
});

describe('what cannot be built says so', () => {
  test.each<[string, Project, string]>([
    ['screws in the bore', open({}, { hold: 'bell screws', screwCircle_mm: 3 }), 'fan.hub.screwCircle_mm'],
    [
      'screws outside the hub',
      open({}, { hold: 'bell screws', screwCircle_mm: 20 }),
      'fan.hub.screwCircle_mm',
    ],
    [
      'overlapping heads',
      open({}, { hold: 'bell screws', screwCount: 6, screwCircle_mm: 6.2 }),
      'fan.hub.screwCount',
    ],
    [
      'screws in the keys',
      open({ rotorParts: 'blades apart' }, { screwCircle_mm: 13 }),
      'fan.hub.screwCircle_mm',
    ],
    ['a nut wider than the hub', open({}, { hold: 'threaded shaft', thread_mm: 12 }), 'fan.hub.thread_mm'],
    [
      'a spinner on a nut',
      open({}, { hold: 'threaded shaft', thread_mm: 9, spinner: true }),
      'fan.hub.spinner',
    ],
    ['one blade apart', open({ rotorParts: 'blades apart', bladeCount: 1 }), 'fan.bladeCount'],
    ['a ring on blades apart', open({ rotorParts: 'blades apart', tipRing_mm: 1 }), 'fan.tipRing_mm'],
    ['too many keys', open({ rotorParts: 'blades apart', bladeCount: 14 }), 'fan.hubDiameter_mm'],
    ['a low hub', open({ rotorParts: 'blades apart', hubHeight_mm: 9 }), 'fan.hubHeight_mm'],
    [
      'roots wider than their share of the rim',
      open({
        rotorParts: 'blades apart',
        bladeCount: 6,
        blade: [{ span_ratio: 0, chord_mm: 14, angle_deg: 12, thickness_ratio: 0.08, camber_ratio: 0.03 }],
      }),
      'fan.rotorParts',
    ],
  ])('%s', (_, { fan, motor }, path) => {
    const faults = geometryFaults(fan, motor);
    expect(faults.map((fault) => fault.path)).toContain(path);
    for (const { text } of faults) expect(text).toMatch(/^[A-Z0-9][^\n]*\.$/);
  });
});

/** Rotors that hang together about as often as not; those that do not are left out by `geometryFaults`. */
const designs = fc
  .record({
    tip: fc.double({ min: 40, max: 260, noNaN: true }),
    hub: fc.double({ min: 0.22, max: 0.5, noNaN: true }),
    hubHeight: fc.double({ min: 0.14, max: 0.3, noNaN: true }),
    blades: fc.integer({ min: 2, max: 9 }),
    family: fc.constantFrom('flat-plate' as const, 'arc-plate' as const, 'four-digit' as const),
    front: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 0.012, noNaN: true })),
    back: fc.double({ min: 0, max: 0.01, noNaN: true }),
    fillet: fc.double({ min: 0, max: 3, noNaN: true }),
    chords: fc.tuple(...[0, 1, 2].map(() => fc.double({ min: 0.07, max: 0.18, noNaN: true }))),
    angles: fc.tuple(
      fc.double({ min: 25, max: 60, noNaN: true }),
      fc.double({ min: 15, max: 40, noNaN: true }),
      fc.double({ min: 0, max: 30, noNaN: true }),
    ),
    thickness: fc.double({ min: 0.04, max: 0.18, noNaN: true }),
    camber: fc.double({ min: -0.03, max: 0.09, noNaN: true }),
    hold: fc.constantFrom(...HOLDS),
    apart: fc.boolean(),
    spinner: fc.boolean(),
    ring: fc.oneof(fc.constant(0), fc.double({ min: 0.6, max: 2, noNaN: true })),
    circle: fc.double({ min: 0.25, max: 0.75, noNaN: true }),
    screws: fc.integer({ min: 2, max: 4 }),
    screw: fc.constantFrom(1.4, 2, 2.5, 3),
    resin: fc.boolean(),
    shrink: fc.double({ min: 0, max: 0.3, noNaN: true }),
    lying: fc.boolean(),
  })
  .map((d): Project => {
    const hub = d.tip * d.hub;
    return {
      ...read,
      craft: { ...read.craft, frame: { ...read.craft.frame, kind: 'none' } },
      printer: {
        ...read.printer,
        process: d.resin ? 'resin' : 'filament',
        lineWidth_mm: d.resin ? 0.05 : 0.42,
        holeShrink_mm: d.shrink,
      },
      motor: { ...read.motor, canDiameter_mm: 0.9 * hub, shaftDiameter_mm: Math.min(5, 0.08 * hub) },
      fan: {
        ...read.fan,
        kind: 'open',
        tipDiameter_mm: d.tip,
        hubDiameter_mm: hub,
        hubHeight_mm: d.tip * d.hubHeight,
        bladeCount: d.blades,
        rootFillet_mm: d.fillet,
        rotorParts: d.apart ? 'blades apart' : 'one piece',
        bladesPrinted: d.lying ? 'lying' : 'standing',
        tipRing_mm: d.apart ? 0 : d.ring,
        hub: {
          ...read.fan.hub,
          hold: d.hold,
          spinner: d.spinner,
          screwCircle_mm: Math.max(2, d.circle * hub),
          screwCount: d.screws,
          screw_mm: d.screw,
          thread_mm: Math.min(8, 0.15 * hub),
        },
        section: {
          ...read.fan.section,
          family: d.family,
          leadingEdge_mm: d.front * d.tip,
          trailingEdge_mm: d.back * d.tip,
        },
        blade: d.angles.map((angle_deg, i) => ({
          span_ratio: i / 2,
          chord_mm: d.chords[i] * d.tip,
          angle_deg,
          thickness_ratio: d.thickness,
          camber_ratio: d.camber,
        })),
      },
    };
  })
  .filter(({ fan, motor }) => geometryFaults(fan, motor).length === 0);

test(
  `${RUNS} random rotors: closed, oriented, one piece, within 1 % of the closed integrals, tips where they belong`,
  () => {
    const seen: Record<string, number> = {};
    fc.assert(
      fc.property(designs, (project) => {
        const { fan, motor } = project;
        const parts = turningParts(project);
        for (const part of parts) expectSolid(project, part);
        const layout = fanLayout(fan, motor);
        expect(Math.abs(Math.max(...parts.map(reach)) - 1e3 * layout.turningRadius)).toBeLessThan(0.02);
        const volumes = rotorVolumes(fan, layout, rotorFits(project, layout));
        const turning = parts.reduce((sum, part) => sum + part.placements.length * part.volume_m3, 0);
        expect(Math.abs(turning / volumes.whole - 1)).toBeLessThan(0.01);
        if (fan.rotorParts === 'blades apart') expect(shared(parts)).toBeLessThan(1e-3);
        for (const key of [
          fan.rotorParts,
          fan.hub.hold,
          fan.tipRing_mm > 0 ? 'ring' : 'no ring',
          `spinner ${fan.hub.spinner}`,
        ])
          seen[key] = (seen[key] ?? 0) + 1;
      }),
      { seed: 5_005, numRuns: RUNS, endOnFailure: true },
    );
    for (const way of ['one piece', 'blades apart', ...HOLDS, 'ring', 'spinner true'])
      expect(seen[way], way).toBeGreaterThan(RUNS / 20);
  },
  20_000 + 1_000 * RUNS,
);

test.each(['one piece', 'blades apart'] as const)(
  'no facet is finer than what can be resolved, %s',
  (rotorParts) => {
    const project = open({ rotorParts, rootFillet_mm: 3 });
    const error = 1e3 * facetError(project.printer, 'fine');
    for (const { positions: p, indices } of turningParts(project)) {
      let small = 0;
      for (let t = 0; t < indices.length; t += 3) {
        const side = (a: number, b: number) =>
          Math.hypot(...[0, 1, 2].map((k) => p[3 * indices[t + a] + k] - p[3 * indices[t + b] + k]));
        if (Math.max(side(0, 1), side(1, 2), side(2, 0)) < error) small++;
      }
      // A handful are left where blends run out; before slivers were joined it was one in fifty.
      expect(small).toBeLessThan(indices.length / 3 / 1000);
    }
  },
);
