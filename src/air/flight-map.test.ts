import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { projectSchema } from '../project/schema.ts';
import { fanLayout } from '../shape/layout.ts';
import { atmosphere } from './atmosphere.ts';
import { runFan } from './fan.ts';
import { flightMap, mapAt } from './flight-map.ts';
import { fanMap, mapThrust, mapTorque } from './map.ts';
import { passageOf } from './passage.ts';
import { rotorOfFan } from './rotor.ts';

const demo = projectSchema.parse(
  JSON.parse(
    readFileSync(
      new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url),
      'utf8',
    ),
  ),
);
const air = atmosphere(0);
const rotor = rotorOfFan(demo.fan);
const layout = fanLayout(demo.fan, demo.motor);
const duct = passageOf(demo.fan, layout, air, 15, layout.boreRadius - layout.tipRadius);
const HIGHEST = 2700;

/** The same row of numbers from 0 to 1 in every run (Numerical Recipes' quick generator). */
function evenly(seed: number): () => number {
  let state = seed;
  return () => (state = (1664525 * state + 1013904223) % 2 ** 32) / 2 ** 32;
}

describe.each([
  ['in its duct', duct],
  ['open', null],
] as const)('the demo fan %s', (_name, passage) => {
  test.each([
    [0.25, [0.0012, 0.002, 0.001]],
    [0.5, [0.004, 0.008, 0.0025]],
    [0.8, [0.01, 0.01, 0.006]],
  ] as const)(
    'to an advance ratio of %d: thrust, torque and mass flow within %j of those at rest',
    (top, bounds) => {
      const next = evenly(7);
      const map = flightMap(rotor, passage, air, {
        highest: HIGHEST,
        axialTop: top * HIGHEST * rotor.tipRadius,
      });
      const worst = [0, 0, 0];
      for (let i = 0; i < 300; i++) {
        const omega = HIGHEST * 0.1 ** next();
        const axialSpeed = top * (1.2 * next() - 0.2) * omega * rotor.tipRadius;
        const fan = runFan(rotor, passage, air, { omega, axialSpeed });
        const rest = runFan(rotor, passage, air, { omega, axialSpeed: 0 });
        const read = mapAt(map, omega, axialSpeed);
        expect(read.within).toBe(true);
        expect(read.power).toBe(read.torque * omega);
        [
          (read.thrust - fan.thrust) / rest.thrust,
          (read.torque - fan.torque) / rest.torque,
          (read.massFlow - fan.massFlow) / rest.massFlow,
        ].forEach((error, k) => (worst[k] = Math.max(worst[k], Math.abs(error))));
      }
      worst.forEach((error, k) => expect(error).toBeLessThan(bounds[k]));
    },
  );

  test('at rest it is the map at rest', () => {
    const map = flightMap(rotor, passage, air, { highest: HIGHEST });
    const rest = fanMap(rotor, passage, air, HIGHEST);
    for (const omega of [300, 811, 2700]) {
      expect(mapAt(map, omega, 0).thrust).toBeCloseTo(mapThrust(rest, omega), 12);
      expect(mapAt(map, omega, 0).torque).toBeCloseTo(mapTorque(rest, omega), 12);
    }
  });

  test('outside: square law in speed, held in advance ratio, and it says so', () => {
    const map = flightMap(rotor, passage, air, { highest: HIGHEST, axialTop: 20 });
    const edge = mapAt(map, HIGHEST, 20);
    const twice = mapAt(map, 2 * HIGHEST, 40);
    expect(edge.within).toBe(true);
    expect(twice.within).toBe(false);
    expect(twice.thrust).toBeCloseTo(4 * edge.thrust, 12);
    expect(twice.massFlow).toBeCloseTo(2 * edge.massFlow, 12);
    expect(mapAt(map, HIGHEST, 30)).toEqual({ ...edge, within: false });
    expect(mapAt(map, 0, 5)).toEqual({ thrust: 0, torque: 0, power: 0, massFlow: 0, within: false });
  });
});

test('it is plain data', () => {
  const map = flightMap(rotor, duct, air, { highest: HIGHEST });
  const copy = structuredClone(map);
  expect(mapAt(copy, 1500, 6)).toEqual(mapAt(map, 1500, 6));
});

test('a reach of nothing is refused', () => {
  expect(() => flightMap(rotor, null, air, { highest: 0 })).toThrow(/highest speed above 0 rad/);
  expect(() => flightMap(rotor, null, air, { highest: 100, axialTop: 0 })).toThrow(/above 0 m\/s/);
});
