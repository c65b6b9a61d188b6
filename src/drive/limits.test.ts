import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { batteries } from '../project/catalogue.ts';
import { projectSchema, type Project } from '../project/schema.ts';
import {
  chargeAtCutOff,
  coldFactor,
  packResistance,
  restVoltage,
  typicalCellResistance,
  usableShare,
} from './battery.ts';
import { driveLimits, type FanLoad, type LimitOptions } from './limits.ts';
import { driveAt, speedAtThrottle, supplyAt } from './supply.ts';
import { motorHeat, steadyHeat, timeToHeat, type HeatLoad } from './thermal.ts';

const demo: Project = projectSchema.parse(
  JSON.parse(
    readFileSync(
      new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url),
      'utf8',
    ),
  ),
);
/** A square-law fan that hovers near 1600 rad/s. */
const fan: FanLoad = {
  torqueAt: (w) => 2.05e-9 * w * w,
  thrustAt: (w) => 2.6e-7 * w * w,
  airSpeedAt: (w) => 0.006 * w,
};
const options: LimitOptions = { air_C: 26, hoverSpeed: 1600 };

describe('battery', () => {
  test('the cold: twice the resistance at 0 °C, four to six times at -20 °C, the leads unmoved', () => {
    expect(coldFactor(20)).toBe(1);
    expect(coldFactor(0)).toBeGreaterThan(2);
    expect(coldFactor(0)).toBeLessThan(2.2);
    expect(coldFactor(-20)).toBeGreaterThan(4);
    expect(coldFactor(-20)).toBeLessThan(6);
    const leads = demo.battery.leadResistance_mohm / 1000;
    expect((packResistance(demo.battery, 0) - leads) / (packResistance(demo.battery) - leads)).toBeCloseTo(
      coldFactor(0),
      12,
    );
  });
  test('every cell of the catalogue lies within the usual spread of its size', () => {
    for (const { id, part } of batteries) {
      const { low, high } = typicalCellResistance(part.chemistry, part.capacity_mAh, part.dischargeLimit_C);
      expect(part.cellResistance_mohm, id).toBeGreaterThan(low);
      expect(part.cellResistance_mohm, id).toBeLessThan(high);
    }
  });
  test('at the cut-off the sagged pack shows the cut-off voltage', () => {
    const charge = chargeAtCutOff(demo.battery, 30);
    expect(restVoltage(demo.battery, charge) - 30 * packResistance(demo.battery)).toBeCloseTo(
      demo.battery.cells * 3.3,
      9,
    );
    expect(chargeAtCutOff(demo.battery, 0, 20, 3)).toBe(0);
    expect(chargeAtCutOff(demo.battery, 500)).toBe(1);
  });
  test('more current or colder cells never leave more of the charge', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 60, noNaN: true }),
        fc.double({ min: -30, max: 60, noNaN: true }),
        (current, cell) => {
          const share = usableShare(demo.battery, current, cell);
          expect(share).toBeGreaterThanOrEqual(0);
          expect(share).toBeLessThanOrEqual(demo.battery.usable_ratio);
          expect(usableShare(demo.battery, current + 1, cell)).toBeLessThanOrEqual(share);
          expect(usableShare(demo.battery, current, cell - 1)).toBeLessThanOrEqual(share);
        },
      ),
    );
  });
});

describe('supply', () => {
  const full = (project: Project, day = {}) => speedAtThrottle(supplyAt(project, 0.5, day), fan.torqueAt, 1);
  test('colder cells, hotter copper, longer leads: slower at full throttle; cells side by side: faster', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 50, noNaN: true }), (step) => {
        expect(full(demo, { cell_C: 20 - step })).toBeLessThan(full(demo));
        expect(full(demo, { windingRise: 40 + step })).toBeLessThan(full(demo));
        const battery = { ...demo.battery, leadResistance_mohm: demo.battery.leadResistance_mohm + step };
        expect(full({ ...demo, battery })).toBeLessThan(full(demo));
      }),
      { numRuns: 30 },
    );
    expect(full({ ...demo, battery: { ...demo.battery, parallel: 2 } })).toBeGreaterThan(full(demo));
  });
  test('ripple costs at part throttle and nothing at full; throttle and speed are still each other back', () => {
    const plain = supplyAt(demo, 0.5);
    const rippled = { ...plain, rippleLoss: 0.8 };
    const omega = 1500;
    const [a, b] = [plain, rippled].map((s) => driveAt(s, fan.torqueAt(omega), omega)!);
    const { throttle, batteryVoltage } = b;
    expect(b.efficiency).toBeLessThan(a.efficiency);
    const each = throttle * b.motorCurrent * (1 + plain.switchingLoss * (1 - throttle));
    expect(b.electricalPower - each * batteryVoltage).toBeCloseTo(
      0.8 * (batteryVoltage * throttle * (1 - throttle)) ** 2,
      9,
    );
    const total = plain.fans * b.batteryCurrent + plain.auxiliaryPower / batteryVoltage;
    expect(batteryVoltage + total * plain.packResistance).toBeCloseTo(plain.rest, 9);
    expect(speedAtThrottle(rippled, fan.torqueAt, throttle)).toBeCloseTo(omega, 6);
    expect(speedAtThrottle(rippled, fan.torqueAt, 1)).toBeCloseTo(speedAtThrottle(plain, fan.torqueAt, 1), 6);
  });
  test('more of the no-load loss steady: more current below the speed it was read at', () => {
    const current = (share: number) =>
      driveAt(supplyAt({ ...demo, motor: { ...demo.motor, noLoadSteady_ratio: share } }, 0.5), 1e-3, 900)!
        .motorCurrent;
    expect(current(0.9)).toBeGreaterThan(current(0.1));
  });
});

describe('winding heat', () => {
  const load: HeatLoad = { current: 3, resistance: 0.19, idleLoss: 1, air_C: 20 };
  const heat = motorHeat(demo.motor, 10);

  test('what is put in leaves through the case: heat balances at the steady state', () => {
    const { winding_C, case_C } = steadyHeat(heat, load)!;
    const put = 9 * 0.19 * (1 + 0.00393 * (winding_C - 20)) + 1;
    expect((case_C - 20) / heat.caseToAir).toBeCloseTo(put, 9);
    expect((winding_C - case_C) / heat.windingToCase).toBeCloseTo(put, 9);
  });
  test('time to a limit tends to the closed form of one lump where the case is held cold', () => {
    const one = { ...heat, caseCapacity: 1e6, caseToAir: 1e-6 };
    const flat: HeatLoad = { ...load, current: 0, idleLoss: 6 };
    const top = 20 + 6 * one.windingToCase;
    const limit = 20 + 0.7 * (top - 20);
    const tau = one.windingCapacity * one.windingToCase;
    expect(timeToHeat(one, flat, limit)! / (-tau * Math.log(0.3))).toBeCloseTo(1, 3);
  });
  test('all heat kept: time is heat capacity times rise over power', () => {
    const kept = { ...heat, windingToCase: 1e9 };
    const flat: HeatLoad = { ...load, current: 0, idleLoss: 6 };
    expect(timeToHeat(kept, flat, 120)!).toBeCloseTo((heat.windingCapacity * 100) / 6, 3);
  });
  test('a higher limit takes longer, a winding already there no time', () => {
    const hot: HeatLoad = { ...load, current: 9 };
    const times = [100, 110, 120].map((limit) => timeToHeat(heat, hot, limit)!);
    expect(times[0]).toBeLessThan(times[1]);
    expect(times[1]).toBeLessThan(times[2]);
    expect(timeToHeat(heat, hot, 120, { winding_C: 120, case_C: 60 })).toBe(0);
  });
  test('more current, less air, less mass: hotter and sooner', () => {
    const steady = (h = heat, l = load) => steadyHeat(h, l)!.winding_C;
    expect(steady(heat, { ...load, current: 3.1 })).toBeGreaterThan(steady());
    expect(steady(motorHeat(demo.motor, 5))).toBeGreaterThan(steady());
    const hot = { ...load, current: 8 };
    const light = motorHeat({ ...demo.motor, mass_g: 5 }, 10);
    expect(timeToHeat(light, hot)!).toBeLessThan(timeToHeat(heat, hot)!);
  });
  test('copper that gains more loss than it sheds never settles, and still has a time to its limit', () => {
    const wild: HeatLoad = { ...load, current: 25 };
    expect(steadyHeat(heat, wild)).toBeNull();
    expect(timeToHeat(heat, wild)).toBeGreaterThan(0);
    expect(timeToHeat(heat, load)).toBeNull();
  });
});

describe('limits along the throttle', () => {
  const answer = driveLimits(demo, fan, options);

  test('at the throttle where a limit binds, what it limits is at its limit', () => {
    const weak: Project = { ...demo, motor: { ...demo.motor, continuousCurrent_A: 2, burstCurrent_A: 2.5 } };
    const { limits, first } = driveLimits(weak, fan, options);
    expect(first?.kind).toBe('motor continuous');
    const supply = supplyAt(weak, 0.5);
    for (const kind of ['motor continuous', 'motor burst'] as const) {
      const { at, limit } = limits.find((l) => l.kind === kind)!;
      const omega = speedAtThrottle(supply, fan.torqueAt, at!.throttle);
      expect(driveAt(supply, fan.torqueAt(omega), omega)!.motorCurrent).toBeCloseTo(limit, 4);
      expect(at!.thrust_N).toBeCloseTo(fan.thrustAt(omega), 9);
    }
  });
  test.each([
    [
      'controller',
      { controller: { ...demo.controller, continuousCurrent_A: 1 } },
      /^The controller's current binds first, 1\.00 A at \d+\s% throttle/,
    ],
    [
      'cell current',
      { battery: { ...demo.battery, dischargeLimit_C: 3 } },
      /^The battery's current binds first, .*catch fire/,
    ],
    ['motor continuous', { motor: { ...demo.motor, continuousCurrent_A: 1 } }, /below the \d+\s% of hover/],
  ] as const)('%s is named where it binds', (kind, change, words) => {
    const { first, words: said } = driveLimits({ ...demo, ...change }, fan, options);
    expect(first?.kind).toBe(kind);
    expect(said.join(' ')).toMatch(words);
  });
  test('a rotor that stands little speed binds at that speed', () => {
    const { first } = driveLimits(demo, fan, { ...options, strengthLimit_rpm: 12_000 });
    expect(first?.kind).toBe('rotor strength');
    expect(first!.at!.rpm).toBeCloseTo(12_000, 0);
  });
  test('the hot winding is found in a motor whose can is small for its currents', () => {
    const motor = { ...demo.motor, continuousCurrent_A: 90, burstCurrent_A: 90, resistance_mohm: 900 };
    const { first, heat } = driveLimits(
      { ...demo, motor },
      { ...fan, torqueAt: (w) => 6e-9 * w * w, airSpeedAt: () => 0 },
      options,
    );
    expect(first?.kind).toBe('winding temperature');
    expect(heat.full.timeToLimit_s.value).not.toBeNull();
    expect(heat.full.timeToLimit_s.high ?? Infinity).toBeGreaterThan(heat.full.timeToLimit_s.value!);
  });
  test('the demo with nothing bound says so, with intervals that hold their middle', () => {
    expect(answer.first).toBeNull();
    expect(answer.words[0]).toMatch(/^Nothing binds up to full throttle/);
    const { low, value, high } = answer.heat.full.steady_C!;
    expect(low).toBeLessThan(value);
    expect(value).toBeLessThan(high);
    expect(answer.heat.full.steady_C!.value).toBeGreaterThan(answer.heat.hover!.steady_C!.value);
  });
  test.each([null, 4000])('no hover, or one past full throttle: no hover figures (%s)', (hoverSpeed) => {
    const { heat, hoverThrottle } = driveLimits(demo, fan, { ...options, hoverSpeed });
    expect([heat.hover, hoverThrottle]).toEqual([null, null]);
  });
});
