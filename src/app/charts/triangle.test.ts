import { describe, expect, it } from 'vitest';
import { assess } from '../../assess/assess.ts';
import { modelOf } from '../../assess/model.ts';
import { runAt } from '../../assess/point.ts';
import { angularSpeedFromRpm, degreesFromRadians } from '../../quantities/units.ts';
import { demoProject } from '../state/examples.ts';
import { triangleAt } from './triangle.ts';

describe.each(['ducted', 'open'] as const)('triangleAt, %s', (kind) => {
  const demo = demoProject();
  const project = { ...demo, fan: { ...demo.fan, kind } };
  const { fan } = assess(project);
  const point = fan.full;
  const model = modelOf(project);
  const run = runAt(model, angularSpeedFromRpm(point.rpm));

  it('closes with the solved annuli: relative speed and inflow angle are theirs', () => {
    run.annuli.forEach((state, i) => {
      const at = triangleAt(point, point.annuli.radius_mm[i]);
      expect(at.relative_mps).toBeCloseTo(state.relativeSpeed, 3);
      expect(at.inflow_deg).toBeCloseTo(degreesFromRadians(state.phi), 2);
      expect(at.lift).toBeCloseTo(state.cl, 6);
    });
  });

  it('makes inflow and attack add up to the blade angle', () => {
    for (let i = 0; i < run.annuli.length; i++) {
      const at = triangleAt(point, point.annuli.radius_mm[i]);
      expect(at.inflow_deg + at.attack_deg).toBeCloseTo(degreesFromRadians(model.rotor.angle[i]), 2);
    }
  });
});
