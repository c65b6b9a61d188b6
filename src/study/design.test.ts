import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { modelOf } from '../assess/model.ts';
import { runAt } from '../assess/point.ts';
import { readProject } from '../project/read.ts';
import { projectSchema, type Project } from '../project/schema.ts';
import { angularSpeedFromRpm } from '../quantities/units.ts';
import { geometryFaults } from '../shape/faults.ts';
import { designForProject, type DesignWish } from './design.ts';

const read = readProject(
  readFileSync(new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url)),
);
if (!read.ok) throw new Error('the demo cannot be read');
const demo = read.project;

function designed(project: Project, wish: DesignWish) {
  const result = designForProject(project, wish);
  if (!result.ok) throw new Error(result.reasons.join(' '));
  return result;
}

describe('designForProject', () => {
  it('hovers at the throttle that was asked for, with the mass of the new blades', () => {
    for (const throttle of [0.6, 0.75]) {
      const { after, rpm, thrust_N } = designed(demo, { throttle });
      expect(Math.abs(after.craft.hoverThrottle! - throttle)).toBeLessThan(0.005);
      expect(Math.abs(after.fan.needed_N / thrust_N - 1)).toBeLessThan(0.002);
      expect(Math.abs(after.fan.hover!.rpm / rpm - 1)).toBeLessThan(0.004);
    }
  });

  it('hovers at 55 % where nothing is asked, so that full throttle has plenty left', () => {
    const { after, before } = designed(demo, {});
    expect(after.craft.hoverThrottle).toBeCloseTo(0.55, 2);
    expect(after.craft.thrustToWeight).toBeGreaterThan(before.craft.thrustToWeight);
  });

  it('gives the asked thrust at the asked speed in the whole project', () => {
    const { project, rpm } = designed(demo, { thrust_N: 0.9, rpm: 17_000, loading: 'uniform' });
    expect(rpm).toBeCloseTo(17_000, 6);
    const { thrust } = runAt(modelOf(project), angularSpeedFromRpm(rpm));
    expect(Math.abs(thrust / 0.9 - 1)).toBeLessThan(0.005);
  });

  it('changes nothing but the blade, and gives a project that the file format takes and that can be built', () => {
    for (const bladeCount of [3, 5, 7]) {
      const { project, notes } = designed(demo, { throttle: 0.7, bladeCount });
      expect({ ...project, fan: { ...project.fan, blade: [], bladeCount: 5 } }).toEqual({
        ...demo,
        fan: { ...demo.fan, blade: [] },
      });
      expect(projectSchema.safeParse(project).success).toBe(true);
      expect(geometryFaults(project.fan, project.motor)).toEqual([]);
      if (bladeCount === 3) expect(notes[0]).toBe('The rotor has 3 blades instead of 5.');
    }
  });

  it('at the hover speed of the hand-drawn blade takes no more power for the same craft', () => {
    const { before, after } = designed(demo, { rpm: 15_333 });
    expect(after.fan.hover!.shaftPower_W).toBeLessThanOrEqual(before.fan.hover!.shaftPower_W);
  });

  it('says why where drive or rotor cannot', () => {
    const weak = designForProject(demo, { thrust_N: 3, throttle: 0.5 });
    expect(!weak.ok && weak.reasons[0]).toMatch(
      /^At 50\s% throttle the drive cannot give the [\d.]+ W at the shaft/,
    );
    const slow = designForProject(demo, { rpm: 5000 });
    expect(!slow.ok && slow.reasons[0]).toMatch(/out of reach of this rotor/);
    expect(!slow.ok && slow.mostThrust_N).toBeLessThan(0.68);
  });

  it('designs an open rotor too', () => {
    const open: Project = { ...demo, fan: { ...demo.fan, kind: 'open' } };
    const { after, throttle } = designed(open, { throttle: 0.75 });
    expect(throttle).toBeCloseTo(0.75, 2);
    expect(after.craft.hoverThrottle).toBeCloseTo(0.75, 2);
  });
});
