import { describe, expect, test } from 'vitest';
import { completeElliptic } from '../../numerics/elliptic.ts';
import { panelStream, panelVelocity } from './panel.ts';
import { ringStream, ringVelocity } from './ring.ts';

const out = new Float64Array(2);

describe('one vortex ring', () => {
  test('its closed form in K and E (Lamb, art. 161; Lewis, ch. 4)', () => {
    for (const [d, r, ring] of [
      [0.3, 0.8, 1],
      [-1.7, 2.4, 0.6],
      [0.01, 1.02, 1],
      [4, 0.5, 3],
    ]) {
      const sum = (r + ring) ** 2 + d * d;
      const gap = (r - ring) ** 2 + d * d;
      const m = (4 * r * ring) / sum;
      const { first: K, second: E } = completeElliptic(m, gap / sum);
      const k = Math.sqrt(m);
      expect(ringStream(d, r, ring)).toBeCloseTo(
        (Math.sqrt(r * ring) / (2 * Math.PI)) * ((2 / k - k) * K - (2 / k) * E),
        12,
      );
      ringVelocity(d, r, ring, out);
      const scale = 1 / (2 * Math.PI * Math.sqrt(sum));
      expect(out[0]).toBeCloseTo(scale * (K + ((ring * ring - r * r - d * d) / gap) * E), 10);
      expect(out[1]).toBeCloseTo(((scale * d) / r) * (((ring * ring + r * r + d * d) / gap) * E - K), 10);
    }
  });

  test('on the axis u = R^2 / (2 rho^3), and nothing cancels close to it', () => {
    for (const d of [0, 0.7, -3, 50]) {
      const exact = 1.3 ** 2 / (2 * Math.hypot(d, 1.3) ** 3);
      ringVelocity(d, 0, 1.3, out);
      expect(out[0] / exact).toBeCloseTo(1, 12);
      expect(out[1]).toBe(0);
      expect(ringStream(d, 1e-7, 1.3) / (0.5e-14 * exact)).toBeCloseTo(1, 9);
    }
  });

  test('velocity is the slope of the stream function', () => {
    const h = 1e-5;
    for (const [d, r] of [
      [0.4, 0.3],
      [-0.2, 1.5],
      [2, 1],
    ]) {
      ringVelocity(d, r, 1, out);
      expect(out[0]).toBeCloseTo((ringStream(d, r + h, 1) - ringStream(d, r - h, 1)) / (2 * h * r), 7);
      expect(out[1]).toBeCloseTo(-(ringStream(d + h, r, 1) - ringStream(d - h, r, 1)) / (2 * h * r), 7);
    }
  });
});

describe('a panel', () => {
  const ends = new Float64Array(2);
  const four = new Float64Array(4);
  const pair = new Float64Array(2);
  /** The bare kernel, summed over pieces that shrink towards the nearest point: slow and independent. */
  function slow(z: number, r: number, z0: number, r0: number, z1: number, r1: number): [number, number] {
    const nearest = ((z - z0) * (z1 - z0) + (r - r0) * (r1 - r0)) / ((z1 - z0) ** 2 + (r1 - r0) ** 2);
    const split = Math.min(1, Math.max(0, nearest));
    const length = Math.hypot(z1 - z0, r1 - r0);
    let a = 0;
    let b = 0;
    for (const [from, to] of [
      [split, 0],
      [split, 1],
    ]) {
      const n = 4000;
      for (let i = 0; i < n; i++) {
        const t = (i + 0.5) / n;
        const u = from + (to - from) * t ** 3;
        const w = (Math.abs(to - from) * 3 * t * t) / n;
        const g = w * length * ringStream(z - z0 - u * (z1 - z0), r, r0 + u * (r1 - r0));
        a += (1 - u) * g;
        b += u * g;
      }
    }
    return [a, b];
  }

  test('on its end, in its middle, across a thin wall, beside the axis and far away', () => {
    const cases: [number, number, number, number, number, number, number][] = [
      [0, 1, 0, 1, 0.1, 1.02, 5e-7],
      [0.05, 1.01, 0, 1, 0.1, 1.02, 5e-7],
      [0.05, 1.02, 0, 1, 0.1, 1.02, 5e-7],
      [0.02, 1.0001, 0, 1, 0.1, 1.02, 5e-7],
      [0.24, 1.01, 0, 1, 0.1, 1.02, 1e-6],
      [0.36, 1.1, 0, 1, 0.1, 1.02, 1.2e-4],
      [0.02, 0.1, 0, 0, 0.02, 0.1, 1e-6],
    ];
    for (const [z, r, z0, r0, z1, r1, share] of cases) {
      const exact = slow(z, r, z0, r0, z1, r1);
      panelStream(z, r, z0, r0, z1, r1, ends);
      const size = Math.max(...exact.map(Math.abs));
      expect(Math.abs(ends[0] - exact[0]) / size).toBeLessThan(share);
      expect(Math.abs(ends[1] - exact[1]) / size).toBeLessThan(share);
    }
  });

  test('velocity is the slope of its stream function, near and far; a sheet jumps by its strength', () => {
    const h = 1e-5;
    const psi = (z: number, r: number) => {
      panelStream(z, r, 0, 1, 0.1, 1.02, ends);
      return [ends[0], ends[1]];
    };
    for (const [z, r] of [
      [0.03, 0.99],
      [0.05, 1.06],
      [-0.1, 1.1],
      [0.8, 0.4],
    ]) {
      panelVelocity(z, r, 0, 1, 0.1, 1.02, four, pair);
      for (const k of [0, 1]) {
        const axial = (psi(z, r + h)[k] - psi(z, r - h)[k]) / (2 * h * r);
        const radial = -(psi(z + h, r)[k] - psi(z - h, r)[k]) / (2 * h * r);
        expect(Math.abs(four[2 * k] - axial)).toBeLessThan(4e-4);
        expect(Math.abs(four[2 * k + 1] - radial)).toBeLessThan(4e-4);
      }
    }
    const along = (r: number) => {
      panelVelocity(0.05, r, 0, 1, 0.1, 1, four, pair);
      return four[0] + four[2];
    };
    expect(along(1 - 1e-8) - along(1 + 1e-8)).toBeCloseTo(1, 5);
    expect(along(1)).toBeCloseTo((along(1 - 1e-8) + along(1 + 1e-8)) / 2, 5);
  });

  test('a finite cylinder of vorticity: exact speed on its axis, second order', () => {
    // u = gamma / 2 [(z1 - z) / rho1 - (z0 - z) / rho0]: the ring's field integrated along the axis.
    const exact = 0.5 * (0.7 / Math.hypot(0.7, 1) + 0.3 / Math.hypot(0.3, 1));
    const error = (n: number) => {
      let sum = 0;
      for (let i = 0; i < n; i++) {
        panelVelocity(0.3, 0, i / n, 1, (i + 1) / n, 1, four, pair);
        sum += four[0] + four[2];
      }
      return Math.abs(sum - exact);
    };
    expect(error(4)).toBeLessThan(2e-5);
    expect(error(16)).toBeLessThan(1e-7);
  });

  test('a thin ring on itself: psi = R/(2 pi) (ln(8 R/a) - 2), with second-order panels', () => {
    // Mean stream function of a hollow ring of unit circulation, from its energy (Lamb, art. 163), to order (a/R)^2 ln.
    const mean = (a: number, n: number) => {
      const z = Array.from({ length: n + 1 }, (_, i) => a * Math.sin((2 * Math.PI * i) / n));
      const r = Array.from({ length: n + 1 }, (_, i) => 1 + a * Math.cos((2 * Math.PI * i) / n));
      let sum = 0;
      for (let i = 0; i < n; i++)
        for (let p = 0; p < n; p++) {
          panelStream(z[i], r[i], z[p], r[p], z[p + 1], r[p + 1], ends);
          sum += (ends[0] + ends[1]) / (2 * Math.PI * a) / n;
        }
      return sum;
    };
    const thin = (a: number) => (Math.log(8 / a) - 2) / (2 * Math.PI);
    expect(mean(0.01, 96) / thin(0.01)).toBeCloseTo(1, 3);
    expect(mean(0.001, 96) / thin(0.001)).toBeCloseTo(1, 3);
    const best = mean(0.1, 256);
    const order = Math.log2(Math.abs(mean(0.1, 16) - best) / Math.abs(mean(0.1, 32) - best));
    expect(order).toBeGreaterThan(1.9);
  });
});
