import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Fan } from '../project/schema.ts';
import { fanLayout } from '../shape/layout.ts';
import { atmosphere } from './atmosphere.ts';
import { runFan } from './fan.ts';
import { passageOf } from './passage.ts';
import { rotorOfFan } from './rotor.ts';
import { demo } from '../../tests/demo.ts';

const air = atmosphere(0);

const runOf = (fan: Fan, omega: number) => {
  const layout = fanLayout(fan, demo.motor);
  const passage = passageOf(fan, layout, air, 15, layout.boreRadius - layout.tipRadius);
  return runFan(rotorOfFan(fan), passage, air, { omega, axialSpeed: 0 });
};

/** Thrust from 10 W at the shaft [N]. */
function thrustAtPower(fan: Fan, power = 10): number {
  let omega = 1600;
  let run = runOf(fan, omega);
  for (let i = 0; i < 4; i++) {
    omega *= Math.cbrt(power / run.shaftPower);
    run = runOf(fan, omega);
  }
  return run.thrust;
}

const unit = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/**
 * Ordinary ducted fans about the demo's size, with lips worth having: a duct that costs more than it brings is better the
 * less hold it has, and nothing below is claimed of it.
 */
const fans = fc
  .record({
    tip: unit(60, 120),
    hub: unit(0.3, 0.5),
    blades: fc.integer({ min: 3, max: 9 }),
    chord: unit(0.12, 0.22),
    angle: unit(20, 28),
    thickness: unit(0.06, 0.12),
    camber: unit(0.03, 0.06),
    gap: unit(0.2, 0.6),
    lip: unit(0.07, 0.12),
    exit: unit(0.9, 1.1),
  })
  .map((d): Fan => ({
    ...demo.fan,
    section: { ...demo.fan.section, trailingEdge_mm: 0.05 },
    tipDiameter_mm: d.tip,
    hubDiameter_mm: d.hub * d.tip,
    bladeCount: d.blades,
    blade: [
      {
        span_ratio: 0,
        chord_mm: d.chord * d.tip * 0.9,
        angle_deg: d.angle + 20,
        thickness_ratio: d.thickness,
        camber_ratio: d.camber,
      },
      {
        span_ratio: 1,
        chord_mm: d.chord * d.tip,
        angle_deg: d.angle,
        thickness_ratio: d.thickness,
        camber_ratio: d.camber,
      },
    ],
    tipGap_mm: d.gap,
    duct: { ...demo.fan.duct, lipRadius_mm: d.lip * d.tip, length_mm: 0.6 * d.tip, exitAreaRatio: d.exit },
  }));

const holds = (property: (fan: Fan) => void) =>
  fc.assert(fc.property(fans, property), { numRuns: 150, seed: 2026, endOnFailure: true });

describe('as physics says, over 150 ordinary fans', () => {
  test('a wider gap never gives more thrust at the same power', () => {
    holds((fan) => {
      const thrust = [0, 0.2, 0.5, 1, 2].map((tipGap_mm) => thrustAtPower({ ...fan, tipGap_mm }));
      for (let i = 1; i < thrust.length; i++) expect(thrust[i]).toBeLessThan(thrust[i - 1] * (1 + 1e-6));
    });
  });

  test('between the sealed fan and the open rotor: a ring far away is an open rotor, within what their tip losses differ', () => {
    holds((fan) => {
      // Struts stay; they are thinned so that the open rotor, which has none, can be compared.
      const bare = { ...fan, stator: { ...fan.stator, vaneCount: 2, chord_mm: 1, thickness_mm: 0.4 } };
      const far = runOf({ ...bare, tipGap_mm: 5 * fan.tipDiameter_mm }, 1500);
      const open = runFan(rotorOfFan(fan), null, air, { omega: 1500, axialSpeed: 0 });
      expect(far.thrust / open.thrust).toBeGreaterThan(0.65);
      expect(far.thrust / open.thrust).toBeLessThan(1.35);
      expect(thrustAtPower({ ...bare, tipGap_mm: 0 })).toBeGreaterThan(
        thrustAtPower({ ...bare, tipGap_mm: 5 * fan.tipDiameter_mm }),
      );
    });
  });

  test('a rounder lip never costs thrust at the same power', () => {
    holds((fan) => {
      const thrust = [0, 0.02, 0.05, 0.1, 0.15].map((lip) =>
        thrustAtPower({ ...fan, duct: { ...fan.duct, lipRadius_mm: lip * fan.tipDiameter_mm } }),
      );
      for (let i = 1; i < thrust.length; i++) expect(thrust[i]).toBeGreaterThan(thrust[i - 1] * (1 - 1e-6));
    });
  });

  test('behind a round lip a narrowed exit costs thrust, one too steep to be filled gains no more', () => {
    holds((fan) => {
      const round = {
        ...fan.duct,
        lipRadius_mm: 0.15 * fan.tipDiameter_mm,
        length_mm: 0.8 * fan.tipDiameter_mm,
      };
      const at = (exitAreaRatio: number) => thrustAtPower({ ...fan, duct: { ...round, exitAreaRatio } });
      expect(at(1)).toBeGreaterThan(at(0.7));
      expect(at(2)).toBeLessThanOrEqual(at(1.9) * 1.02);
    });
  });

  test('thicker struts, a blunt hub end and a blunt back edge each cost thrust at the same power', () => {
    holds((fan) => {
      const base = thrustAtPower(fan);
      expect(thrustAtPower({ ...fan, stator: { ...fan.stator, thickness_mm: 4 } })).toBeLessThan(base);
      expect(thrustAtPower({ ...fan, duct: { ...fan.duct, tailCone: true } })).toBeGreaterThan(base);
      const blunt = {
        ...fan,
        section: { ...fan.section, trailingEdge_mm: 0.2 },
      };
      expect(thrustAtPower(blunt)).toBeLessThan(base);
    });
  });
});
