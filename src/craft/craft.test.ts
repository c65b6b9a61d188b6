import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { driveAt, supplyAt } from '../drive/supply.ts';
import { projectSchema, type Project } from '../project/schema.ts';
import { printedVolumes } from '../shape/volumes.ts';
import { hoverEndurance } from './endurance.ts';
import { massItems, totalMass_g } from './mass.ts';

const demo: Project = projectSchema.parse(
  JSON.parse(
    readFileSync(
      new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url),
      'utf8',
    ),
  ),
);
const torque = 5.2e-3;
const omega = 1600;

test('hover time is charge over current, slice by slice: within 0.3 % of 200 slices', () => {
  const { minutes, failsAtCharge } = hoverEndurance(demo, torque, omega);
  const usable = demo.battery.usable_ratio;
  let seconds = 0;
  for (let i = 0; i < 200; i++) {
    const point = driveAt(supplyAt(demo, 1 - (usable * (i + 0.5)) / 200), torque, omega)!;
    const current = 4 * point.batteryCurrent + demo.craft.auxiliaryPower_W / point.batteryVoltage;
    seconds += (usable * demo.battery.capacity_mAh * 3.6) / 200 / current;
  }
  expect(Math.abs(minutes / (seconds / 60) - 1)).toBeLessThan(3e-3);
  expect(failsAtCharge).toBe(0);
});

test('a fan near the limit ends early, and says at which charge', () => {
  const heavy = hoverEndurance(demo, torque * 1.85, omega * 1.27);
  expect(heavy.failsAtCharge).toBeGreaterThan(1 - demo.battery.usable_ratio);
  expect(heavy.failsAtCharge).toBeLessThan(1);
  expect(driveAt(supplyAt(demo, heavy.failsAtCharge), torque * 1.85, omega * 1.27)!.throttle).toBeCloseTo(
    1,
    6,
  );
  expect(hoverEndurance(demo, torque * 4, omega * 1.8)).toEqual({ minutes: 0, failsAtCharge: 1 });
});

test('a cell is not taken below its cut-off: a pack of much resistance ends its flight early', () => {
  const battery = { ...demo.battery, usable_ratio: 1, cellResistance_mohm: 12 };
  const whole = hoverEndurance({ ...demo, battery }, torque, omega).minutes;
  const ideal = (hoverEndurance(demo, torque, omega).minutes / demo.battery.usable_ratio) * 1;
  expect(whole).toBeLessThan(ideal);
});

test('twice the capacity at the same mass: at least twice the time', () => {
  const battery = { ...demo.battery, capacity_mAh: demo.battery.capacity_mAh * 2 };
  expect(
    hoverEndurance({ ...demo, battery }, torque, omega).minutes / hoverEndurance(demo, torque, omega).minutes,
  ).toBeCloseTo(2, 9);
});

test('the mass is the sum of its rows, and an open fan has no duct row', () => {
  const volumes = printedVolumes(demo.fan, demo.motor);
  const items = massItems(demo, volumes);
  const duct = items.find((i) => i.name === 'duct')!;
  expect(duct.each_g).toBeCloseTo((volumes.duct + volumes.tailCone) * demo.material.density_kgpm3 * 1000, 9);
  expect(totalMass_g(items)).toBeCloseTo(
    items.reduce((s, i) => s + i.count * i.each_g, 0),
    9,
  );
  expect(
    massItems({ ...demo, fan: { ...demo.fan, kind: 'open' } }, volumes).map((i) => i.name),
  ).not.toContain('duct');
});
