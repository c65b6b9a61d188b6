import { describe, expect, it } from 'vitest';
import { motors } from '../../project/catalogue.ts';
import type { OwnPart } from '../../project/parts.ts';
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

  it('takes the parts one keeps before generic ones, each once, within one map', () => {
    const motor = (name: string, mass_g: number): OwnPart => ({
      kind: 'motor',
      part: { ...project.motor, name, mass_g },
    });
    const pack: OwnPart = { kind: 'battery', part: { ...project.battery, name: 'my pack', mass_g: 400 } };
    const kept = [motor('mine', 90), motor(project.motor.name, project.motor.mass_g), pack];
    expect(scopeOf(project, 'tips', kept).motors).toHaveLength(1);
    const near = scopeOf(project, 'near', kept);
    expect(near.motors.map(({ name }) => name).slice(0, 2)).toEqual([project.motor.name, 'mine']);
    expect(near.motors).toHaveLength(6);
    expect(near.batteries).toHaveLength(1);
    const both = scopeOf(project, 'both', kept);
    expect([both.motors[1].name, both.batteries[1].name]).toEqual(['mine', 'my pack']);
    expect([both.motors.length, both.batteries.length]).toEqual([5, 5]);
    const many = Array.from({ length: 60 }, (_, i) => motor(`m${i}`, 5 + i));
    for (const scope of Object.keys(SCOPES) as Scope[]) {
      const found = scopeOf(project, scope, many);
      expect(8 * found.motors.length * found.batteries.length).toBeLessThanOrEqual(MOST_CELLS);
    }
  });
});
