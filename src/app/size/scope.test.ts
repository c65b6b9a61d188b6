import { describe, expect, it } from 'vitest';
import { motors } from '../../project/catalogue.ts';
import { MOST_CELLS, usualTips } from '../../study/size.ts';
import { demoProject } from '../state/examples.ts';
import { SCOPES, scopeOf, type Scope } from './scope.ts';

describe('scopeOf', () => {
  const project = demoProject();

  it.each(Object.keys(SCOPES) as Scope[])('%s starts with the own parts and fits one map', (scope) => {
    const found = scopeOf(project, scope);
    expect(found.motors[0]).toBe(project.motor);
    expect(found.batteries[0]).toBe(project.battery);
    const cells = usualTips(project, found.motors).length * found.motors.length * found.batteries.length;
    expect(cells).toBeLessThanOrEqual(MOST_CELLS);
  });

  it('does not look twice at a generic motor the project already has', () => {
    const motor = motors[5].part;
    const found = scopeOf({ ...project, motor: { ...motor } }, 'all');
    expect(found.motors).toHaveLength(motors.length);
    expect(found.motors.filter(({ name }) => name === motor.name)).toHaveLength(1);
  });

  it('takes the neighbours on both sides of the mass', () => {
    const middle = motors[6].part;
    const masses = scopeOf({ ...project, motor: middle }, 'near')
      .motors.slice(1)
      .map((m) => m.mass_g);
    expect(masses).toHaveLength(4);
    expect(Math.min(...masses)).toBeLessThanOrEqual(middle.mass_g);
    expect(Math.max(...masses)).toBeGreaterThanOrEqual(middle.mass_g);
  });
});
