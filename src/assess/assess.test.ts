import { describe, expect, test } from 'vitest';
import { setPath } from '../project/path.ts';
import type { Project } from '../project/schema.ts';
import { GRAVITY } from '../quantities/constants.ts';
import { assess } from './assess.ts';
import { demo, heavyDemo } from '../../tests/demo.ts';

const base = assess(demo);
const ratio = (project: Project) => assess(project).craft.thrustToWeight;

describe('the demo', () => {
  test('lifts, with a modest margin and an interval about it', () => {
    expect(base.craft.lifts).toBe(true);
    expect(base.craft.thrustToWeight).toBeGreaterThan(1.3);
    expect(base.craft.thrustToWeight).toBeLessThan(2.2);
    const { value, low, high } = base.craft.thrustToWeightInterval;
    expect(low).toBeLessThan(value * 0.95);
    expect(high).toBeGreaterThan(value * 1.05);
    expect(base.remarks.filter((r) => r.weight === 'stop')).toEqual([]);
  });

  test('hover carries the weight, full throttle is full throttle, and the headline says what the numbers say', () => {
    const { hover, full, needed_N } = base.fan;
    expect(needed_N).toBeCloseTo(((base.craft.mass_g / 1000) * GRAVITY) / 4, 12);
    expect(hover!.thrust_N / needed_N).toBeCloseTo(1, 6);
    expect(full.throttle).toBeCloseTo(1, 6);
    expect(base.craft.thrustToWeight).toBeCloseTo(full.thrust_N / needed_N, 12);
    expect(base.craft.hoverThrottle).toBe(hover!.throttle);
    expect(base.verdict.headline).toContain(base.craft.thrustToWeight.toPrecision(3));
  });

  test('the ledger adds up at both points', () => {
    for (const point of [base.fan.hover!, base.fan.full]) {
      const sum = Object.values(point.losses_W).reduce((a, b) => a + b, 0);
      expect(Math.abs(point.shaftPower_W - sum)).toBeLessThan(1e-6 * point.shaftPower_W);
      expect(point.ledgerError_W).toBeCloseTo(point.shaftPower_W - sum, 12);
    }
  });

  test('asked for a throttle, gives that throttle', () => {
    const { atThrottle } = assess(demo, { throttle: 0.6 }).fan;
    expect(atThrottle!.throttle).toBeCloseTo(0.6, 6);
    expect(base.fan).not.toHaveProperty('atThrottle');
  });

  test('the curve rises, holds its interval, and ends at full throttle', () => {
    const { curve, full } = base.fan;
    curve.forEach((c, i) => {
      expect(c.thrustLow_N).toBeLessThan(c.thrust_N);
      expect(c.thrustHigh_N).toBeGreaterThan(c.thrust_N);
      if (i > 0) expect(c.thrust_N).toBeGreaterThan(curve[i - 1].thrust_N);
    });
    expect(curve.at(-1)!.thrust_N / full.thrust_N).toBeCloseTo(1, 3);
  });

  test('twice asked, the same to the last bit', () => {
    expect(assess(demo)).toEqual(base);
  });

  test('each help brings what it says', () => {
    expect(base.helps.length).toBeGreaterThan(0);
    for (const help of base.helps) {
      const changed = Object.entries(help.set).reduce((p, [path, value]) => setPath(p, path, value), demo);
      // Lines are found from one run and the map's shape; the full answer may differ by a point or two.
      expect(Math.abs(ratio(changed) / base.craft.thrustToWeight - 1 - help.gain)).toBeLessThan(0.02);
    }
  });
});

describe('directions', () => {
  test.each<[string, number | boolean, 'better' | 'worse']>([
    ['brief.payload_g', 120, 'worse'],
    ['brief.altitude_m', 2500, 'worse'],
    ['brief.airTemperature_C', 40, 'worse'],
    ['fan.tipDiameter_mm', 68, 'better'],
    ['fan.tipGap_mm', 1.5, 'worse'],
    ['fan.duct.lipRadius_mm', 1, 'worse'],
    ['battery.cellResistance_mohm', 60, 'worse'],
    ['motor.velocityConstant_rpmPerV', 2300, 'worse'],
    ['fan.stator.curved', true, 'better'],
    ['craft.tilt_deg', 15, 'worse'],
    ['battery.cellResistance_mohm', 6, 'better'],
  ])('%s = %s makes lifting %s', (path, value, way) => {
    const change = ratio(setPath(demo, path, value)) / base.craft.thrustToWeight - 1;
    if (way === 'better') expect(change).toBeGreaterThan(0.002);
    else expect(change).toBeLessThan(-0.002);
  });
});

test('a frosty day: denser air lifts more, stiff cells give less', () => {
  const cold = setPath(demo, 'brief.airTemperature_C', -15);
  const warmCells = setPath(cold, 'battery.cellResistance_mohm', 1);
  expect(ratio(cold)).toBeLessThan(ratio(warmCells) - 0.03);
});

describe('odd craft', () => {
  test('the sister demo does not lift, even at the kind end of its interval', () => {
    const { craft, verdict } = assess(heavyDemo);
    expect(craft.thrustToWeightInterval.high).toBeLessThan(1);
    expect(verdict.headline).toMatch(/^It does not lift/);
  });

  test('too heavy: says so, says why, no minutes', () => {
    const heavy = assess(setPath(demo, 'brief.payload_g', 600));
    expect(heavy.craft.lifts).toBe(false);
    expect(heavy.craft.hover_min).toBe(0);
    expect(heavy.verdict.headline).toMatch(/^It does not lift: 0\.\d+ times its weight/);
    expect(heavy.verdict.summary).toMatch(/Full throttle gives .* N a fan; hover needs .* N\./);
  });

  test('an open rotor runs by the same path', () => {
    const open = assess(setPath(demo, 'fan.kind', 'open'));
    expect(open.fan.openAtEqualPower).toBeNull();
    expect(open.fan.full.ductThrust_N).toBeCloseTo(0, 12);
    expect(open.craft.mass_g).toBeLessThan(base.craft.mass_g);
  });

  test('blades set the wrong way: no hover, plain words', () => {
    const wrong = demo.fan.blade.reduce(
      (p, s, i) => setPath(p, `fan.blade.${i}.angle_deg`, -s.angle_deg),
      demo,
    );
    const flipped = assess(wrong);
    expect(flipped.fan.hover).toBeNull();
    expect(flipped.craft.lifts).toBe(false);
    expect(flipped.verdict.summary).toContain('look at its angles');
  });

  test('a motor asked past its burst current is a stop', () => {
    const weak = assess(setPath(demo, 'motor.burstCurrent_A', 1.5));
    expect(weak.remarks.find((r) => r.weight === 'stop')?.text).toContain('it would burn');
  });

  test('a hub as wide as the tip stays an answer', () => {
    const filled = assess(setPath(demo, 'fan.hubDiameter_mm', 64));
    expect(filled.craft.lifts).toBe(false);
    expect(filled.remarks.some((r) => r.weight === 'stop')).toBe(true);
  });
});
