import { expect, test } from 'vitest';
import { answersFrom } from '../assess/answers.ts';
import type { FanMap } from '../air/map.ts';
import { supplyAt } from '../drive/supply.ts';
import { shapeKeepingCubic } from '../numerics/interpolate.ts';
import type { Project } from '../project/schema.ts';
import { GRAVITY } from '../quantities/constants.ts';
import {
  batteryStudy,
  CONSTANT_EFFICIENCY_SHARE,
  constantEfficiencyTime,
  longestHover,
  resizedBattery,
  type BatteryChoice,
} from './battery-choice.ts';
import { peakOf } from './tried.ts';
import { demo } from '../../tests/demo.ts';

const study = batteryStudy(demo);

/** A fan of constant coefficients on a drive without losses: power is a constant times thrust^1.5. */
const constant = (value: number) => shapeKeepingCubic([0], [value]);
const map: FanMap = {
  thrustOverSquare: constant(3e-7),
  torqueOverSquare: constant(2.5e-9),
  massFlowOverSpeed: constant(1e-5),
  lowest: 10,
  highest: 20_000,
};

test('constant efficiency and no sag, through the same endurance: battery two thirds of the craft', () => {
  const bare = 0.1;
  const lossless: Project = {
    ...demo,
    craft: { ...demo.craft, auxiliaryPower_W: 0 },
    motor: { ...demo.motor, resistance_mohm: 0, noLoadCurrent_A: 0, velocityConstant_rpmPerV: 9000 },
    controller: { ...demo.controller, resistance_mohm: 0, switchingLoss_ratio: 0, rippleLoss_S: 0 },
    battery: { ...demo.battery, cellResistance_mohm: 0, leadResistance_mohm: 0 },
  };
  const choose = (factor: number): BatteryChoice => {
    const battery = resizedBattery(lossless.battery, factor);
    const project = { ...lossless, battery };
    const mass = bare + battery.mass_g / 1000;
    const answers = answersFrom(project, supplyAt(project, 0.5), map, (mass * GRAVITY) / 4);
    return {
      capacity_mAh: battery.capacity_mAh,
      mass_g: battery.mass_g,
      share: battery.mass_g / 1000 / mass,
      hover_min: answers.hoverMinutes,
      thrustToWeight: answers.thrustToWeight,
    };
  };
  const { curve, longest } = longestHover(choose);
  expect(longest!.share).toBeCloseTo(CONSTANT_EFFICIENCY_SHARE, 3);
  const scale = curve[10].hover_min / constantEfficiencyTime(curve[10].mass_g, 1000 * bare);
  for (const c of curve.filter((x) => x.thrustToWeight > 1.2))
    expect(c.hover_min / (scale * constantEfficiencyTime(c.mass_g, 1000 * bare))).toBeCloseTo(1, 6);
});

test('the closed form itself peaks at twice the bare mass', () => {
  const { x } = peakOf((m) => constantEfficiencyTime(m, 0.35), 0.01, 4, 1e-9);
  expect(x / 0.35).toBeCloseTo(2, 6);
});

test('a bigger battery flies longer until it does not, and always leaves less thrust over weight in the end', () => {
  const peak = study.curve.reduce((a, b) => (b.hover_min > a.hover_min ? b : a));
  const at = study.curve.indexOf(peak);
  for (let i = 1; i <= at; i++)
    expect(study.curve[i].hover_min).toBeGreaterThanOrEqual(study.curve[i - 1].hover_min);
  expect(at).toBeLessThan(study.curve.length - 1);
  expect(study.curve[study.curve.length - 1].hover_min).toBeLessThan(peak.hover_min);
  const large = study.curve.filter((c) => c.capacity_mAh > demo.battery.capacity_mAh);
  for (let i = 1; i < large.length; i++)
    expect(large[i].thrustToWeight).toBeLessThan(large[i - 1].thrustToWeight);
});

test('the real optimum lies below two thirds, keeps its margin where asked, and the price is the slope', () => {
  expect(study.longest!.share).toBeLessThan(study.shareWithoutResistance!);
  expect(study.shareWithoutResistance!).toBeLessThan(CONSTANT_EFFICIENCY_SHARE + 0.02);
  expect(study.longestKept!.thrustToWeight).toBeGreaterThanOrEqual(study.marginKept);
  expect(study.longestKept!.hover_min).toBeLessThanOrEqual(study.longest!.hover_min);
  const { battery_g } = study.nextMinute!;
  const more = batteryStudy({
    ...demo,
    battery: resizedBattery(demo.battery, 1 + (0.3 * battery_g) / demo.battery.mass_g),
  }).now;
  expect(more.hover_min - study.now.hover_min).toBeGreaterThan(0.2);
  expect(more.hover_min - study.now.hover_min).toBeLessThan(0.32);
});
