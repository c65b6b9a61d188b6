import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  PLAIN_DUCT,
  PLAIN_SECTION,
  fanSchema,
  motorSchema,
  projectSchema,
  type Fan,
  type Project,
} from '../project/schema.ts';
import { fieldMetas } from '../project/fields.ts';
import { geometryFaults } from './faults.ts';
import { fanLayout } from './layout.ts';
import {
  ductProfile,
  fanProfiles,
  hubProfile,
  passageRadius,
  revolvedVolume,
  type Profile,
} from './profiles.ts';
import { printedVolumes } from './volumes.ts';

const demo = projectSchema.parse(
  JSON.parse(readFileSync('examples/greenhouse-scout/greenhouse-scout.fanwright.json', 'utf8')),
);
// Dimensions of its own, so that the demo may be tuned.
const { motor, fan }: Pick<Project, 'motor' | 'fan'> = {
  motor: {
    ...demo.motor,
    canDiameter_mm: 18.2,
    canHeight_mm: 13.5,
    shaftDiameter_mm: 1.5,
    mountCircle_mm: 9,
    mountHoles: 4,
    mountScrew_mm: 2,
  },
  fan: {
    ...demo.fan,
    tipDiameter_mm: 76,
    hubDiameter_mm: 22,
    hubHeight_mm: 10,
    bladeCount: 5,
    section: { family: 'arc-plate', camberPosition_ratio: 0.5, trailingEdge_mm: 0.45, ...PLAIN_SECTION },
    blade: [
      { span_ratio: 0, chord_mm: 10, angle_deg: 45, thickness_ratio: 0.13, camber_ratio: 0.06 },
      { span_ratio: 1, chord_mm: 11, angle_deg: 20, thickness_ratio: 0.08, camber_ratio: 0.045 },
    ],
    duct: {
      lipRadius_mm: 8,
      length_mm: 40,
      wall_mm: 1,
      exitAreaRatio: 1.05,
      rotorDepth_mm: 6,
      tailCone: false,
      ...PLAIN_DUCT,
    },
    stator: { vaneCount: 4, chord_mm: 10, thickness_mm: 1.6, turn_deg: 25, curved: false },
  },
};
const withDuct = (duct: Partial<Fan['duct']>): Fan => ({ ...fan, duct: { ...fan.duct, ...duct } });

function isSimple(profile: Profile): boolean {
  const side = (a: number, b: number, c: number) =>
    (profile[b][0] - profile[a][0]) * (profile[c][1] - profile[a][1]) -
    (profile[c][0] - profile[a][0]) * (profile[b][1] - profile[a][1]);
  const n = profile.length;
  for (let i = 0; i < n; i++)
    for (let k = i + 2; k < n; k++) {
      const l = (k + 1) % n;
      if (l === i) continue;
      if (side(i, i + 1, k) * side(i, i + 1, l) < 0 && side(k, l, i) * side(k, l, i + 1) < 0) return false;
    }
  return true;
}

describe('profiles', () => {
  test('Pappus: a ring 3 high between radii 1 and 2', () => {
    const ring: Profile = [
      [0, 1],
      [0, 2],
      [3, 2],
      [3, 1],
    ];
    expect(revolvedVolume(ring)).toBeCloseTo(Math.PI * 9, 10);
  });

  test.each([0, 0.4, 1, 1.2, 3, 8, 20])(
    'the wall is a simple outline with a lip of %d mm',
    (lipRadius_mm) => {
      const layout = fanLayout(withDuct({ lipRadius_mm }), motor);
      const profile = ductProfile(layout, 12);
      expect(isSimple(profile)).toBe(true);
      expect(Math.min(...profile.map(([z]) => z))).toBeCloseTo(-lipRadius_mm * 1e-3, 9);
      expect(Math.max(...profile.map(([z]) => z))).toBeCloseTo(layout.exitZ, 9);
      expect(Math.min(...profile.map(([, r]) => r))).toBeCloseTo(layout.boreRadius, 9);
      expect(Math.max(...profile.map(([, r]) => r))).toBeCloseTo(layout.outerRadius, 5);
    },
  );

  test('the air side of the wall is the passage', () => {
    const layout = fanLayout(withDuct({ exitAreaRatio: 0.8 }), motor);
    for (const [z, r] of ductProfile(layout, 12)) expect(r).toBeGreaterThan(passageRadius(layout, z) - 1e-9);
    expect(passageRadius(layout, layout.exitZ)).toBeCloseTo(layout.exitRadius, 12);
    expect(passageRadius(layout, -0.008)).toBeCloseTo(layout.boreRadius + 0.008, 12);
  });

  test('an outline runs anticlockwise with r to the right and z up', () => {
    const { duct, hub, motor: can, seat, vane, blade } = fanProfiles(fan, motor);
    for (const profile of [duct, hub, can, seat, vane, blade]) {
      let twice = 0;
      profile!.forEach(([z, r], i) => {
        const [nextZ, nextR] = profile![(i + 1) % profile!.length];
        twice += r * nextZ - nextR * z;
      });
      expect(twice).toBeGreaterThan(0);
    }
  });

  test('a small hub is solid, a large one hollow', () => {
    const small = fanLayout({ ...fan, hubDiameter_mm: 8 }, motor);
    expect(hubProfile(small, small.shaftRadius)).toHaveLength(4);
    expect(hubProfile(fanLayout(fan, motor), 0.00075)).toHaveLength(8);
  });
});

describe('printedVolumes', () => {
  test('is quick enough for every assessment', () => {
    for (let i = 0; i < 200; i++) printedVolumes(fan, motor);
    // The quickest of many: other work on the machine only ever adds.
    let quickest = Infinity;
    for (let i = 0; i < 100; i++) {
      const start = performance.now();
      printedVolumes(fan, motor);
      quickest = Math.min(quickest, performance.now() - start);
    }
    expect(quickest).toBeLessThan(0.3);
  });

  test('an open fan has no duct part', () => {
    const open = printedVolumes({ ...fan, kind: 'open' }, motor);
    expect(open.duct).toBe(0);
    expect(open.rotor).toBe(printedVolumes(fan, motor).rotor);
  });

  test('a flat blade of constant section and no blend is area times height', () => {
    const bare: Fan = {
      ...fan,
      rootFillet_mm: 0,
      section: { ...fan.section, family: 'flat-plate', trailingEdge_mm: 1, ...PLAIN_SECTION },
      blade: [{ span_ratio: 0, chord_mm: 10, angle_deg: 30, thickness_ratio: 0.1, camber_ratio: 0 }],
    };
    // A 10 by 1 mm plate with a half-round nose, 27 mm long.
    const wanted = 5 * 27e-9 * (10 - 0.5 + (Math.PI * 0.5 ** 2) / 2);
    expect(printedVolumes(bare, motor).blades / wanted).toBeCloseTo(1, 2);
  });
});

describe('geometryFaults', () => {
  test('demo and test fan fit', () => {
    expect(geometryFaults(fan, motor)).toEqual([]);
    expect(geometryFaults(demo.fan, demo.motor)).toEqual([]);
  });

  test.each<[string, Partial<Fan>, string]>([
    ['hub wider than the tips', { hubDiameter_mm: 80 }, 'fan.hubDiameter_mm'],
    ['hub thinner than the shaft', { hubDiameter_mm: 2.5 }, 'fan.hubDiameter_mm'],
    ['hub lower than the blade root', { hubHeight_mm: 4 }, 'fan.hubHeight_mm'],
    ['too many blades', { bladeCount: 20, hubDiameter_mm: 14 }, 'fan.bladeCount'],
    ['lip longer than the duct', withDuct({ lipRadius_mm: 50 }), 'fan.duct.length_mm'],
    ['seat below the exit', withDuct({ length_mm: 34 }), 'fan.duct.length_mm'],
    ['vanes in the rotor', { stator: { ...fan.stator, chord_mm: 24 } }, 'fan.stator.chord_mm'],
    ['too many vanes', { stator: { ...fan.stator, vaneCount: 24, thickness_mm: 3 } }, 'fan.stator.vaneCount'],
    ['motor as wide as the duct', { tipDiameter_mm: 20, hubDiameter_mm: 12 }, 'motor.canDiameter_mm'],
  ])('%s', (_, change, path) => {
    const faults = geometryFaults({ ...fan, ...change }, motor);
    expect(faults.map((fault) => fault.path)).toContain(path);
    for (const { text } of faults) expect(text).toMatch(/^[A-Z0-9][^\n]*\.$/);
  });

  test('a sentence names the dimension and what would do', () => {
    expect(geometryFaults({ ...fan, hubDiameter_mm: 80 }, motor)[0].text).toBe(
      'The hub is 80.0 mm across and the tips 76.0 mm, which leaves no blade. A hub below 74.0 mm would do.',
    );
  });

  test('too many screw holes', () => {
    expect(geometryFaults(fan, { ...motor, mountHoles: 8, mountCircle_mm: 5 })[0].path).toBe(
      'motor.mountCircle_mm',
    );
  });
});

test('whatever numbers the file may hold: finite volumes and profiles, sentences without a NaN', () => {
  // Every number of motor and fan anywhere in its range, ends included.
  const vary = (value: unknown, schema: unknown): fc.Arbitrary<unknown> => {
    const shape = (schema as { shape?: Record<string, unknown> }).shape;
    if (shape && value && typeof value === 'object')
      return fc.record(
        Object.fromEntries(
          Object.entries(value).map(([key, inner]) => [key, vary(inner, unwrap(shape[key]))]),
        ),
      );
    if (Array.isArray(value)) {
      const element = unwrap((schema as { element: unknown }).element);
      return fc.array(vary(value[0], element), { minLength: 1, maxLength: 5 });
    }
    const meta = typeof value === 'number' ? fieldMetas.get(schema as never) : undefined;
    if (!meta) return typeof value === 'boolean' ? fc.boolean() : fc.constant(value);
    const { min, max } = meta;
    if (Number.isInteger(value) && (schema as { format?: string }).format === 'safeint')
      return fc.integer({ min, max });
    return fc.oneof(fc.constantFrom(min, max), fc.double({ min, max, noNaN: true }));
  };
  const unwrap = (schema: unknown): unknown => {
    const inner = (schema as { def?: { innerType?: unknown } }).def?.innerType;
    return inner ? unwrap(inner) : schema;
  };
  const any = fc.tuple(
    vary(fan, fanSchema) as fc.Arbitrary<Fan>,
    vary(motor, motorSchema) as fc.Arbitrary<Project['motor']>,
    fc.constantFrom('flat-plate' as const, 'arc-plate' as const, 'four-digit' as const),
  );
  let varied = 0;
  fc.assert(
    fc.property(any, ([wild, drive, family]) => {
      const odd: Fan = { ...wild, section: { ...wild.section, family } };
      if (odd.tipDiameter_mm !== fan.tipDiameter_mm) varied++;
      for (const volume of Object.values(printedVolumes(odd, drive))) {
        expect(volume).toBeGreaterThanOrEqual(0);
        expect(volume).toBeLessThan(Infinity);
      }
      const { layout, ...profiles } = fanProfiles(odd, drive);
      for (const profile of Object.values(profiles))
        for (const [z, r] of profile ?? []) expect(Number.isFinite(z + r)).toBe(true);
      expect(Number.isFinite(layout.outerRadius)).toBe(true);
      for (const { text } of geometryFaults(odd, drive)) expect(text).not.toMatch(/NaN|unknown|unlimited/);
    }),
    { seed: 3, numRuns: 500 },
  );
  expect(varied).toBeGreaterThan(450);
});
