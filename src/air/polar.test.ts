import { describe, expect, test } from 'vitest';
import { polarAt, polarTable, readPolarCsv } from './polar.ts';
import { liftDrag, sectionStream } from './section.ts';

const DEGREE = Math.PI / 180;
const points = [40_000, 80_000].flatMap((reynolds) =>
  [-4, 0, 4, 8].map((deg) => ({
    reynolds,
    alpha: deg * DEGREE,
    cl: 0.4 + deg * 0.1 + reynolds / 1e6,
    cd: 0.03 - reynolds / 1e7,
  })),
);

test('between Reynolds numbers by their logarithm, held beyond', () => {
  const table = polarTable(points.toReversed());
  const middle = polarAt(table, Math.sqrt(40_000 * 80_000));
  expect(middle.cl[1]).toBeCloseTo((0.44 + 0.48) / 2, 9);
  expect(polarAt(table, 100).cd[0]).toBeCloseTo(0.026, 12);
  expect(polarAt(table, 1e7).cd[0]).toBeCloseTo(0.022, 12);
});

test('a section with a polar is that polar within its angles and the model beyond', () => {
  const shape = { thickness: 0.08, camber: 0.04, camberPosition: 0.4, trailingEdge: 0 };
  const measured = sectionStream({ ...shape, polar: polarTable(points) }, 80_000);
  const model = sectionStream(shape, 80_000);
  expect(liftDrag(measured, 2 * DEGREE).cl).toBeCloseTo(0.68, 9);
  expect(liftDrag(measured, 40 * DEGREE)).toEqual(liftDrag(model, 40 * DEGREE));
  const edge = 8 * DEGREE;
  expect(liftDrag(measured, edge + 1e-7).cl).toBeCloseTo(liftDrag(measured, edge).cl, 5);
});

test('too few angles', () => {
  expect(() => polarTable(points.slice(0, 2))).toThrow('at least three angles');
});

describe('reading CSV', () => {
  test('any order of columns, comments, semicolons, BOM', () => {
    const result = readPolarCsv('\uFEFF# tunnel\nCd;Re;alpha_deg;Cl;note\n0.02;60000;2;0.5;x\n');
    expect(result).toEqual({
      ok: true,
      points: [{ reynolds: 60_000, alpha: 2 * DEGREE, cl: 0.5, cd: 0.02 }],
    });
  });

  test.each([
    ['', 'The polar table is empty; it needs columns Re, alpha (degrees), Cl and Cd.'],
    ['Re,alpha,Cl\n1,2,3', 'Line 1 of the polar table has no column for cd; it needs Re, alpha, Cl and Cd.'],
    ['Re,alpha,Cl,Cd\n1,2,x,3', 'Line 2 of the polar table has no number for cl.'],
    ['Re,alpha,Cl,Cd\n-1,2,1,3', 'Line 2 of the polar table has Re -1; it must be above 0.'],
  ])('%j', (text, message) => {
    expect(readPolarCsv(text)).toEqual({ ok: false, message });
  });
});
