import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { projectSchema, type Fan } from '../project/schema.ts';
import { fanLayout } from '../shape/layout.ts';
import { atmosphere } from './atmosphere.ts';
import { runFan } from './fan.ts';
import { passageOf } from './passage.ts';
import { rotorOfFan } from './rotor.ts';
import {
  cylinderTorqueCoefficient,
  freeCylinderTorqueCoefficient,
  insideTorque,
  outsideTorque,
  ringLeak,
} from './tip-ring.ts';

const air = atmosphere(0);
const ring = { innerRadius: 0.0315, outerRadius: 0.0325, height: 0.005 };
const demo = projectSchema.parse(
  JSON.parse(readFileSync('examples/greenhouse-scout/greenhouse-scout.fanwright.json', 'utf8')),
);

/** The demo's fan, its duct moved out by the ring so that the gap stays. */
function run(change: Partial<Fan>, omega = 2500) {
  const fan: Fan = { ...demo.fan, ...change };
  const layout = fanLayout(fan, demo.motor);
  const passage =
    fan.kind === 'open' ? null : passageOf(fan, layout, air, 15, layout.boreRadius - layout.turningRadius);
  return runFan(rotorOfFan(fan), passage, air, { omega, axialSpeed: 0 });
}

describe('a cylinder turning in a shell', () => {
  test('slow: the closed solution of laminar flow between cylinders', () => {
    // M / L = 4 pi mu w R^2 Ro^2 / (Ro^2 - R^2)
    const [r, t, omega] = [0.03, 0.0003, 1];
    const outer = r + t;
    const exact = (4 * Math.PI * air.viscosity * omega * r ** 2 * outer ** 2) / (outer ** 2 - r ** 2);
    const got = outsideTorque({ innerRadius: 0, outerRadius: r, height: 1 }, t, air, omega);
    expect(got / exact).toBeCloseTo(1, 9);
  });

  test('the four ranges join within 12 % and fall all the way', () => {
    for (const edge of [64, 500, 1e4]) {
      const [below, above] = [0.999, 1.001].map((f) => cylinderTorqueCoefficient(edge * f, 0.05));
      expect(Math.abs(above / below - 1)).toBeLessThan(0.12);
    }
    let last = Infinity;
    for (let re = 1; re < 1e6; re *= 1.5) {
      const now = cylinderTorqueCoefficient(re, 0.03);
      expect(now).toBeLessThan(last * 1.07);
      last = now;
    }
  });

  test('without a shell: the implicit law holds for what comes out', () => {
    for (const re of [2e3, 1e5, 1e6]) {
      const c = freeCylinderTorqueCoefficient(re) / 2;
      expect(1 / Math.sqrt(c)).toBeCloseTo(-0.8572 + 1.25 * Math.log(re * Math.sqrt(c)), 4);
    }
  });

  test('the inside drags with the speed across it, and back where the air outruns it', () => {
    expect(insideTorque(ring, air, 15, 60)).toBeGreaterThan(insideTorque(ring, air, 15, 30));
    expect(insideTorque(ring, air, 15, -20)).toBeLessThan(0);
  });
});

describe('the leak past a ring', () => {
  test('grows with pressure and more than in step with the gap; none without either', () => {
    const leak = (gap: number, pressure: number) => ringLeak(ring, gap, air, pressure);
    expect(leak(0.0004, 300)).toBeGreaterThan(leak(0.0004, 150));
    expect(leak(0.0008, 150)).toBeGreaterThan(2 * leak(0.0004, 150));
    expect(leak(0, 150)).toBe(0);
    expect(leak(0.0004, 0)).toBe(0);
  });

  test('a gap too wide for friction lets through what an orifice with 1.5 heads would', () => {
    const wide = ringLeak({ ...ring, height: 1e-6 }, 0.001, air, 150);
    const orifice = 2 * Math.PI * ring.outerRadius * 0.001 * Math.sqrt((2 * 150) / air.density / 1.5);
    expect(wide / orifice).toBeCloseTo(1, 3);
  });
});

describe('a fan with a tip ring', () => {
  test('its power is all accounted for, in a duct and open', () => {
    for (const kind of ['ducted', 'open'] as const) {
      const fan = run({ kind, tipRing_mm: 1 });
      expect(Math.abs(fan.ledgerError / fan.shaftPower)).toBeLessThan(1e-6);
    }
  });

  test('the ring costs shaft torque: an open rotor keeps its thrust and pays what its law says', () => {
    const [bare, ringed] = [0, 1].map((tipRing_mm) => run({ kind: 'open', tipRing_mm }));
    expect(ringed.thrust).toBeCloseTo(bare.thrust, 9);
    const own = rotorOfFan({ ...demo.fan, tipRing_mm: 1 }).tipRing!;
    const tip = ringed.annuli[ringed.annuli.length - 1];
    const wanted =
      outsideTorque(own, null, air, 2500) +
      insideTorque(own, air, tip.axialVelocity, 2500 * own.innerRadius - tip.swirlVelocity);
    expect(ringed.torque - bare.torque).toBeCloseTo(wanted, 9);
    expect(wanted * 2500).toBeGreaterThan(0.2);
  });

  test('behind a wide gap less leaks past the ring than flows over open tips; near the wall its drag costs more', () => {
    const gapLoss = (tipRing_mm: number, tipGap_mm: number) => {
      const fan = run({ tipRing_mm, tipGap_mm });
      return fan.ledger.tipGap / fan.shaftPower;
    };
    const own = rotorOfFan({ ...demo.fan, tipRing_mm: 1 }).tipRing!;
    const fan = run({ tipRing_mm: 1, tipGap_mm: 3 });
    const outside = (outsideTorque(own, 0.003, air, 2500) * 2500) / fan.shaftPower;
    const tip = fan.annuli[fan.annuli.length - 1];
    const across = 2500 * own.innerRadius - tip.swirlVelocity;
    const inside = (insideTorque(own, air, tip.axialVelocity, across) * 2500) / fan.shaftPower;
    expect(gapLoss(1, 3) - outside - inside).toBeLessThan(gapLoss(0, 3));
    expect(gapLoss(1, 0.2)).toBeGreaterThan(gapLoss(0, 0.2));
  });

  test('a rotor that stands still has no ring drag', () => {
    expect(run({ tipRing_mm: 1 }, 0).ledger.tipGap).toBeCloseTo(0, 12);
  });
});
