import { expect, test } from 'vitest';
import { setPath } from '../project/path.ts';
import { ductFlowOf } from './lip-flow.ts';
import { demo } from '../../tests/demo.ts';

test('the demo: inflow with its mean, duct share near momentum, a lip verdict and advice in words', () => {
  const result = ductFlowOf(demo);
  if (!result.ok) throw new Error(result.why);
  const { inflow, ductShare, momentumGap, lip, sentences, withInflow } = result.answer;
  expect(Math.min(...inflow.ratio)).toBeGreaterThan(0.8);
  expect(Math.max(...inflow.ratio)).toBeLessThan(1.3);
  // Lossless: 1 - 1 / (2 sigma) with sigma near 1.05.
  expect(Math.abs(ductShare - (1 - 1 / 2.1))).toBeLessThan(0.05);
  expect(Math.abs(momentumGap)).toBeLessThan(0.03);
  expect(lip.words).toMatch(/^The air (stays|lets go)/);
  expect(lip.advice).toMatch(/mm lip/);
  expect(sentences).toHaveLength(5);
  expect(Math.abs(withInflow.thrust - 1)).toBeLessThan(0.05);
});

test('a small lip lets the stream fill less of the bore', () => {
  const fill = (lipRadius_mm: number) => {
    const result = ductFlowOf(setPath(demo, 'fan.duct.lipRadius_mm', lipRadius_mm), false);
    return result.ok ? result.answer.lip.fill : Number.NaN;
  };
  expect(fill(2)).toBeLessThan(fill(7) - 0.03);
});

test('an open rotor, and a blade that pushes up: a sentence each', () => {
  const open = ductFlowOf(setPath(demo, 'fan.kind', 'open'));
  expect(open).toEqual({ ok: false, why: 'An open rotor has no duct for the air to enter.' });
  const up = demo.fan.blade.reduce((p, s, i) => setPath(p, `fan.blade.${i}.angle_deg`, -s.angle_deg), demo);
  expect(ductFlowOf(up)).toMatchObject({ ok: false });
});
