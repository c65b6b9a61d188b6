import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { designOf } from '../project/builds.ts';
import { readProject } from '../project/read.ts';
import type { Project } from '../project/schema.ts';
import { writeProject } from '../project/write.ts';
import { acceptCause, inheritedDesign, isCalibrated, type AcceptedCause } from './calibrate.ts';

const read = readProject(
  readFileSync(new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url)),
);
if (!read.ok) throw new Error('demo');
const bare = read.project;
const project: Project = {
  ...bare,
  builds: [
    {
      id: 'first',
      name: 'First',
      state: 'made',
      date: '',
      why: '',
      design: designOf(bare),
      learned: [],
      bench: [],
    },
  ],
};
const cause = (
  id: AcceptedCause['id'],
  value: number,
  belongsTo: AcceptedCause['belongsTo'],
): AcceptedCause => ({ id, name: 'It', value, belongsTo });
const lift = (p: Project) => assess(p).craft.thrustToWeight;

describe('what the bench taught', () => {
  it('a truth of the printer goes into build and working design, and assess feels it', () => {
    const {
      project: after,
      learned,
      inherited,
    } = acceptCause(project, cause('angle', -0.1, 'printer'), 'first');
    expect(inherited).toBe(true);
    expect(after.calibration.bladeAngle_deg).toBeCloseTo(-5.73, 2);
    expect(after.builds[0].design.calibration.bladeAngle_deg).toBeCloseTo(-5.73, 2);
    expect(after.builds[0].learned).toEqual([learned]);
    expect(lift(after)).toBeLessThan(0.9 * lift(project));
  });
  it('a fault of one build stays in that build', () => {
    const { project: after } = acceptCause(project, cause('gap', 0.004, 'build'), 'first');
    expect(after.calibration).toEqual(project.calibration);
    const built = { ...after, ...after.builds[0].design };
    expect(lift(built)).toBeLessThan(lift(project));
    const next = inheritedDesign(after.builds[0].design);
    expect(lift({ ...after, ...next })).toBe(lift(project));
  });
  it.each([
    ['winding', 1, 'motor'],
    ['pack', 1.5, 'battery'],
    ['kv', -0.2, 'motor'],
    ['edge', 0.3, 'printer'],
    ['flat', 0.8, 'printer'],
    ['rough', 0.8, 'printer'],
    ['blocked', 2, 'build'],
    ['upside down', 0, 'build'],
    ['backward', 0, 'build'],
  ] as const)('%s takes thrust', (id, value, belongsTo) => {
    const { project: after } = acceptCause(project, cause(id, value, belongsTo), null);
    expect(lift(after)).toBeLessThan(lift(project));
    if (id === 'backward') expect(lift(after)).toBeLessThan(0);
    expect(isCalibrated(after)).toBe(true);
  });
  it('what belongs to the bench changes no model and is written down', () => {
    const { project: after } = acceptCause(project, cause('pan', 0.3, 'bench'), 'first');
    expect(after.calibration).toEqual(project.calibration);
    expect(after.builds[0].design).toEqual(project.builds[0].design);
    expect(after.builds[0].learned[0]).toContain('bench');
  });
  it('survives writing and reading', () => {
    const { project: after } = acceptCause(project, cause('pack', 0.7, 'battery'), 'first');
    const again = readProject(new TextEncoder().encode(writeProject(after)));
    expect(again.ok && again.project).toEqual(after);
  });
});
