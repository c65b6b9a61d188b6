import { describe, expect, it } from 'vitest';
import { cylinderVelocity } from './cylinder.ts';
import { WAKE_CUT } from './hover.ts';
import { layWake, wakeInfluence, type Wake } from './influence.ts';
import { equivalentTwist_deg, tipDepth, wakePath, type WakePath } from './path.ts';
import { emptyFilament } from './segment.ts';
import { tipDrift } from './settle.ts';

describe('semi-infinite vortex cylinder', () => {
  it('on the axis is (1 - depth / sqrt(depth^2 + a^2)) / 2', () => {
    for (const depth of [0.1, 1, 5])
      expect(cylinderVelocity(0.8, depth, 0)).toBeCloseTo((1 - depth / Math.hypot(depth, 0.8)) / 2, 12);
  });

  it('off the axis is the sum of its rings', () => {
    const ringAxial = (a: number, z: number, r: number) => {
      let v = 0;
      const n = 400;
      for (let k = 0; k < n; k++) {
        const c = Math.cos((2 * Math.PI * k) / n);
        const s2 = z * z + a * a + r * r - 2 * a * r * c;
        v += (a * (a - r * c)) / s2 ** 1.5;
      }
      return v / n / 2;
    };
    for (const r of [0.4, 0.8, 1.1]) {
      let sum = 0;
      let z = 0.5;
      const step = 0.01;
      for (; z < 60; z += step) sum += ringAxial(0.8, z + step / 2, r) * step;
      sum += 0.8 ** 2 / 4 / z ** 2;
      expect(cylinderVelocity(0.8, 0.5, r)).toBeCloseTo(sum, 4);
    }
  });
});

/** A helix of even pitch that does not draw in. */
function evenPath(blades: number, pitch: number): WakePath {
  return {
    firstPassage: (2 * Math.PI) / blades,
    contraction: 1,
    rate: 0.3,
    tipFirst: pitch,
    tipLater: pitch,
    rimFirst: pitch,
    rimLater: pitch,
    axisLater: pitch,
  };
}

/** Mean inflow over the disc, mid-span inflow and mid-span swirl of even circulation, over their momentum values. */
function evenWake(blades: number, pitch: number, turns: number, finer = 1) {
  const n = 20;
  const root = 0.1;
  const r = Float64Array.from({ length: n }, (_, i) => root + ((1 - root) * (i + 0.5)) / n);
  const edges = Float64Array.from({ length: n + 1 }, (_, i) => root + ((1 - root) * i) / n);
  const cut = {
    ...WAKE_CUT,
    tipTurns: turns,
    sheetTurns: turns,
    stepNear: WAKE_CUT.stepNear / finer,
    stepFar: WAKE_CUT.stepFar / finer,
  };
  const part = wakeInfluence(layWake(evenPath(blades, pitch), blades, edges, cut), r);
  const m = n + 1;
  let flow = 0;
  let area = 0;
  const axial = [...r].map((_, i) => part.tipAxial[i] + part.outerAxial[i * m + n] - part.sheetAxial[i * m]);
  const swirl = [...r].map((_, i) => part.tipSwirl[i] + part.outerSwirl[i * m + n] - part.sheetSwirl[i * m]);
  for (let i = 0; i < n; i++) {
    flow += axial[i] * r[i];
    area += r[i];
  }
  const unit = blades / (4 * Math.PI * pitch);
  return {
    mean: flow / area / unit,
    middle: axial[10] / unit,
    swirl: (swirl[10] * 4 * Math.PI * r[10]) / blades,
  };
}

describe('laid wake', () => {
  it('even circulation in an even helix gives half of the far velocity at the disc, as momentum theory says', () => {
    for (const blades of [2, 4, 8, 16]) {
      const { mean, middle } = evenWake(blades, 0.05, 6);
      console.warn(
        `even wake, ${blades} blades: inflow over momentum ${mean.toFixed(4)}, mid-span ${middle.toFixed(4)}`,
      );
      expect(Math.abs(middle - 1)).toBeLessThan(0.006);
    }
    // Straight pieces cut the corners of the helix: the whole flow falls short by their area, as the square of the step.
    const short = [1, 2, 4].map((finer) => Math.abs(evenWake(16, 0.05, 6, finer).mean - 1));
    console.warn(
      `even wake, 16 blades: flow short by ${short.map((x) => x.toFixed(4)).join(', ')} at 1, 1/2, 1/4 step`,
    );
    expect(short[0]).toBeLessThan(0.02);
    expect(short[2]).toBeLessThan(short[0] / 2);
  });

  it('gives half of the swirl that angular momentum asks for behind it', () => {
    expect(evenWake(8, 0.1, 6).swirl).toBeCloseTo(1, 2);
  });

  it('barely changes with the number of turns drawn before the cylinders', () => {
    expect(Math.abs(evenWake(2, 0.05, 3).middle / evenWake(2, 0.05, 8).middle - 1)).toBeLessThan(0.006);
  });

  it('a ring drives itself at the speed of theory, however it is cut', () => {
    const none = emptyFilament(2);
    none.x.fill(9);
    for (const pieces of [12, 24, 48]) {
      const tip = emptyFilament(pieces + 3);
      const tipAges: number[] = [];
      for (let k = 0; k < pieces + 3; k++) {
        const psi = (2 * Math.PI * k) / pieces;
        tipAges.push(psi);
        tip.x[k] = Math.cos(psi);
        tip.y[k] = -Math.sin(psi);
      }
      // The two pieces beyond the full turn are folded away to a point.
      for (const k of [pieces + 1, pieces + 2]) {
        tip.x[k] = tip.x[pieces];
        tip.y[k] = tip.y[pieces];
      }
      const far = { radius: 1, depth: 1e6, strength: 0 };
      const wake: Wake = {
        blades: 1,
        edges: Float64Array.from([0, 0]),
        sheets: [none, none],
        outers: [none, none],
        tip,
        tipAges,
        tipCore: 0.02,
        descent: [0, 0],
        sheetEnds: [far, far],
        tipEnd: far,
      };
      const { down } = tipDrift(wake, Float64Array.from([1]), 0, 3);
      const theory = (Math.log(8 / 0.02) - 0.25) / (4 * Math.PI);
      expect(Math.abs(down / theory - 1)).toBeLessThan(0.2 / pieces);
    }
  });
});

describe('published paths', () => {
  const rotor = { bladeCount: 2, solidity: 0.0354, twist_deg: 0 };

  it('worked by hand: two untwisted blades, C_T = 0.0046', () => {
    const landgrebe = wakePath('landgrebe', rotor, 0.0046);
    expect(landgrebe.tipFirst).toBeCloseTo(0.03249, 4);
    expect(landgrebe.tipLater).toBeCloseTo(0.06782, 4);
    expect(landgrebe.rate).toBeCloseTo(0.2692, 4);
    const other = wakePath('kocurek-tangler', rotor, 0.0046);
    expect(other.tipFirst).toBeCloseTo(2.3 * (0.0046 / Math.SQRT2) ** 0.75, 6);
    expect(other.tipLater).toBeCloseTo(Math.sqrt(0.0046), 6);
  });

  it('the two rules agree within a third on a slender two-bladed rotor', () => {
    const depth = (rule: 'landgrebe' | 'kocurek-tangler') =>
      tipDepth(wakePath(rule, rotor, 0.005), 2 * Math.PI);
    expect(Math.abs(depth('landgrebe') / depth('kocurek-tangler') - 1)).toBeLessThan(0.33);
  });

  it('sinks without a jump, and never rises', () => {
    for (const rule of ['landgrebe', 'kocurek-tangler'] as const)
      for (const twist_deg of [0, -8, -16])
        for (const ct of [2e-4, 0.003, 0.03]) {
          const path = wakePath(rule, { bladeCount: 4, solidity: 0.08, twist_deg }, ct);
          const p = path.firstPassage;
          expect(tipDepth(path, p + 1e-9) - tipDepth(path, p - 1e-9)).toBeLessThan(1e-8);
          expect(path.tipFirst).toBeGreaterThan(0);
          expect(path.tipLater).toBeGreaterThan(0);
          expect(path.axisLater).toBeGreaterThanOrEqual(0);
        }
  });

  it('twist of a straight blade is its own', () => {
    const r = [0.2, 0.5, 0.8];
    expect(
      equivalentTwist_deg(
        r,
        [0.1, 0.3, 0.2],
        r.map((x) => 0.3 - 0.2 * x),
      ),
    ).toBeCloseTo((-0.2 * 180) / Math.PI, 9);
  });
});
