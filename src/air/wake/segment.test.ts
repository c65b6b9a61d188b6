import { describe, expect, it } from 'vitest';
import { addBladeVelocities, emptyFilament, velocityAt, type Filament } from './segment.ts';

/** A ring of radius 1 in the plane z = 0, anticlockwise seen from +z. */
function ring(pieces: number, core = 0): Filament {
  const f = emptyFilament(pieces + 1);
  for (let k = 0; k <= pieces; k++) {
    f.x[k] = Math.cos((2 * Math.PI * k) / pieces);
    f.y[k] = Math.sin((2 * Math.PI * k) / pieces);
    f.core[k] = core;
  }
  return f;
}

describe('straight vortex pieces', () => {
  it('a long line gives 1 / (2 pi h), turning about the line', () => {
    const f = emptyFilament(3);
    f.x.set([-1e4, 0.3, 1e4]);
    const out = new Float64Array(3);
    velocityAt(f, 0, 0.2, 0, out);
    expect(out[2]).toBeCloseTo(1 / (2 * Math.PI * 0.2), 7);
    expect(Math.abs(out[0]) + Math.abs(out[1])).toBeLessThan(1e-12);
  });

  it('with a core gives h / (2 pi (h^2 + core^2)), largest at h = core', () => {
    const f = emptyFilament(2);
    f.x.set([-500, 500]);
    f.core.fill(0.1);
    const out = new Float64Array(3);
    for (const h of [0.02, 0.1, 0.4]) {
      velocityAt(f, 0, h, 0, out);
      expect(out[2]).toBeCloseTo(h / (2 * Math.PI * (h * h + 0.01)), 5);
    }
  });

  it('a ring gives 1 / (2 (1 + z^2)^1.5) on its axis, with an error that falls as the square of the piece', () => {
    const out = new Float64Array(3);
    const errors = [12, 24, 48].map((pieces) => {
      velocityAt(ring(pieces), 0, 0, 0.5, out);
      return Math.abs(out[2] / (0.5 / 1.25 ** 1.5) - 1);
    });
    console.warn(
      'ring on its axis, error by 12, 24, 48 pieces:',
      errors.map((e) => e.toExponential(2)).join(' '),
    );
    expect(Math.log2(errors[0] / errors[1])).toBeCloseTo(2, 1);
    expect(Math.log2(errors[1] / errors[2])).toBeCloseTo(2, 1);
  });

  it('a point on a filament, or on its end, gets a finite velocity', () => {
    const out = new Float64Array(3);
    for (const core of [0, 0.02]) {
      velocityAt(ring(24, core), 1, 0, 0, out);
      expect([...out].every(Number.isFinite)).toBe(true);
      velocityAt(ring(24, core), (1 + Math.cos(Math.PI / 12)) / 2, Math.sin(Math.PI / 12) / 2, 0, out);
      expect([...out].every(Number.isFinite)).toBe(true);
    }
  });

  it('turned copies add up to what each gives by itself', () => {
    const f = emptyFilament(4);
    f.x.set([1, 0.8, 0.3, -0.4]);
    f.y.set([0, -0.5, -0.8, -0.7]);
    f.z.set([0, -0.05, -0.1, -0.2]);
    const r = Float64Array.from([0.3, 0.7]);
    const axial = new Float64Array(2);
    const swirl = new Float64Array(2);
    addBladeVelocities(f, 3, r, axial, swirl, 0, 1);
    const out = new Float64Array(3);
    for (let i = 0; i < 2; i++) {
      let a = 0;
      let s = 0;
      for (let b = 0; b < 3; b++) {
        const t = (2 * Math.PI * b) / 3;
        const turned = emptyFilament(4);
        for (let k = 0; k < 4; k++) {
          turned.x[k] = f.x[k] * Math.cos(t) - f.y[k] * Math.sin(t);
          turned.y[k] = f.x[k] * Math.sin(t) + f.y[k] * Math.cos(t);
          turned.z[k] = f.z[k];
        }
        velocityAt(turned, r[i], 0, 0, out);
        a += out[2];
        s += out[1];
      }
      expect(axial[i]).toBeCloseTo(a, 12);
      expect(swirl[i]).toBeCloseTo(s, 12);
    }
  });
});
