import fc from 'fast-check';
import { beforeAll, expect, test } from 'vitest';
import { demo as read } from '../../tests/demo.ts';
import { craftFrameFaults } from '../craft/frame.ts';
import type { Project } from '../project/schema.ts';
import { geometryFaults } from '../shape/faults.ts';
import { fanLayout } from '../shape/layout.ts';
import { facetError } from './fineness.ts';
import { loadKernel, type Kernel, type Solid } from './kernel.ts';
import { make, type MadePart } from './make.ts';
import { solidOf, type Mesh } from './mesh.ts';

/** Designs tried here; FANWRIGHT_DESIGNS in the environment tries more. */
const RUNS = Number(process.env.FANWRIGHT_DESIGNS ?? 16);

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** Framed crafts seldom hang together at random, so they are asked for more often. */
const FRAMES = [
  'none',
  ...Array<'modular'>(8).fill('modular'),
  ...Array<'one body'>(3).fill('one body'),
] as const;

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** The demo's fan at any scale, with every way to hold, divide and frame it; what cannot be built is left out. */
const designs = fc
  .record({
    scale: number(0.8, 3),
    blades: fc.integer({ min: 2, max: 7 }),
    family: fc.constantFrom('flat-plate' as const, 'arc-plate' as const, 'four-digit' as const),
    fillet: number(0, 2),
    front: number(0, 0.8),
    back: number(0, 0.8),
    twist: number(0.8, 1.2),
    apart: fc.boolean(),
    hold: fc.constantFrom('press fit' as const, 'bell screws' as const, 'threaded shaft' as const),
    spinner: fc.boolean(),
    ring: fc.oneof(fc.constant(0), number(0.6, 2)),
    hubHeight: number(0.9, 1.6),
    lip: fc.oneof(fc.constant(0), number(1, 10)),
    wall: number(0.8, 2.2),
    exit: number(0.85, 1.15),
    more: number(0, 15),
    gap: number(0.3, 1),
    vanes: fc.integer({ min: 2, max: 7 }),
    curved: fc.boolean(),
    tailCone: fc.boolean(),
    rings: fc.integer({ min: 1, max: 2 }),
    lipApart: fc.boolean(),
    slot: fc.oneof(fc.constant(0), number(2, 6)),
    lugs: fc.integer({ min: 1, max: 6 }),
    screw: fc.constantFrom(1.6, 2, 2.5, 3),
    shrink: number(0, 0.4),
    error: number(-0.05, 0.1),
    frame: fc.constantFrom(...FRAMES),
    fastening: fc.constantFrom(
      'through bolt' as const,
      'heat-set insert' as const,
      'thread-forming' as const,
    ),
    fans: fc.constantFrom(2, 3, 4, 6, 8),
    layout: fc.constantFrom('ring' as const, 'ring' as const, 'row' as const, 'two rows' as const),
    spacing: number(10, 80),
    askew: fc.boolean(),
  })
  .map((d): Project => {
    const s = d.scale;
    const { fan, motor, craft } = read;
    const lipRadius_mm = d.lip * s;
    return {
      ...read,
      printer: { ...read.printer, holeShrink_mm: d.shrink, xyError_mm: d.error },
      motor: { ...motor, canDiameter_mm: motor.canDiameter_mm * s, canHeight_mm: motor.canHeight_mm * s },
      craft: {
        ...craft,
        fanCount: d.fans,
        layout: d.layout,
        tilt_deg: 0,
        ductSpacing_mm: d.spacing * s,
        batteryBelow_mm: 40 * s,
        frame: { ...craft.frame, kind: d.frame, plate_mm: 3, fastening: d.fastening },
      },
      fan: {
        ...fan,
        kind: 'ducted',
        tipDiameter_mm: fan.tipDiameter_mm * s,
        tipGap_mm: d.gap,
        tipRing_mm: d.apart ? 0 : d.ring,
        hubDiameter_mm: fan.hubDiameter_mm * s,
        hubHeight_mm: fan.hubHeight_mm * s * d.hubHeight,
        bladeCount: d.blades,
        rootFillet_mm: d.fillet,
        rotorParts: d.apart ? 'blades apart' : 'one piece',
        bladesPrinted: d.askew ? 'lying' : 'standing',
        hub: { ...fan.hub, hold: d.hold, spinner: d.spinner, thread_mm: 3 },
        section: { ...fan.section, family: d.family, leadingEdge_mm: d.front, trailingEdge_mm: d.back },
        blade: fan.blade.map((station) => ({
          ...station,
          chord_mm: station.chord_mm * s,
          angle_deg: station.angle_deg * d.twist,
        })),
        stator: { ...fan.stator, vaneCount: d.vanes, chord_mm: fan.stator.chord_mm * s, curved: d.curved },
        duct: {
          ...fan.duct,
          lipRadius_mm,
          length_mm: 34 * s + lipRadius_mm + d.more,
          wall_mm: d.wall,
          exitAreaRatio: d.exit,
          rotorDepth_mm: fan.duct.rotorDepth_mm * s * d.hubHeight,
          tailCone: d.tailCone,
          rings: d.frame === 'one body' ? 1 : d.rings,
          lipApart: d.frame === 'one body' ? false : d.lipApart,
          wireSlot_mm: d.slot,
          lugCount: d.frame === 'one body' ? 0 : d.frame === 'modular' ? d.lugs : d.lugs - 1,
          lugHole_mm: d.screw,
        },
      },
    };
  })
  .filter(
    (project) =>
      geometryFaults(project.fan, project.motor).length === 0 && craftFrameFaults(project).length === 0,
  );

/** Edges not run along exactly once each way, and places that hold more than one corner. */
function openness({ positions, indices }: Mesh) {
  const count = positions.length / 3;
  const runs = new Set<number>();
  for (let i = 0; i < indices.length; i++)
    runs.add(indices[i] * count + indices[i % 3 === 2 ? i - 2 : i + 1]);
  let single = 0;
  for (const key of runs) if (!runs.has((key % count) * count + Math.floor(key / count))) single++;
  const places = new Set<string>();
  for (let i = 0; i < positions.length; i += 3)
    places.add(`${positions[i]} ${positions[i + 1]} ${positions[i + 2]}`);
  return { twice: indices.length - runs.size, single, sharedPlaces: count - places.size };
}

/** Share of facets with no side as long as the error that facets are drawn to. */
function tooFine({ positions: p, indices }: Mesh, error: number): number {
  const side = (a: number, b: number) =>
    Math.hypot(p[3 * a] - p[3 * b], p[3 * a + 1] - p[3 * b + 1], p[3 * a + 2] - p[3 * b + 2]);
  let small = 0;
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = indices.subarray(t, t + 3);
    if (Math.max(side(a, b), side(b, c), side(c, a)) < error) small++;
  }
  return small / (indices.length / 3);
}

const TURNING = ['rotor', 'blade'];
const WALLS = ['duct', 'ductUpper', 'ductLower', 'lip'];

const KINDS = [...TURNING, 'hub', 'hubCap', 'spinner', ...WALLS, 'tailCone', 'plate', 'arm', 'body'];

function placed(part: MadePart, all: boolean): Solid[] {
  const free = solidOf(kernel, part);
  const places = all ? part.placements : part.placements.slice(0, 1);
  const solids = places.map((m) => free.transform([...m] as Parameters<Solid['transform']>[0]));
  free.delete();
  return solids;
}

test(
  `${RUNS} random designs, every part: closed, oriented, one piece, within 1 % of its integral, the tip gap as stated`,
  async () => {
    const seen: Record<string, number> = {};
    const most = { volume: 0, gap: 0, fine: 0, parts: 0, triangles: 0 };
    await fc.assert(
      fc.asyncProperty(designs, async (project) => {
        const { parts } = await make(project, { kernel });
        const error = 1e3 * facetError(project.printer, 'fine');
        for (const part of parts) {
          seen[part.kind] = (seen[part.kind] ?? 0) + 1;
          const off = Math.abs(part.volume_m3 / part.closedVolume_m3 - 1);
          const fine = tooFine(part, error);
          most.parts++;
          most.volume = Math.max(most.volume, off);
          most.fine = Math.max(most.fine, fine);
          most.triangles = Math.max(most.triangles, part.indices.length / 3);
          // A handful are left where surfaces run out at no angle.
          expect(fine, part.kind).toBeLessThan(0.004);
          expect([part.kind, openness(part)]).toEqual([part.kind, { twice: 0, single: 0, sharedPlaces: 0 }]);
          expect(part.volume_m3).toBeGreaterThan(0);
          expect(off, part.kind).toBeLessThan(0.01);
          expect(part.boundingBox_mm.min[2]).toBeCloseTo(0, 3);
          const solid = solidOf(kernel, part);
          const shells = solid.decompose();
          expect([part.kind, solid.status(), shells.length]).toEqual([part.kind, 'NoError', 1]);
          for (const one of [solid, ...shells]) one.delete();
        }
        const right = parts.filter(({ hand }) => hand !== 'left');
        const turning = right
          .filter(({ kind }) => TURNING.includes(kind))
          .flatMap((part) => placed(part, true));
        const walls = right.filter(({ kind }) => WALLS.includes(kind)).flatMap((part) => placed(part, false));
        const gap_mm = project.fan.tipGap_mm;
        const layout = fanLayout(project.fan, project.motor);
        if (walls.length > 0) {
          const gap = Math.min(
            ...turning.flatMap((blade) => walls.map((wall) => blade.minGap(wall, gap_mm + 0.5))),
          );
          most.gap = Math.max(most.gap, Math.abs(gap - gap_mm));
          expect(Math.abs(gap - gap_mm)).toBeLessThan(0.02);
        }
        for (const solid of [...turning, ...walls]) solid.delete();
        for (const key of [
          project.fan.rotorParts,
          project.fan.hub.hold,
          `frame ${project.craft.frame.kind}`,
          ...(layout.ringHalfHeight > 0 ? ['tip ring'] : []),
          ...(project.fan.duct.lugCount > 0 ? ['lugs'] : []),
          ...(project.fan.duct.wireSlot_mm > 0 ? ['slot'] : []),
        ])
          seen[key] = (seen[key] ?? 0) + 1;
      }),
      { seed: 11, numRuns: RUNS, endOnFailure: true },
    );
    if (RUNS >= 100) {
      console.warn(JSON.stringify({ seen, most }));
      for (const what of KINDS) expect(seen[what], what).toBeGreaterThan(RUNS / 50);
    }
  },
  60_000 + 4_000 * RUNS,
);
