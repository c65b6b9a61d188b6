import { describe, expect, it } from 'vitest';
import { heavyDemo } from '../../tests/demo.ts';
import type { Outline } from '../shape/section.ts';
import { sectionOutline } from '../shape/section.ts';
import { asPrintedSection, type Laying } from './as-printed.ts';
import { printedBlade } from './printed-fan.ts';
import { thinnestBlade } from './thinnest.ts';

const laying = (angle: number, change: Partial<Laying> = {}): Laying => ({
  lineWidth: 0.42e-3,
  layer: 0.12e-3,
  growth: 0,
  up: [Math.sin(angle), -Math.cos(angle), 0],
  ...change,
});
const upright = (change: Partial<Laying> = {}) => laying(0, { up: [0, 0, 1], ...change });
const section = (
  thickness: number,
  chord: number,
  trailingEdge = 0.002,
  family: 'four-digit' | 'flat-plate' = 'four-digit',
): Outline => {
  const { x, y } = sectionOutline({ family, thickness, camber: 0.05, camberPosition: 0.4, trailingEdge }, 30);
  return { x: x.map((v) => v * chord), y: y.map((v) => v * chord) };
};
const box = (length: number, height: number): Outline => ({
  x: Float64Array.of(length, 0, 0, length),
  y: Float64Array.of(height / 2, height / 2, -height / 2, -height / 2),
});

describe('section as printed', () => {
  it('a fine printer leaves the drawing', () => {
    for (const up of [laying(0.5).up, [0, 0, 1] as const]) {
      const { drawn, printed, areaShare } = asPrintedSection(section(0.1, 0.03), {
        lineWidth: 20e-6,
        layer: 20e-6,
        growth: 0,
        up,
      });
      expect(areaShare).toBeGreaterThan(0.998);
      expect(printed!.chord / drawn.chord).toBeGreaterThan(0.985);
      expect(Math.abs(printed!.thickness / drawn.thickness - 1)).toBeLessThan(0.003);
      expect(Math.abs(printed!.turn - drawn.turn)).toBeLessThan(0.003);
    }
  });

  it('upright, a sharp back edge is lost to where the section is one line thick, and blunt there', () => {
    const outline = section(0.1, 0.012);
    const { drawn, printed } = asPrintedSection(outline, upright());
    expect(printed!.edge).toBeGreaterThan(0.35e-3);
    expect(printed!.edge).toBeLessThan(0.46e-3);
    // Where the drawn section is 0.42 mm thick, by its own outline: upper less lower side at equal index.
    const n = (outline.x.length - 1) / 2;
    let there = 0;
    for (let k = n; k > 0; k--) {
      const thick = Math.hypot(outline.x[n - k] - outline.x[n + k], outline.y[n - k] - outline.y[n + k]);
      if (thick >= 0.42e-3 && there === 0) there = (outline.x[n - k] + outline.x[n + k]) / 2;
    }
    // The disc that just fits reaches half a line further than the place where it touches.
    expect(Math.abs(printed!.back - there - 0.21e-3)).toBeLessThan(0.4e-3);
    // A camber's tail lost leaves the rest flatter: the chord turns to a smaller blade angle.
    expect(printed!.turn - drawn.turn).toBeLessThan(-0.005);
    expect(Math.abs(printed!.camber)).toBeLessThan(Math.abs(drawn.camber));
  });

  it('is lost entirely below the thinnest blade and comes out above it, flat and upright', () => {
    const printer = { lineWidth_mm: 0.42, layer_mm: 0.12, minimumWall_mm: 0.42 };
    for (const angle of [0.3, 0.7, 1.1]) {
      const least = thinnestBlade(printer, 'flat', angle).comesOut;
      expect(asPrintedSection(box(8e-3, least * 1.03), laying(angle)).printed).not.toBeNull();
      expect(asPrintedSection(box(8e-3, least * 0.97), laying(angle)).printed).toBeNull();
    }
    const least = thinnestBlade(printer, 'upright', 0.4).comesOut;
    expect(asPrintedSection(box(8e-3, least * 1.03), upright()).printed).not.toBeNull();
    expect(asPrintedSection(box(8e-3, least * 0.97), upright()).printed).toBeNull();
  });

  it('grows within the layer only: upright on all sides, flat along the bed', () => {
    const grown = asPrintedSection(box(8e-3, 2e-3), upright({ growth: 0.05e-3 }));
    expect(grown.printed!.thickness - grown.drawn.thickness).toBeCloseTo(0.1e-3, 6);
    const angle = Math.PI / 6;
    const flat = asPrintedSection(box(8e-3, 2e-3), laying(angle, { growth: 0.05e-3 }));
    expect((flat.printed!.thickness - flat.drawn.thickness) * 1e3).toBeCloseTo(0.1 * Math.sin(angle), 3);
  });

  it('steps: none on a wall that stands, layer times cosine on a slope', () => {
    expect(asPrintedSection(box(8e-3, 2e-3), upright()).steps).toBe(0);
    const plate = asPrintedSection(box(80e-3, 1e-3), laying(0.5));
    expect(plate.steps * 1e3).toBeCloseTo(0.12 * Math.cos(0.5), 2);
  });

  it('a thick section in the right lay keeps its camber; nothing is ever NaN', () => {
    for (const t of [0.02, 0.05, 0.1, 0.2])
      for (const chord of [2e-3, 6e-3, 15e-3])
        for (const lay of [
          laying(0.1),
          laying(0.4),
          laying(1.4),
          upright(),
          laying(0.4, { up: [0.3, -0.5, 0.8] }),
        ]) {
          const result = asPrintedSection(section(t, chord), lay);
          for (const value of Object.values(result.printed ?? {})) expect(Number.isFinite(value)).toBe(true);
          expect(result.areaShare).toBeLessThan(1.01);
        }
  });
});

describe('the printed blade of a fan', () => {
  it('is remembered for what leaves it alone, and worked out again for what does not', () => {
    const { fan, printer } = heavyDemo;
    const first = printedBlade(fan, printer);
    expect(printedBlade({ ...fan, tipGap_mm: fan.tipGap_mm / 2 }, { ...printer })).toBe(first);
    const finer = printedBlade(fan, { ...printer, lineWidth_mm: 0.2 });
    expect(finer).not.toEqual(first);
    expect(printedBlade({ ...fan, hubDiameter_mm: fan.hubDiameter_mm + 1 }, printer)).not.toBe(first);
    expect(printedBlade({ ...fan, section: { ...fan.section, trailingEdge_mm: 0.9 } }, printer)).not.toEqual(
      first,
    );
    expect(printedBlade({ ...fan, blade: fan.blade.map((s) => ({ ...s })) }, printer)).toEqual(first);
  });
});
