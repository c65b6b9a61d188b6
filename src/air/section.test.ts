import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bluntEdgeDrag, liftDrag, sectionStream, zeroLiftPerCamber, type SectionShape } from './section.ts';

const arc: SectionShape = { thickness: 0.05, camber: 0.05, camberPosition: 0.5, trailingEdge: 0 };
const unit = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('zero-lift angle by thin-section theory', () => {
  test('circular arc: minus two radians for each unit of camber', () => {
    expect(zeroLiftPerCamber(0.5)).toBeCloseTo(-2, 12);
  });
  test('NACA 2412 mean line: -2.08 degrees (Abbott and von Doenhoff, Theory of Wing Sections, appendix: from memory)', () => {
    expect((zeroLiftPerCamber(0.4) * 0.02 * 180) / Math.PI).toBeCloseTo(-2.08, 1);
  });
});

test('finite, positive drag and continuous lift at any angle, Reynolds number and shape', () => {
  fc.assert(
    fc.property(
      unit(-Math.PI, Math.PI),
      unit(3, 6.5),
      unit(0.005, 0.4),
      unit(-0.15, 0.15),
      unit(0.1, 0.9),
      unit(0, 0.2),
      unit(0, 2),
      (alpha, logRe, thickness, camber, camberPosition, trailingEdge, chordOverRadius) => {
        const stream = sectionStream(
          { thickness, camber, camberPosition, trailingEdge },
          10 ** logRe,
          0.2,
          chordOverRadius,
        );
        const { cl, cd } = liftDrag(stream, alpha);
        expect(Number.isFinite(cl)).toBe(true);
        expect(cd).toBeGreaterThan(0);
        expect(cd).toBeLessThan(4);
        expect(Math.abs(cl)).toBeLessThan(4);
        expect(Math.abs(liftDrag(stream, alpha + 1e-7).cl - cl)).toBeLessThan(1e-4);
      },
    ),
    { seed: 11, numRuns: 3000 },
  );
});

test('across +-180 degrees the section is one and the same', () => {
  const stream = sectionStream(arc, 5e4);
  expect(liftDrag(stream, Math.PI - 1e-9).cl).toBeCloseTo(liftDrag(stream, -Math.PI + 1e-9).cl, 6);
});

test('a plate square to the stream: drag near 2, no lift', () => {
  const { cl, cd } = liftDrag(sectionStream({ ...arc, camber: 0 }, 1e5), Math.PI / 2);
  expect(cd).toBeGreaterThan(1.8);
  expect(cd).toBeLessThan(2.3);
  expect(Math.abs(cl)).toBeLessThan(0.01);
});

test('directions that physics fixes', () => {
  const at = (shape: SectionShape, re: number, alpha = 0.07) => liftDrag(sectionStream(shape, re), alpha);
  const thick: SectionShape = { ...arc, thickness: 0.12, camberPosition: 0.4 };
  // Thick sections lose lift over drag at low Re far more than thin plates do (Schmitz 1942; Mueller 1999).
  const worth = (shape: SectionShape, re: number) => at(shape, re).cl / at(shape, re).cd;
  expect(worth(thick, 1.5e4) / worth(thick, 2e5)).toBeLessThan(worth(arc, 1.5e4) / worth(arc, 2e5));
  expect(at(arc, 2e4).cd).toBeGreaterThan(at(arc, 2e5).cd);
  expect(at({ ...arc, trailingEdge: 0.04 }, 5e4).cd).toBeGreaterThan(at(arc, 5e4).cd);
  expect(at({ ...arc, camber: 0.06 }, 5e4).cl).toBeGreaterThan(at(arc, 5e4).cl);
  expect(bluntEdgeDrag(0, 0.02)).toBe(0);
});
