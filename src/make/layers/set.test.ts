import { expect, test } from 'vitest';
import { heavyDemo } from '../../../tests/demo.ts';
import { projectSchema } from '../../project/schema.ts';
import { massItems } from '../../craft/mass.ts';
import { bladeUp, chosenDown, lyingDown, standsAcross, withLie } from '../../shape/lies.ts';
import { printedVolumes } from '../../shape/volumes.ts';
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

test.each([
  [2, 0, 0.08],
  [2, 0.2, 0.06],
  [1, 0, 0.13],
  [3, 1, 0.01],
] as const)(
  '%d walls, infill %d: the list of parts weighs as the mass list does, and as the layers within %d',
  async (walls, infill_ratio, within) => {
    const kernel = await loadKernel();
    const { fan, motor, printer } = heavyDemo;
    const design = { ...heavyDemo, printer: { ...printer, walls, infill_ratio } };
    const made = await make(design, { kernel });
    const items = massItems(design, printedVolumes(fan, motor, printer.holeShrink_mm));
    const set = printSet(kernel, design, made, { ways: false });
    for (const kind of ['rotor', 'duct'] as const) {
      const listed = items.find(({ name }) => name === kind)!.each_g;
      const part = made.parts.find((p) => p.kind === kind)!;
      expect(Math.abs(part.mass_g / listed - 1)).toBeLessThan(0.01);
      const read = set.parts.find((p) => p.kind === kind)!.print.mass_g;
      expect(Math.abs(listed / read - 1)).toBeLessThan(within);
    }
  },
);
