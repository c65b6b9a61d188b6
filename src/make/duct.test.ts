import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { matingGap } from '../print/fits.ts';
import { projectSchema, type Project } from '../project/schema.ts';
import { ductPieceKinds } from '../shape/duct-pieces.ts';
import { geometryFaults } from '../shape/faults.ts';
import { ductJoints } from '../shape/joints.ts';
import { fanLayout } from '../shape/layout.ts';
import { lugPlaces } from '../shape/lugs.ts';
import { passageRadius, wallOuterRadius } from '../shape/profiles.ts';
import { printedVolumes } from '../shape/volumes.ts';
import { wireSlot } from '../shape/wire-slot.ts';
import { jointGap } from './duct.ts';
import { loadKernel, type Kernel, type Solid } from './kernel.ts';
import { solidOf } from './mesh.ts';
import { makePart, partKinds, type PartSolid } from './part.ts';

const demo: Project = projectSchema.parse(
  JSON.parse(readFileSync('examples/greenhouse-scout/greenhouse-scout.fanwright.json', 'utf8')),
);

type Duct = Project['fan']['duct'];

const withDuct = (project: Project, duct: Partial<Duct>, fan: Partial<Project['fan']> = {}): Project => ({
  ...project,
  fan: { ...project.fan, ...fan, duct: { ...project.fan.duct, ...duct } },
});

let kernel: Kernel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** Scales of the demo's fan with every way to divide its duct; what cannot be built is left out. */
const designs = fc
  .record({
    scale: fc.double({ min: 0.7, max: 3, noNaN: true }),
    lip: fc.oneof(fc.constant(0), fc.double({ min: 0.2, max: 10, noNaN: true })),
    wall: fc.double({ min: 0.8, max: 2.2, noNaN: true }),
    exit: fc.double({ min: 0.75, max: 1.25, noNaN: true }),
    more: fc.double({ min: 0, max: 15, noNaN: true }),
    vanes: fc.integer({ min: 3, max: 7 }),
    curved: fc.boolean(),
    rings: fc.integer({ min: 1, max: 2 }),
    lipApart: fc.boolean(),
    slot: fc.oneof(fc.constant(0), fc.double({ min: 2, max: 6, noNaN: true })),
    lugs: fc.integer({ min: 0, max: 6 }),
    screw: fc.constantFrom(1.6, 2, 2.5, 3),
    shrink: fc.double({ min: 0, max: 0.4, noNaN: true }),
  })
  .map((d): Project => {
    const s = d.scale;
    const { fan, motor } = demo;
    const lipRadius_mm = d.lip * s;
    return {
      ...demo,
      printer: { ...demo.printer, holeShrink_mm: d.shrink },
      motor: { ...motor, canDiameter_mm: motor.canDiameter_mm * s, canHeight_mm: motor.canHeight_mm * s },
      fan: {
        ...fan,
        tipDiameter_mm: fan.tipDiameter_mm * s,
        hubDiameter_mm: fan.hubDiameter_mm * s,
        hubHeight_mm: fan.hubHeight_mm * s,
        blade: fan.blade.map((station) => ({ ...station, chord_mm: station.chord_mm * s })),
        stator: { ...fan.stator, vaneCount: d.vanes, chord_mm: fan.stator.chord_mm * s, curved: d.curved },
        duct: {
          ...fan.duct,
          lipRadius_mm,
          length_mm: 31.5 * s + lipRadius_mm + d.more,
          wall_mm: d.wall,
          exitAreaRatio: d.exit,
          rotorDepth_mm: fan.duct.rotorDepth_mm * s,
          rings: d.rings,
          lipApart: d.lipApart,
          wireSlot_mm: d.slot,
          lugCount: d.lugs,
          lugHole_mm: d.screw,
        },
      },
    };
  })
  .filter(({ fan, motor }) => geometryFaults(fan, motor).length === 0);

const baseGenus = ({ fan, motor }: Project) => {
  const layout = fanLayout(fan, motor);
  const seat = motor.mountHoles + (layout.seatHoleRadius > 0 ? 1 : 0);
  return fan.stator.vaneCount + seat + fan.duct.lugCount + (fan.duct.wireSlot_mm > 0 ? 1 : 0);
};

/** A part back in the frame of the fan. */
function placed(part: PartSolid): Solid {
  const free = solidOf(kernel, part);
  const solid = free.transform([...part.placement] as Parameters<Solid['transform']>[0]);
  free.delete();
  return solid;
}

/** Where the ray at `angle` crosses the surface of a solid at `z`, past `from`, in order; all [mm]. */
function crossings(solid: Solid, z: number, angle: number, from: number): number[] {
  const section = solid.slice(z);
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const met: number[] = [];
  for (const contour of section.toPolygons())
    contour.forEach(([x0, y0], i) => {
      const [x1, y1] = contour[(i + 1) % contour.length];
      const [u0, v0, u1, v1] = [c * x0 + s * y0, c * y0 - s * x0, c * x1 + s * y1, c * y1 - s * x1];
      if (v0 > 0 === v1 > 0) return;
      const u = u0 + ((u1 - u0) * v0) / (v0 - v1);
      if (u > from) met.push(u);
    });
  section.delete();
  return met.sort((a, b) => a - b);
}

const firstMet = (solid: Solid, z: number, angle: number, from: number): number =>
  crossings(solid, z, angle, from)[0] ?? Infinity;

test('random ducts, divided, slotted and with lugs: solid, of the stated volume, flush inside, fitting, apart', () => {
  const seen = { lip: 0, ductUpper: 0, ductLower: 0, duct: 0, lugs: 0, slot: 0 };
  fc.assert(
    fc.property(designs, (project) => {
      const { fan, motor } = project;
      const layout = fanLayout(fan, motor);
      const kinds = ductPieceKinds(fan);
      const parts = kinds.map((kind) => makePart(kernel, project, kind));
      parts.forEach((part, i) => {
        seen[kinds[i]]++;
        const solid = solidOf(kernel, part);
        const shells = solid.decompose();
        expect([solid.status(), shells.length]).toEqual(['NoError', 1]);
        expect(solid.genus()).toBe(i === parts.length - 1 ? baseGenus(project) : 1);
        expect(Math.abs(part.volume_m3 / part.closedVolume_m3 - 1)).toBeLessThan(0.01);
        for (const one of [solid, ...shells]) one.delete();
      });
      if (fan.duct.lugCount > 0) seen.lugs++;
      if (fan.duct.wireSlot_mm > 0) seen.slot++;
      const gap = jointGap(project);
      const total = printedVolumes(fan, motor, project.printer.holeShrink_mm, layout, gap).duct;
      expect(parts.reduce((sum, part) => sum + part.closedVolume_m3, 0)).toBeCloseTo(total, 12);

      const whole = withDuct(project, { rings: 1, lipApart: false, lugCount: 0, wireSlot_mm: 0 });
      const solids = parts.map(placed);
      const onePiece = placed(makePart(kernel, whole, 'duct'));
      // Half way between two vanes on the side away from the slot.
      const between = Math.PI / fan.stator.vaneCount + (2 * Math.PI * 2) / fan.stator.vaneCount;
      const past = 1.03e3 * layout.seatRadius;
      for (let k = 0; k < 20; k++) {
        const z = 1e3 * (layout.topZ + ((k + 0.37) / 20) * (layout.exitZ - layout.topZ));
        const wanted = firstMet(onePiece, z, between, past);
        const divided = Math.min(...solids.map((solid) => firstMet(solid, z, between, past)));
        expect(Math.abs(divided - wanted)).toBeLessThan(0.02);
        // 0.02 mm for the profile and half of that for the circle; near the top of the lip the radius is no measure.
        if (z > 0) expect(Math.abs(wanted - 1e3 * passageRadius(layout, z / 1e3))).toBeLessThan(0.03);
      }

      ductJoints(layout, fan, gap).forEach((joint, i) => {
        const [above, below] = [solids[i], solids[i + 1]];
        const common = above.intersect(below);
        expect(common.isEmpty() ? 0 : common.volume()).toBeLessThan(0.01);
        common.delete();
        for (const share of [0.2, 0.5, 0.8]) {
          const z = 1e3 * (joint.mouthZ + share * (joint.z - joint.mouthZ));
          for (let a = 0; a < 8; a++) {
            const angle = between + a * 0.77;
            const measured = firstMet(below, z, angle, past) - crossings(above, z, angle, past).at(-1)!;
            expect(Math.abs(measured - 1e3 * gap)).toBeLessThan(0.002);
          }
        }
        // The two touch only where they butt.
        expect(above.boundingBox().max[2]).toBeCloseTo(1e3 * joint.z, 3);
        expect(below.boundingBox().min[2]).toBeCloseTo(1e3 * joint.mouthZ, 3);
      });
      for (const solid of [...solids, onePiece]) solid.delete();
    }),
    { seed: 5, numRuns: 10, endOnFailure: true },
  );
  for (const times of Object.values(seen)) expect(times).toBeGreaterThan(1);
}, 120_000);

describe('the demo with two rings, lip apart, lugs and a slot', () => {
  const divided = withDuct(demo, { rings: 2, lipApart: true, lugCount: 4, wireSlot_mm: 4 });
  const layout = fanLayout(divided.fan, divided.motor);

  test('comes in four parts, and the rotor touches none of them', () => {
    const kinds = partKinds(divided);
    expect(kinds).toEqual(['rotor', 'lip', 'ductUpper', 'ductLower']);
    const [rotor, ...duct] = kinds.map((kind) => placed(makePart(kernel, divided, kind)));
    for (const piece of duct) expect(rotor.minGap(piece, 3)).toBeGreaterThan(divided.fan.tipGap_mm - 0.02);
    for (const solid of [rotor, ...duct]) solid.delete();
  });

  test('a joint keeps the slide fit of this printer, whatever it closes', () => {
    const wide = { ...divided, printer: { ...divided.printer, holeShrink_mm: 0.4 } };
    expect(jointGap(wide) - jointGap(divided)).toBeCloseTo(0.1e-3, 9);
    expect(jointGap(divided)).toBe(matingGap('slide', 0.064, divided.printer));
  });

  test('outside the wall nothing faces down flatter than 45 degrees but the ceiling of a pocket and the lip', () => {
    const flat: string[] = [];
    let slopes = 0;
    for (const kind of ['ductUpper', 'ductLower'] as const) {
      const { positions: p, indices, placement } = makePart(kernel, divided, kind);
      for (let t = 0; t < indices.length; t += 3) {
        const [a, b, c] = [0, 1, 2].map((k) => p.subarray(3 * indices[t + k], 3 * indices[t + k] + 3));
        const [u, v] = [[0, 1, 2].map((i) => b[i] - a[i]), [0, 1, 2].map((i) => c[i] - a[i])];
        const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
        const down = -n[2] / Math.hypot(...n);
        const [x, y, up] = [0, 1, 2].map((i) => (a[i] + b[i] + c[i]) / 3);
        const z = (placement[14] - up) / 1e3;
        const r = Math.hypot(x, y) / 1e3;
        if (down < 0.1 || up < 0.01 || r < wallOuterRadius(layout, z) + 2e-5) continue;
        slopes++;
        // Where the part lies y is turned over.
        const pocket = lugPlaces(layout, divided.fan).some(
          ({ angle, radius, pocketRadius }) =>
            Math.hypot(x / 1e3 - radius * Math.cos(angle), y / 1e3 + radius * Math.sin(angle)) <=
            pocketRadius + 1e-5,
        );
        if (down > Math.SQRT1_2 + 0.01 && !pocket)
          flat.push(`${kind} ${down.toFixed(2)} at ${up.toFixed(1)}`);
      }
    }
    expect(slopes).toBeGreaterThan(100);
    expect(flat).toEqual([]);
  });

  test('the slot lets leads through behind the vane and leaves joints and rim whole', () => {
    const slot = wireSlot(layout, divided.fan)!;
    const lower = placed(makePart(kernel, divided, 'ductLower'));
    const wall = 0.98e3 * layout.boreRadius;
    const through = (z: number) => firstMet(lower, 1e3 * z, slot.angle, wall);
    expect(through((slot.eavesZ + slot.bottomZ) / 2)).toBe(Infinity);
    expect(through(layout.exitZ - 0.0005)).toBeLessThan(Infinity);
    expect(through(ductJoints(layout, divided.fan)[1].footZ)).toBeLessThan(Infinity);
    expect(slot.topZ).toBeGreaterThan(layout.vaneBottomZ);
    lower.delete();
  });

  test('a screw goes through each lug, its head up into the pocket past the exit', () => {
    const lower = placed(makePart(kernel, divided, 'ductLower'));
    const lugs = lugPlaces(layout, divided.fan);
    expect(lugs).toHaveLength(4);
    for (const lug of lugs) {
      const at = (radius: number, from: number, to: number) => {
        const rod = kernel.Manifold.cylinder(1e3 * (to - from), 1e3 * radius, 1e3 * radius, 48);
        const moved = rod.translate([
          1e3 * lug.radius * Math.cos(lug.angle),
          1e3 * lug.radius * Math.sin(lug.angle),
          1e3 * from,
        ]);
        const common = moved.intersect(lower);
        const share = common.isEmpty() ? 0 : common.volume() / moved.volume();
        for (const solid of [rod, moved, common]) solid.delete();
        return share;
      };
      expect(at(divided.fan.duct.lugHole_mm / 2e3, lug.topZ - 0.005, lug.footZ + 0.005)).toBe(0);
      expect(at(lug.pocketRadius - 1e-5, lug.bottomZ + 1e-5, layout.exitZ + 0.005)).toBe(0);
      // What the screw clamps is there all round, and an arm lies on it freely.
      const around = 1 - (lug.holeRadius + 0.0001) ** 2 / lug.pocketRadius ** 2;
      expect(at(lug.pocketRadius, lug.topZ + 1e-5, lug.bottomZ - 1e-5)).toBeCloseTo(around, 2);
      expect(at(lug.halfWidth - 1e-5, lug.topZ - 0.002, lug.topZ - 1e-5)).toBe(0);
    }
    lower.delete();
  });
});
