import { describe, expect, it } from 'vitest';
import { atmosphere } from '../air/atmosphere.ts';
import { rotorOfTable } from '../air/rotor.ts';
import { namedSection } from './named-section.ts';
import { runRotor } from './single-fan.ts';

describe('namedSection', () => {
  it('reads the digits of NACA Report 460: camber, its place, thickness', () => {
    expect(namedSection('4412')).toMatchObject({
      family: 'four-digit',
      camber: 0.04,
      camberPosition: 0.4,
      thickness: 0.12,
    });
    expect(namedSection('NACA 0012')).toMatchObject({ camber: 0, thickness: 0.12, fromDigits: true });
    expect(namedSection('Arc-Plate')).toMatchObject({ family: 'arc-plate', camber: 0.05, fromDigits: false });
  });
  it('does not guess', () => {
    for (const name of ['', '44120', '4400', '4012', 'plate', 'constructor'])
      expect(namedSection(name)).toBeNull();
  });
});

describe('runRotor', () => {
  const rotor = rotorOfTable(
    {
      radius: [0.01, 0.04, 0.0635],
      chord: [0.012, 0.011, 0.006],
      angle: [0.6, 0.3, 0.2],
      thickness: 0.1,
      camber: 0.03,
      camberPosition: 0.4,
    },
    2,
  );
  it('keeps its two kinds of coefficients in their fixed ratios, pi^3/4 and pi^4/4', () => {
    const run = runRotor(rotor, null, atmosphere(0), 6000);
    expect(run.ct! / run.ctRotor!).toBeCloseTo(Math.PI ** 3 / 4, 10);
    expect(run.cp! / run.cpRotor!).toBeCloseTo(Math.PI ** 4 / 4, 10);
    expect(run.tipDiameter_mm).toBeCloseTo(127, 10);
  });
  it('gives less thrust in air that comes toward it', () => {
    const at = (speed: number) => runRotor(rotor, null, atmosphere(0), 6000, speed).thrust_N;
    expect(at(3)).toBeLessThan(at(0));
    expect(at(6)).toBeLessThan(at(3));
  });
});
