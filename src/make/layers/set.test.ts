import { expect, test } from 'vitest';
import { heavyDemo } from '../../../tests/demo.ts';
import { projectSchema } from '../../project/schema.ts';
import { bladeUp, chosenDown, lyingDown, standsAcross, withLie } from '../../shape/lies.ts';
import { loadKernel } from '../kernel.ts';
import { make } from '../make.ts';
import { printSet, setSteps } from './set.ts';

test('a lie is kept by the project, taken back, and seen by the blade', () => {
  const { fan } = projectSchema.parse(structuredClone(heavyDemo));
  expect(fan.lies).toEqual([]);
  expect(chosenDown(fan, 'duct')).toBeNull();
  const over = withLie(fan, 'duct', [0, 0, -1]);
  expect(chosenDown(over, 'duct')).toEqual([0, 0, -1]);
  expect(withLie(over, 'duct', null).lies).toEqual([]);
  expect(standsAcross(withLie(fan, 'rotor', [1, 0, 0]))).toBe(true);
  const apart = { ...fan, rotorParts: 'blades apart' as const };
  expect(bladeUp(apart)).toEqual([1, -0, -0]);
  expect(withLie(apart, 'blade', lyingDown(apart)).bladesPrinted).toBe('lying');
  expect(withLie(apart, 'blade', [0, 0, 1]).bladesPrinted).toBe('as laid');
});

test('the set sums its pieces, reads mirrored parts once, and stops half way', async () => {
  const kernel = await loadKernel();
  const design = { ...heavyDemo, printer: { ...heavyDemo.printer, layer_mm: 0.4 } };
  const made = await make(design, { kernel, quality: 'coarse' });
  const steps = setSteps(kernel, design, made);
  expect(steps.next().done).toBe(false);
  steps.return(undefined as never);
  const set = printSet(kernel, design, made, { ways: false });
  expect(set.parts).toHaveLength(made.parts.length);
  const grams = set.parts.reduce((sum, p) => sum + p.quantity * p.print.mass_g, 0);
  expect(set.mass_g).toBeCloseTo(grams, 9);
  const [right, left] = set.parts.filter((p) => p.kind === 'rotor');
  expect(left.check).toBe(right.check);
});
