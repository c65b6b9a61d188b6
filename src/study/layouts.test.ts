import { expect, test } from 'vitest';
import { assess } from '../assess/assess.ts';
import { compareStands, craftInStand, frameMass, variantStands } from './layouts.ts';
import { demo } from '../../tests/demo.ts';

const results = compareStands(demo);
const of = (fanCount: number, layout: string, battery = 'middle') =>
  results.find((r) => r.fanCount === fanCount && r.layout === layout && r.battery === battery)!;

test('the present stand is the craft as assessed', () => {
  const own = of(4, 'ring');
  const { craft } = assess(demo);
  expect(own.mass_g).toBeCloseTo(craft.mass_g, 9);
  expect(own.hover_min / craft.hover_min).toBeCloseTo(1, 2);
  expect(own.thrustToWeight / craft.thrustToWeight).toBeCloseTo(1, 2);
});

test('more fans: heavier and wider, and each carries less', () => {
  for (const [few, many] of [
    [3, 4],
    [4, 6],
    [6, 8],
  ] as const) {
    expect(of(many, 'ring').mass_g).toBeGreaterThan(of(few, 'ring').mass_g);
    expect(of(many, 'ring').circle_mm).toBeGreaterThan(of(few, 'ring').circle_mm);
  }
});

test('what each stand cannot steer, and what battery pieces between the fans do to the inertia', () => {
  expect(of(3, 'ring').without).toEqual(['yaw']);
  expect(of(4, 'row').without).toEqual(['pitch']);
  for (const n of [4, 6]) {
    const [middle, between] = [of(n, 'ring'), of(n, 'ring', 'between')];
    expect(between.mass_g).toBe(middle.mass_g);
    expect(between.acceleration_radps2.roll).toBeLessThan(middle.acceleration_radps2.roll);
  }
});

test('arms: twice the length is twice the mass while thin, and more once the moment sizes them', () => {
  expect(frameMass([0.1], 0.1, demo.material) / frameMass([0.05], 0.1, demo.material)).toBeCloseTo(2, 9);
  expect(frameMass([0.4], 40, demo.material) / frameMass([0.2], 40, demo.material)).toBeCloseTo(2 ** 1.5, 9);
  // A tube at its own limit: stress M / (4/3 b^2 t) is a quarter of the strength.
  const side = frameMass([0.4], 40, demo.material) / (4 * 0.0012 * 0.4 * demo.material.density_kgpm3);
  expect((40 * 0.4) / ((4 / 3) * side ** 2 * 0.0012) / 1e6).toBeCloseTo(
    demo.material.strengthAcrossLayers_MPa / 4,
    9,
  );
});

test('a stand taken into the project weighs there what it was said to, arms included', () => {
  for (const stand of [
    of(6, 'ring'),
    of(3, 'ring'),
    of(4, 'row'),
    ...compareStands(demo, variantStands(demo)),
  ]) {
    const craft = craftInStand(demo, stand);
    expect(assess({ ...demo, craft }).craft.mass_g).toBeCloseTo(stand.mass_g, 0);
    expect([craft.ductSpacing_mm, craft.tilt_deg]).toEqual([stand.ductSpacing_mm, stand.tilt_deg]);
  }
  const six = craftInStand(demo, of(6, 'ring')).fixedMasses;
  expect(six[1].mass_g).toBeCloseTo(36 + of(6, 'ring').armsChange_g, 1);
  const bare = { ...demo, craft: { ...demo.craft, fixedMasses: [{ name: 'flight controller', mass_g: 9 }] } };
  expect(craftInStand(bare, of(6, 'ring')).fixedMasses.at(-1)!.name).toBe(
    'arms, more than before (estimate)',
  );
  expect(craftInStand(bare, of(3, 'ring')).fixedMasses).toHaveLength(1);
});

test('variants part the ducts and lean them, or undo both where they are so already; wider is heavier', () => {
  const [wide, leaning] = compareStands(demo, variantStands(demo));
  expect(wide.circle_mm).toBeGreaterThan(of(4, 'ring').circle_mm);
  expect(wide.armsChange_g).toBeGreaterThan(0);
  expect(wide.words).toContain('mm apart');
  expect(leaning.thrustToWeight).toBeLessThan(of(4, 'ring').thrustToWeight);
  const far = { ...demo, craft: { ...demo.craft, ductSpacing_mm: 40, tilt_deg: 6 } };
  expect(variantStands(far).map((s) => s.ductSpacing_mm ?? s.tilt_deg)).toEqual([4, 0]);
});
