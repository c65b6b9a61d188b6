import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { readProject } from '../project/read.ts';
import { figuresOf } from './figures.ts';
import { signed, slopesOf } from './slopes.ts';

const read = readProject(
  readFileSync(new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url)),
);
if (!read.ok) throw new Error('The example does not read.');
const { project } = read;

describe('figuresOf', () => {
  it('says what assess says', () => {
    const [ours, { craft, strength, sound, fan }] = [figuresOf(project), assess(project)];
    expect(ours.thrustToWeight / craft.thrustToWeight).toBeCloseTo(1, 2);
    expect(ours.thrust_N / fan.full.thrust_N).toBeCloseTo(1, 2);
    expect(ours.hover_min / craft.hover_min).toBeCloseTo(1, 2);
    expect(ours.mass_g).toBe(craft.mass_g);
    expect(ours.outerWidth_mm).toBe(craft.ductOuterDiameter_mm);
    expect(ours.speedMargin / strength!.speedMargin).toBeCloseTo(1, 2);
    expect(ours.level_dBA).toBeCloseTo(sound.hover!.overall_dBA.value, 0);
    expect(ours.faults).toBe(0);
  });
});

describe('slopesOf', () => {
  const slopes = slopesOf(project);
  const of = (name: string) => slopes.find((s) => s.name === name)!;

  it('is what two full assessments a step apart differ by', () => {
    const at = (mm: number) => assess({ ...project, fan: { ...project.fan, tipDiameter_mm: mm } });
    const { tipDiameter_mm } = project.fan;
    const [down, here, up] = [-1, 0, 1].map((step) => at(tipDiameter_mm + step));
    const tip = of('tip diameter');
    const thrust = (up.fan.full.thrust_N - down.fan.full.thrust_N) / 2 / here.fan.full.thrust_N;
    expect(tip.sides).toBe(2);
    expect(Math.abs(tip.thrust_ratio - thrust)).toBeLessThan(0.002);
    expect(tip.mass_g).toBeCloseTo((up.craft.mass_g - down.craft.mass_g) / 2, 6);
    expect(Math.abs(tip.hover_min - (up.craft.hover_min - down.craft.hover_min) / 2)).toBeLessThan(0.02);
  });

  it('has the signs a maker expects', () => {
    expect(of('payload').thrust_ratio).toBeCloseTo(0, 3);
    expect(of('payload').mass_g).toBeCloseTo(10, 9);
    expect(of('payload').hover_min).toBeLessThan(0);
    expect(of('tip gap').thrust_ratio).toBeLessThan(0);
    expect(of('motor speed per volt').thrust_ratio).toBeGreaterThan(0);
    expect(of('duct wall').mass_g).toBeGreaterThan(0);
    expect(of('tip diameter').words).toMatch(/^\+1\u00a0mm tip diameter: [+−][\d.]+\u00a0% thrust, /);
  });

  it('leaves duct numbers out of an open rotor, and minutes out where it does not hover', () => {
    const open = slopesOf({ ...project, fan: { ...project.fan, kind: 'open' } });
    expect(open.some((s) => s.path.startsWith('fan.duct'))).toBe(false);
    const heavy = slopesOf({ ...project, brief: { ...project.brief, payload_g: 900 } });
    expect(heavy[0].hover_min).toBeNaN();
    expect(heavy[0].words).not.toMatch(/hover/);
  });

  it('writes no sign before a zero', () => {
    expect([signed(0.04, 1), signed(-0.04, 1), signed(-1.26, 1), signed(2, 0)]).toEqual([
      '0',
      '0',
      '−1.3',
      '+2',
    ]);
  });
});
