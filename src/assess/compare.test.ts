import { expect, test } from 'vitest';
import { setPath } from '../project/path.ts';
import { assess } from './assess.ts';
import { demo } from '../../tests/demo.ts';

test('the demo: more thrust from the same power, less power for the same thrust, both near momentum', () => {
  const { compare } = assess(demo).fan;
  expect(compare!.thrustAtEqualPower.ratio).toBeGreaterThan(1);
  expect(compare!.thrustAtEqualPower.ratio).toBeLessThan(1.94);
  expect(compare!.powerAtEqualThrust!.ratio).toBeLessThan(1);
  expect(compare!.powerAtEqualThrust!.ratio).toBeGreaterThan(0.38);
  expect(compare!.idealThrustRatio).toBeCloseTo(Math.cbrt(2 * 1.05), 2);
  expect(compare!.words).toContain('more thrust from the same shaft power');
});

test('a square lip and a wide gap: the duct pays less', () => {
  const poor = setPath(setPath(demo, 'fan.duct.lipRadius_mm', 0.5), 'fan.tipGap_mm', 2);
  const good = assess(demo).fan.compare!.thrustAtEqualPower.ratio;
  expect(assess(poor).fan.compare!.thrustAtEqualPower.ratio).toBeLessThan(good - 0.1);
});

test('an open fan has nothing to be compared with', () => {
  expect(assess(setPath(demo, 'fan.kind', 'open')).fan.compare).toBeNull();
});

test('an uneven inflow is fed to the blades', () => {
  const inflow = { radius: [0.0105, 0.032], ratio: [0.8, 1.1] };
  const fed = assess(demo, { inflow }).fan.hover!;
  const even = assess(demo).fan.hover!;
  expect(fed.annuli.axialVelocity_mps[0]).toBeLessThan(even.annuli.axialVelocity_mps[0]);
  expect(Math.abs(fed.ledgerError_W)).toBeLessThan(1e-6 * fed.shaftPower_W);
});
