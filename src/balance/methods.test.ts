import { describe, expect, it } from 'vitest';
import type { BalanceRun } from '../project/schema.ts';
import {
  drillDepth,
  knifeEdge,
  massAtRadius,
  sandedVolume,
  splitCorrection,
  tapeLength,
} from './correction.ts';
import {
  gmmFromKilogramMetres,
  permissibleEccentricity,
  permissibleUnbalance,
  shakingForce,
} from './grade.ts';
import { bestOrder, massVector } from './order.ts';
import { seededRandom } from '../numerics/random.ts';
import { readTrialRuns } from './trial-runs.ts';

const RPM = Math.PI / 30;

const run = (
  amplitude: number,
  trialMass_g = 0,
  trialAngle_deg = 0,
  phase_deg: number | null = null,
  trialRadius_mm = 10,
): BalanceRun => ({ amplitude, trialMass_g, trialRadius_mm, trialAngle_deg, phase_deg });

/** Readings of a rotor with a known unbalance, with an answer of the stand of `gain` turned by `lag`. */
function stand(
  unbalance: { amount: number; angle: number },
  places: readonly number[],
  { mass = 0.2, gain = 3, lag = 37, phase = false, noise = (): number => 0 } = {},
): BalanceRun[] {
  const at = (amount: number, angle_deg: number) => {
    const t = ((angle_deg + lag) * Math.PI) / 180;
    return { x: gain * amount * Math.cos(t), y: gain * amount * Math.sin(t) };
  };
  const v0 = at(unbalance.amount, unbalance.angle);
  return [null, ...places].map((place) => {
    const u = place === null ? { x: 0, y: 0 } : at(mass * 10, place);
    const [x, y] = [v0.x + u.x, v0.y + u.y];
    return run(
      Math.hypot(x, y) * (1 + noise()),
      place === null ? 0 : mass,
      place ?? 0,
      phase ? (Math.atan2(y, x) * 180) / Math.PI : null,
    );
  });
}

describe('grades', () => {
  it('gives the limits of the standard', () => {
    // Computed from G = e omega: 3000 rpm, G 6.3; a 20 g rotor at 40 000 rpm.
    expect(permissibleEccentricity(6.3, 3000 * RPM) * 1e6).toBeCloseTo(20.05, 2);
    expect(gmmFromKilogramMetres(permissibleUnbalance(0.02, 6.3, 40_000 * RPM))).toBeCloseTo(0.0301, 4);
    expect(gmmFromKilogramMetres(permissibleUnbalance(0.02, 16, 40_000 * RPM))).toBeCloseTo(0.0764, 4);
    expect(() => permissibleEccentricity(6.3, 0)).toThrow('above 0');
  });
  it('turns a gram at a metre at 10 rad/s into a tenth of a newton', () => {
    expect(shakingForce(0.001, 10)).toBeCloseTo(0.1, 12);
  });
});

describe('best order of weighed blades', () => {
  it('beats or meets every order, tried without any shortcut', () => {
    const random = seededRandom(7);
    for (const count of [2, 3, 4, 5, 6, 7]) {
      const masses = Array.from({ length: count }, () => 2 + 0.1 * random.normal());
      let least = Infinity;
      const all = (left: readonly number[], done: readonly number[]): void => {
        if (left.length === 0) least = Math.min(least, massVector(done).size);
        left.forEach((mass, i) => all(left.toSpliced(i, 1), [...done, mass]));
      };
      all(masses, []);
      const found = bestOrder(masses);
      expect(found.exact).toBe(true);
      expect(found.after.size).toBeCloseTo(least, 12);
      expect(found.order.toSorted((a, b) => a - b)).toEqual(masses.map((_, i) => i));
    }
  });
  it('sets equal pairs opposite each other and leaves nothing', () => {
    const found = bestOrder([2.1, 2.1, 1.9, 1.9]);
    expect(found.before.size).toBeGreaterThan(0.2);
    expect(found.after.size).toBeLessThan(1e-12);
    expect(found.order).toEqual([0, 2, 1, 3]);
  });
  it('comes near the exact order by exchanges, and far below the order of the bench', () => {
    const random = seededRandom(11);
    const masses = Array.from({ length: 9 }, () => 2 + 0.05 * random.normal());
    const exact = bestOrder(masses);
    const quick = bestOrder(masses, 8);
    expect(quick.exact).toBe(false);
    expect(quick.after.size).toBeGreaterThanOrEqual(exact.after.size - 1e-12);
    expect(quick.after.size).toBeLessThan(0.05 * quick.before.size);
    const many = bestOrder(Array.from({ length: 15 }, () => 2 + 0.05 * random.normal()));
    expect(many.exact).toBe(false);
    expect(many.after.size).toBeLessThan(0.01 * many.before.size);
    expect(many.order[0]).toBe(0);
  });
  it('refuses a single blade', () => {
    expect(() => bestOrder([2])).toThrow('two blades');
  });
});

describe('corrections', () => {
  const sum = (places: readonly number[], split: ReturnType<typeof splitCorrection>) => {
    const t = (place: number) => (places[place] * Math.PI) / 180;
    return {
      x: split.shares.reduce((s, one) => s + one.amount_gmm * Math.cos(t(one.place)), 0),
      y: split.shares.reduce((s, one) => s + one.amount_gmm * Math.sin(t(one.place)), 0),
    };
  };
  it('splits between the two neighbouring blades so that they add up to it', () => {
    for (const count of [3, 5, 7])
      for (const angle_deg of [0, 13, 100, 181, 275, 359.5]) {
        const places = Array.from({ length: count }, (_, i) => (360 * i) / count);
        const split = splitCorrection({ amount_gmm: 0.4, angle_deg }, places);
        const { x, y } = sum(places, split);
        expect(x).toBeCloseTo(0.4 * Math.cos((angle_deg * Math.PI) / 180), 10);
        expect(y).toBeCloseTo(0.4 * Math.sin((angle_deg * Math.PI) / 180), 10);
        expect(split.left_gmm).toBe(0);
        expect(split.shares.every((share) => share.amount_gmm > 0)).toBe(true);
      }
  });
  it('carries along two blades only what lies along them', () => {
    const split = splitCorrection({ amount_gmm: 2, angle_deg: 150 }, [0, 180]);
    expect(split.shares).toHaveLength(1);
    expect(split.shares[0].place).toBe(1);
    expect(split.shares[0].amount_gmm).toBeCloseTo(2 * Math.cos(Math.PI / 6), 10);
    expect(split.left_gmm).toBeCloseTo(1, 10);
    expect(splitCorrection({ amount_gmm: 2, angle_deg: 120 }, [0])).toEqual({ shares: [], left_gmm: 2 });
  });
  it('finds mass, drill depth, sanded volume and tape', () => {
    expect(massAtRadius(0.6, 12)).toBeCloseTo(0.05, 12);
    // 2 mm drill, 10 mm deep, 1250 kg/m3: 31.416 mm3, 39.27 mg
    expect(drillDepth(0.03927, 2, 1250)).toBeCloseTo(10, 3);
    expect(sandedVolume(0.0125, 1250)).toBeCloseTo(10, 10);
    expect(tapeLength(0.02, 2.5)).toBeCloseTo(8, 10);
    expect(knifeEdge(-90, 0.05, 12)).toEqual({ amount_gmm: 0.6000000000000001, angle_deg: 270 });
    expect(() => massAtRadius(1, 0)).toThrow('radius above 0');
  });
});

describe('trial runs', () => {
  const random = seededRandom(3);
  it('find a known unbalance, with and without phase, at any place', () => {
    for (let k = 0; k < 40; k++) {
      const unbalance = { amount: 0.3 + 4 * random.even(), angle: 360 * random.even() };
      const places = [0, 110 + 20 * random.even(), 230 + 20 * random.even()];
      for (const phase of [true, false]) {
        const found = readTrialRuns(stand(unbalance, phase ? [places[1]] : places, { phase }));
        if (!found.ok) throw new Error(found.message);
        expect(found.method).toBe(phase ? 'with phase' : 'without phase');
        expect(found.unbalance.amount_gmm).toBeCloseTo(unbalance.amount, 6);
        expect(Math.cos(((found.unbalance.angle_deg - unbalance.angle) * Math.PI) / 180)).toBeCloseTo(1, 9);
        if (!phase) expect(found.misfit).toBeLessThan(1e-6);
        else expect(found.misfit).toBeNull();
      }
    }
  });
  it('take unequal trial masses and more than three places', () => {
    const runs = stand({ amount: 1.4, angle: 200 }, [0, 90, 180, 270]);
    const heavier = stand({ amount: 1.4, angle: 200 }, [45], { mass: 0.35 })[1];
    const found = readTrialRuns([...runs, heavier]);
    if (!found.ok) throw new Error(found.message);
    expect(found.unbalance.amount_gmm).toBeCloseTo(1.4, 6);
    expect(found.unbalance.angle_deg).toBeCloseTo(200, 5);
    expect(found.circles).toEqual([]);
  });
  it('come within the noise of the readings and report it', () => {
    const noisy = seededRandom(5);
    const found = readTrialRuns(
      stand({ amount: 1.4, angle: 80 }, [0, 120, 240], { noise: () => 0.02 * noisy.normal() }),
    );
    if (!found.ok) throw new Error(found.message);
    expect(found.unbalance.amount_gmm).toBeGreaterThan(1.4 * 0.94);
    expect(found.unbalance.amount_gmm).toBeLessThan(1.4 * 1.06);
    expect(found.misfit).toBeGreaterThan(1e-4);
  });
  it('draw circles that meet at the meeting point', () => {
    const found = readTrialRuns(stand({ amount: 2, angle: 300 }, [0, 120, 240]));
    if (!found.ok) throw new Error(found.message);
    expect(found.circles).toHaveLength(3);
    for (const { x, y, radius } of found.circles)
      expect(Math.hypot(found.meeting.x - x, found.meeting.y - y)).toBeCloseTo(radius, 6);
  });
  it('refuse what leaves more than one answer, in one sentence', () => {
    const says = (runs: BalanceRun[]) => {
      const found = readTrialRuns(runs);
      return found.ok ? '' : found.message;
    };
    expect(says([])).toContain('as it came');
    expect(says([run(3), run(4)])).toContain('keep one');
    expect(says([run(0), run(4, 1)])).toContain('nothing to correct');
    expect(says([run(3)])).toContain('no run with a trial mass');
    expect(says([run(3), run(4, 1), run(5, 1, 120)])).toContain('three places');
    expect(says([run(3), run(4, 1), run(4, 1, 0), run(4, 1, 360)])).toContain('three different places');
    expect(says([run(3, 0, 0, 10), run(3, 1, 0, 10)])).toContain('changed nothing');
    expect(says([run(10), run(3, 1, 0), run(3, 1, 120), run(3, 1, 240)])).toContain('do not meet');
  });
});
