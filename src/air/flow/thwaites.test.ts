import { describe, expect, test } from 'vitest';
import { stratfordLaminar, stratfordTurbulent } from './stratford.ts';
import { laminarLayer, SEPARATION_LAMBDA } from './thwaites.ts';

const run = (n: number, length: number, q: (s: number) => number, r: (s: number) => number = () => 1) => {
  const s = Float64Array.from({ length: n + 1 }, (_, i) => (length * i) / n);
  return { s, speed: s.map(q), r: s.map(r) };
};
const leaves = (flow: ReturnType<typeof run>) => {
  const { lambda } = laminarLayer(flow, 1e-9);
  return flow.s[lambda.findIndex((value, i) => i > 0 && value <= SEPARATION_LAMBDA)];
};

describe('laminar layer', () => {
  test('flat plate: theta = 0.671 sqrt(nu s / q); Blasius has 0.664', () => {
    const { momentumThickness } = laminarLayer(
      run(100, 1, () => 2),
      1e-6,
    );
    expect(momentumThickness[100] / Math.sqrt(1e-6 / 2)).toBeCloseTo(0.6708, 3);
  });

  test('speed falling in a line, q = 1 - x: leaves at 0.123 (Thwaites 1949; exact, Howarth 1938, 0.120)', () => {
    expect(leaves(run(2000, 0.3, (s) => 1 - s))).toBeCloseTo(0.123, 3);
  });

  test('circular cylinder 2 sin: 103 degrees; sphere 1.5 sin: 104 degrees (White, Viscous Fluid Flow; from memory)', () => {
    const degrees = 180 / Math.PI;
    expect(Math.abs(leaves(run(2000, 2.2, (s) => 2 * Math.sin(s))) * degrees - 103.1)).toBeLessThan(0.5);
    expect(
      Math.abs(leaves(run(2000, 2.2, (s) => 1.5 * Math.sin(s), Math.sin)) * degrees - 103.6),
    ).toBeLessThan(0.6);
  });

  test('speed rising in a line: lambda = 0.075 and a layer of constant thickness', () => {
    const { momentumThickness, lambda } = laminarLayer(
      run(50, 1, (s) => 3 * s),
      1e-6,
    );
    for (let i = 0; i <= 50; i++) {
      expect(lambda[i]).toBeCloseTo(0.075, 6);
      expect(momentumThickness[i] / Math.sqrt((0.075 * 1e-6) / 3)).toBeCloseTo(1, 6);
    }
  });
});

describe('Stratford', () => {
  test('q = 1 - x leaves near 0.120 laminar; a thick turbulent layer holds on far longer, a steep fall parts it', () => {
    const flow = run(2000, 0.5, (s) => 1 - s);
    const place = flow.s[stratfordLaminar(flow, 0) ?? 0];
    expect(Math.abs(place - 0.12)).toBeLessThan(0.004);
    const late = stratfordTurbulent(flow, 0, 1e-4, 1e-6);
    expect(late === null || flow.s[late] > 0.2).toBe(true);
    const steep = run(2000, 0.5, (s) => Math.max(0.3, 1 - 20 * s));
    expect(stratfordTurbulent(steep, 0, 1e-3, 1e-6)).not.toBeNull();
    expect(
      stratfordTurbulent(
        run(100, 1, () => 1),
        0,
        1e-4,
        1e-6,
      ),
    ).toBeNull();
  });
});
