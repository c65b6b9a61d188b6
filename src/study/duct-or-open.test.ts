import { expect, test } from 'vitest';
import { fanLayout } from '../shape/layout.ts';
import { ductedOfWidth, ductOrOpen, ringGuard, type WidthPair } from './duct-or-open.ts';
import { tryProject, turned } from './tried.ts';
import { demo } from '../../tests/demo.ts';

const study = ductOrOpen(demo);

test('both fill the same width: the duct by its rim, the open rotor by its tips', () => {
  for (const { outerWidth_mm, ducted, open } of study.pairs) {
    expect(open!.tipDiameter_mm).toBe(outerWidth_mm);
    const fan = ductedOfWidth(demo.fan, demo.motor, outerWidth_mm)!;
    expect(2000 * fanLayout(fan, demo.motor).outerRadius).toBeCloseTo(outerWidth_mm, 4);
    expect(ducted!.tipDiameter_mm).toBe(fan.tipDiameter_mm);
  }
  expect(ductedOfWidth(demo.fan, demo.motor, 24)).toBeNull();
});

test("the duct's mass is charged, and its smaller disc carries more", () => {
  for (const { ducted, open } of study.pairs) {
    expect(ducted!.mass_g).toBeGreaterThan(open!.mass_g);
    expect(ducted!.discLoading_Npm2).toBeGreaterThan(open!.discLoading_Npm2);
  }
});

test('each stands at its best angle within a degree', () => {
  const fan = ductedOfWidth(demo.fan, demo.motor, 83)!;
  const best = study.pairs.find((p) => p.outerWidth_mm === 83)!.ducted!;
  for (const step of [-3, 3]) {
    const other = tryProject({ ...demo, fan: turned(fan, best.angle_deg + step) });
    expect(other.answers.hoverMinutes).toBeLessThan(best.hover_min);
  }
});

test('break-even lies where the powers or thrusts really change sides', () => {
  for (const [list, ahead] of [
    [study.breakEven, (p: WidthPair) => p.open!.hoverPower_W! - p.ducted!.hoverPower_W!],
    [study.thrustBreakEven, (p: WidthPair) => p.ducted!.thrustToWeight - p.open!.thrustToWeight],
  ] as const)
    for (const { outerWidth_mm: width } of list) {
      const [below, above] = ductOrOpen(demo, {}, [width * 0.9, width * 1.1]).pairs;
      expect(ahead(below) * ahead(above)).toBeLessThan(0);
    }
  expect(study.thrustBreakEven.length).toBeGreaterThan(0);
});

test('a guard around the open rotor costs it', () => {
  const [bare] = ductOrOpen(demo, {}, [83]).pairs;
  const [guarded] = ductOrOpen(demo, { guard_g: 8 }, [83]).pairs;
  expect(guarded.open!.mass_g - bare.open!.mass_g).toBeCloseTo(32, 1);
  expect(guarded.open!.hover_min).toBeLessThan(bare.open!.hover_min);
  expect(guarded.ducted).toEqual(bare.ducted);
});

test('a ring guard is weighed by hand, takes room from the disc, and costs against the bare rotor', () => {
  const fan = { ...demo.fan, hubHeight_mm: 10, hubDiameter_mm: 20 };
  const made = {
    ...fan,
    duct: { ...fan.duct, wall_mm: 1 },
    stator: { ...fan.stator, vaneCount: 4, thickness_mm: 2, chord_mm: 8 },
  };
  const { mass_g, tipDiameter_mm } = ringGuard(
    { fan: made, material: { ...demo.material, density_kgpm3: 1000 } },
    102,
  );
  // Hoop pi 101 x 1 x 14 mm3, four struts of 40 x 2 x 4 mm3.
  expect(mass_g).toBeCloseTo((Math.PI * 101 * 14 + 4 * 40 * 8) / 1000, 9);
  expect(tipDiameter_mm).toBe(94);
  for (const { open, guarded } of study.pairs) {
    expect(guarded!.mass_g).toBeGreaterThan(open!.mass_g);
    expect(guarded!.tipDiameter_mm).toBeLessThan(open!.tipDiameter_mm);
    expect(guarded!.thrustToWeight).toBeLessThan(open!.thrustToWeight);
  }
  expect(study.words.join(' ')).toMatch(
    /ring guard .* about [\d.]+ g a fan .* In hover, each at its own weight, at 3 m over hard ground: \d+ dB/,
  );
  expect(study.here!.outerWidth_mm / (2000 * fanLayout(demo.fan, demo.motor).outerRadius)).toBeCloseTo(1, 0);
});
