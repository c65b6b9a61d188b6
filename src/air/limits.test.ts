import { describe, expect, it } from 'vitest';
import { atmosphere } from './atmosphere.ts';
import { runFan } from './fan.ts';
import { loadingLimits, stallOf } from './limits.ts';
import { idealPassage } from './passage.ts';
import { rotorOfTable, type BladeTable } from './rotor.ts';
import { liftDrag, sectionStream } from './section.ts';

const air = atmosphere(0, 20);
const blade = (change: Partial<BladeTable> = {}): BladeTable => ({
  radius: [0.012, 0.02, 0.028, 0.035],
  chord: [0.008, 0.008, 0.008, 0.008],
  angle: [0.7, 0.5, 0.4, 0.33],
  thickness: 0.08,
  camber: 0.05,
  camberPosition: 0.5,
  ...change,
});
const limitsOf = (table: BladeTable, bladeCount: number, omega = 1500, axialSpeed = 0, exit = 1) => {
  const rotor = rotorOfTable(table, bladeCount);
  return loadingLimits(runFan(rotor, idealPassage(exit), air, { omega, axialSpeed }), rotor, air);
};
const kinds = (limits: ReturnType<typeof limitsOf>) => limits.map((limit) => limit.kind);

describe('loadingLimits', () => {
  it('says nothing of a gently loaded rotor', () => {
    expect(limitsOf(blade({ angle: [0.62, 0.42, 0.32, 0.26] }), 4)).toEqual([]);
  });

  it('finds the stall where the blade is steep, with the place', () => {
    const [stall] = limitsOf(blade({ angle: [0.7, 0.5, 0.4, 1.2] }), 3).filter((l) => l.kind === 'stall');
    expect(stall.span).toBeGreaterThan(0.8);
    expect(stall.radius).toBeGreaterThan(0.03);
    expect(stall.text).toMatch(/mm from the axis \(\d+\s% of the span\)/);
  });

  it('asks diffusion and slowing of rows alone: the same turning by few blades passes', () => {
    const steep = blade({ angle: [1.2, 1, 0.85, 0.75], chord: [0.016, 0.018, 0.02, 0.022] });
    const row = limitsOf(steep, 5, 1500, 0, 0.5);
    expect(kinds(row)).toContain('slowing');
    const few = limitsOf({ ...steep, chord: [0.006, 0.006, 0.006, 0.006] }, 2, 1500, 0, 0.5);
    expect(kinds(few)).not.toContain('slowing');
    expect(kinds(few)).not.toContain('diffusion');
  });

  it('holds the diffusion factor to its definition, from speeds alone', () => {
    const table = blade({ angle: [1.3, 1.1, 0.95, 0.85], chord: [0.014, 0.016, 0.018, 0.02] });
    const omega = 1500;
    const rotor = rotorOfTable(table, 4);
    const run = runFan(rotor, idealPassage(0.4), air, { omega, axialSpeed: 0 });
    const factors = run.annuli.map((state, i) => {
      const u = omega * rotor.radius[i];
      const w1 = Math.hypot(state.axialVelocity, u);
      const w2 = Math.hypot(state.axialVelocity, u - state.swirlVelocity);
      const s = (4 * rotor.chord[i]) / (2 * Math.PI * rotor.radius[i]);
      return s > 0.4 ? 1 - w2 / w1 + state.swirlVelocity / (2 * s * w1) : 0;
    });
    const found = loadingLimits(run, rotor, air).find((l) => l.kind === 'diffusion');
    const most = Math.max(...factors);
    expect(most).toBeGreaterThan(0.6);
    expect(found?.value).toBeCloseTo(most, 9);
    expect(rotor.radius[factors.indexOf(most)]).toBe(found?.radius);
  });

  it('finds crowded roots, fast tips and backward flow', () => {
    expect(kinds(limitsOf(blade({ chord: [0.03, 0.02, 0.01, 0.008] }), 6))).toContain('solidity');
    expect(kinds(limitsOf(blade(), 3, 6500))).toContain('tip Mach');
    expect(kinds(limitsOf(blade(), 3, 1500, -60))).toContain('reversed flow');
  });

  it('is finite for a rotor at rest', () => {
    for (const limit of limitsOf(blade(), 3, 0)) expect(Number.isFinite(limit.value)).toBe(true);
  });
});

describe('stallOf', () => {
  it('finds the first peak of lift as a search in steps ten times finer does', () => {
    for (const reynolds of [8_000, 25_000, 80_000, 400_000])
      for (const camber of [0, 0.03, 0.07])
        for (const thickness of [0.03, 0.08, 0.14]) {
          const stream = sectionStream(
            { thickness, camber, camberPosition: 0.45, trailingEdge: 0 },
            reynolds,
          );
          let best = -Infinity;
          for (let a = stream.zeroLift + 0.05; a < stream.zeroLift + 0.5; a += 0.002) {
            const { cl } = liftDrag(stream, a);
            if (cl < best) break;
            best = cl;
          }
          expect(Math.abs(stallOf(stream).cl / best - 1)).toBeLessThan(1e-3);
        }
  });
});
