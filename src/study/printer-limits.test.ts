import { describe, expect, it } from 'vitest';
import { demo } from '../../tests/demo.ts';
import type { Project } from '../project/schema.ts';
import { withLie } from '../shape/lies.ts';
import { thinnestBlades } from './printer-limits.ts';

const of = (fan: Partial<Project['fan']>) => thinnestBlades({ ...demo, fan: { ...demo.fan, ...fan } });
const { lineWidth_mm, layer_mm } = demo.printer;
const angles = demo.fan.blade.map(({ angle_deg }) => angle_deg);

describe('thinnest blade', () => {
  it('leans as the blade does in a rotor printed flat', () => {
    const [least, most] = of({});
    expect(least.angle_deg).toBeCloseTo(Math.min(...angles), 9);
    expect(most.angle_deg).toBeCloseTo(Math.max(...angles), 9);
    expect(least.words).toContain('in a rotor printed flat');
  });

  it('of a lying blade leans only by its twist, so that a layer is enough somewhere', () => {
    const [least, most] = of({ rotorParts: 'blades apart', bladesPrinted: 'lying' });
    expect(least.comesOut_mm).toBeCloseTo(layer_mm, 9);
    expect(most.angle_deg).toBeGreaterThan(0);
    expect(most.angle_deg).toBeLessThan(Math.max(...angles) - Math.min(...angles));
    expect(most.words).toMatch(/leans by .*° to the bed, printed lying,/);
  });

  it('of a standing blade is one line, however it leans', () => {
    const standing = of({ rotorParts: 'blades apart', bladesPrinted: 'standing' });
    expect(standing.map((at) => at.comesOut_mm)).toEqual([expect.closeTo(lineWidth_mm, 9)]);
    expect(standing[0].words).toContain('upright on its root');
  });

  it('of a rotor laid on its side stands across the layers', () => {
    const aside = of(withLie(demo.fan, 'rotor', [0, 1, 0]));
    const askew = of(withLie(demo.fan, 'rotor', [1, 0, 0]));
    for (const found of [aside, askew]) expect(found[0].words).toContain('standing across the layers');
  });
});
