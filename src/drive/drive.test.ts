import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { projectSchema, type Project } from '../project/schema.ts';
import { packResistance, restVoltage } from './battery.ts';
import { motorConstants, motorCurrent, motorVoltage } from './motor.ts';
import { driveAt, speedAtThrottle, supplyAt } from './supply.ts';

const demo: Project = projectSchema.parse(
  JSON.parse(
    readFileSync(
      new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url),
      'utf8',
    ),
  ),
);

describe('motor', () => {
  const motor = motorConstants(demo.motor, 0);
  test('no load at the no-load voltage gives back the readings', () => {
    expect(motorCurrent(motor, 0, motor.noLoadSpeed)).toBeCloseTo(demo.motor.noLoadCurrent_A, 12);
    expect(motorVoltage(motor, demo.motor.noLoadCurrent_A, motor.noLoadSpeed)).toBeCloseTo(
      demo.motor.noLoadVoltage_V,
      9,
    );
  });
  test('copper 40 K warmer has 15.7 % more resistance (0.393 % a kelvin, IEC 60028)', () => {
    expect(motorConstants(demo.motor, 40).resistance / motor.resistance).toBeCloseTo(1.1572, 4);
  });
});

describe('battery', () => {
  test('rest voltage rises with charge for every chemistry', () => {
    for (const chemistry of ['lithium-polymer', 'lithium-polymer high voltage', 'lithium-ion'] as const) {
      let last = 0;
      for (let charge = 0; charge <= 1.0001; charge += 0.01) {
        const volts = restVoltage({ ...demo.battery, chemistry }, charge);
        expect(volts).toBeGreaterThan(last);
        last = volts;
      }
    }
  });
  test('cells side by side share the current', () => {
    const one = packResistance({ ...demo.battery, parallel: 1, leadResistance_mohm: 0 });
    expect(packResistance({ ...demo.battery, parallel: 2, leadResistance_mohm: 0 })).toBeCloseTo(one / 2, 12);
  });
});

describe('supply', () => {
  const supply = supplyAt(demo, 0.5);
  const torqueAt = (omega: number) => 2.05e-9 * omega * omega;

  test('speed at a throttle and throttle at that speed are each other back', () => {
    for (const throttle of [0.05, 0.3, 0.6, 0.85, 1]) {
      const omega = speedAtThrottle(supply, torqueAt, throttle);
      expect(driveAt(supply, torqueAt(omega), omega)?.throttle).toBeCloseTo(throttle, 9);
    }
  });

  test('energy: what leaves the cells is shaft power, copper, switches, idling and sag, to 1e-9', () => {
    const omega = 1700;
    const torque = torqueAt(omega);
    const point = driveAt(supply, torque, omega)!;
    const { fans, packResistance: pack, motor, switchResistance, auxiliaryPower } = supply;
    const total = fans * point.batteryCurrent + auxiliaryPower / point.batteryVoltage;
    const fromCells = supply.rest * total;
    const copper = point.motorCurrent ** 2 * motor.resistance;
    const idle = (omega / motor.velocityConstant) * point.motorCurrent - torque * omega;
    const switching = point.electricalPower - point.throttle * point.motorCurrent * point.batteryVoltage;
    const each = torque * omega + copper + point.motorCurrent ** 2 * switchResistance + idle + switching;
    expect(fans * each + auxiliaryPower + total ** 2 * pack).toBeCloseTo(fromCells, 8);
    expect(idle).toBeGreaterThan(0);
    expect(point.efficiency).toBeGreaterThan(0.5);
    expect(point.efficiency).toBeLessThan(1);
  });

  test('more sag, hotter copper, less charge: slower at full throttle', () => {
    const full = (project: Project, charge = 0.5) => speedAtThrottle(supplyAt(project, charge), torqueAt, 1);
    const base = full(demo);
    const battery = { ...demo.battery, cellResistance_mohm: demo.battery.cellResistance_mohm * 2 };
    const motor = { ...demo.motor, resistance_mohm: demo.motor.resistance_mohm * 1.2 };
    expect(full({ ...demo, battery })).toBeLessThan(base);
    expect(full({ ...demo, motor })).toBeLessThan(base);
    expect(full(demo, 0.1)).toBeLessThan(base);
  });

  test('a load past what the pack can feed has no throttle', () => {
    expect(driveAt(supply, 2, 1500)).toBeNull();
  });

  test('no throttle, no speed', () => {
    expect(speedAtThrottle(supply, torqueAt, 0)).toBe(0);
  });
});
