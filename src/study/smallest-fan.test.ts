import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { readProject } from '../project/read.ts';
import type { Project } from '../project/schema.ts';
import { smallestFan } from './smallest-fan.ts';

const read = readProject(
  readFileSync(new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url)),
);
if (!read.ok) throw new Error('the demo does not read');
const demo: Project = read.project;
const withPrinter = (change: Partial<Project['printer']>): Project => ({
  ...demo,
  printer: { ...demo.printer, ...change },
});
const resin = withPrinter({
  process: 'resin',
  lineWidth_mm: 0.05,
  layer_mm: 0.05,
  minimumWall_mm: 0.3,
  xyError_mm: 0.02,
});

describe('the printer in assess', () => {
  it('a resin printer flies nearly the drawing, a coarse nozzle does not', () => {
    const drawn = assess(demo, { as: 'drawn' });
    expect(drawn.print).toBeNull();
    const fine = assess(resin);
    expect(Math.abs(fine.craft.thrustToWeight / drawn.craft.thrustToWeight - 1)).toBeLessThan(0.01);
    const coarse = assess(withPrinter({ lineWidth_mm: 1, layer_mm: 0.4, minimumWall_mm: 1 }));
    expect(coarse.craft.thrustToWeight).toBeLessThan(0.97 * drawn.craft.thrustToWeight);
    expect(coarse.print!.thrustLost_ratio).toBeGreaterThan(3 * Math.abs(fine.print!.thrustLost_ratio));
  });

  it('what is said to be lost is what the thrust of both fans differs by', () => {
    const coarse = withPrinter({ lineWidth_mm: 0.8, layer_mm: 0.3 });
    const printed = assess(coarse);
    const { thrustLost_ratio, torqueChange_ratio } = printed.print!;
    // Same throttle, other torque: the drawn fan turns a little differently, so thrust is compared by its coefficient.
    const drawn = assess(coarse, { as: 'drawn' });
    const coefficient = (a: typeof drawn, pick: 'thrust_N' | 'torque_Nm') =>
      a.fan.full[pick] / a.fan.full.rpm ** 2;
    expect(1 - coefficient(printed, 'thrust_N') / coefficient(drawn, 'thrust_N')).toBeCloseTo(
      thrustLost_ratio,
      1,
    );
    expect(coefficient(printed, 'torque_Nm') / coefficient(drawn, 'torque_Nm') - 1).toBeCloseTo(
      torqueChange_ratio,
      1,
    );
  });

  it('a blade too fine for the nozzle is stopped with the radius where it fails', () => {
    const fan = {
      ...demo.fan,
      blade: demo.fan.blade.map((s) => ({
        ...s,
        thickness_ratio: s.span_ratio > 0.9 ? 0.012 : s.thickness_ratio,
      })),
    };
    const { remarks, print } = assess({ ...demo, fan });
    expect(print!.stations[6].lost).toBe(true);
    expect(print!.stations[0].lost).toBe(false);
    const stop = remarks.find(
      ({ weight, text }) => weight === 'stop' && text.includes('comes out of this printer'),
    );
    expect(stop?.text).toMatch(/At (2|3)\d(\.\d)? mm radius/);
  });
});

describe('smallest fan', () => {
  it('is larger for a coarser line, and the size found sits at the allowed loss', () => {
    const normal = smallestFan(demo);
    const coarse = smallestFan(withPrinter({ lineWidth_mm: 0.8, layer_mm: 0.24 }));
    const fine = smallestFan(resin);
    expect(normal.tipDiameter_mm).toBeGreaterThan(fine.tipDiameter_mm!);
    expect(coarse.tipDiameter_mm).toBeGreaterThan(1.4 * normal.tipDiameter_mm!);
    const before = normal.tried[normal.tried.length - 1];
    expect(before.lost_ratio > 0.1 || before.incomplete).toBe(true);
    expect(normal.tipDiameter_mm).toBeGreaterThan(before.tipDiameter_mm);
    expect(normal.words).toMatch(/^Below \d+(\.\d)? mm tip diameter/);
  });

  it('a stricter wish gives a larger fan', () => {
    expect(smallestFan(demo, 0.03).tipDiameter_mm).toBeGreaterThan(smallestFan(demo, 0.2).tipDiameter_mm!);
  });
});
