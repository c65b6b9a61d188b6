import { expect, test } from 'vitest';
import { atmosphere } from './atmosphere.ts';
import { runFan } from './fan.ts';
import { fanMap, mapSpeedFor, mapThrust, mapTorque } from './map.ts';
import { rotorOfTable } from './rotor.ts';

const air = atmosphere(0);
const rotor = rotorOfTable(
  {
    radius: [0.011, 0.031],
    chord: [0.011, 0.01],
    angle: [0.75, 0.35],
    thickness: 0.09,
    camber: 0.05,
    camberPosition: 0.4,
  },
  5,
);

test('between its points the map is the fan, to 0.3 % in thrust and torque', () => {
  const map = fanMap(rotor, null, air, 3000);
  for (let omega = 320; omega < 3000; omega += 61) {
    const run = runFan(rotor, null, air, { omega, axialSpeed: 0 });
    expect(Math.abs(mapThrust(map, omega) / run.thrust - 1)).toBeLessThan(3e-3);
    expect(Math.abs(mapTorque(map, omega) / run.torque - 1)).toBeLessThan(3e-3);
  }
});

test('speed for a thrust and back', () => {
  const map = fanMap(rotor, null, air, 3000);
  const omega = mapSpeedFor(map, 0.7)!;
  expect(mapThrust(map, omega)).toBeCloseTo(0.7, 9);
  expect(mapSpeedFor(map, 0)).toBe(0);
});

test('a blade that only pushes up has no speed for any thrust', () => {
  const up = rotorOfTable(
    {
      radius: [0.011, 0.031],
      chord: [0.01, 0.01],
      angle: [-0.5, -0.3],
      thickness: 0.08,
      camber: 0,
      camberPosition: 0.5,
    },
    5,
  );
  expect(mapSpeedFor(fanMap(up, null, air, 3000), 0.7)).toBeNull();
});
