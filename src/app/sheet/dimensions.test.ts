import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fanProfiles } from '../../shape/profiles.ts';
import { demoProject } from '../state/examples.ts';
import { dimensionsOf } from './dimensions.ts';
import { fitFrame, pxPerMetre, scaleBelow, scaleInWords, xOf, yOf } from './frame.ts';

const { fan, motor } = demoProject();
const profiles = fanProfiles(fan, motor);
const frame = fitFrame(profiles, 600, 530);

describe('the frame of the half-section', () => {
  it('keeps a drawing scale and stays on the paper', () => {
    expect(frame.pxPerM).toBeCloseTo(pxPerMetre(frame.scale), 6);
    expect(scaleInWords(frame.scale)).toBe('2 : 1');
    expect(xOf(frame, profiles.layout.exitZ)).toBeLessThan(600 - 100);
    expect(yOf(frame, profiles.layout.outerRadius)).toBeGreaterThan(80);
    expect(frame.axisY).toBeLessThan(530 - 60);
  });

  it('takes the scale at or below the wanted one', () => {
    expect(scaleBelow(2)).toBe(2);
    expect(scaleBelow(1.99)).toBe(1.5);
    expect(scaleInWords(scaleBelow(0.45))).toBe('1 : 2.5');
    expect(scaleBelow(1e-9)).toBe(0.01);
  });
});

describe('the dimensions', () => {
  it('show the values of the project', () => {
    const shown = dimensionsOf(fan, profiles, frame);
    const of = (path: string | null) => shown.find((d) => d.path === path);
    expect(of('fan.tipDiameter_mm')?.text).toBe(`Ø ${fan.tipDiameter_mm.toFixed(1)} tip`);
    expect(of('fan.tipGap_mm')?.text).toBe(`gap ${fan.tipGap_mm.toFixed(2)}`);
    expect(of(null)?.value).toBeCloseTo(2000 * profiles.layout.outerRadius, 6);
    expect(new Set(shown.map((d) => d.path)).size).toBe(shown.length);
  });

  it('follow the pointer: the dragged edge lands where the pointer is', () => {
    const shown = dimensionsOf(fan, profiles, frame);
    const after = (path: string, dz: number, dr: number) =>
      shown.find((d) => d.path === path)?.moved?.(dz, dr) ?? Number.NaN;
    expect(after('fan.tipDiameter_mm', 0, 0.001)).toBeCloseTo(fan.tipDiameter_mm + 2, 9);
    expect(after('fan.duct.length_mm', 0.003, 0)).toBeCloseTo(fan.duct.length_mm + 3, 9);
    expect(after('fan.stator.chord_mm', -0.002, 0)).toBeCloseTo(fan.stator.chord_mm + 2, 9);
    const ratio = after('fan.duct.exitAreaRatio', 0, 0.0005);
    const wider = fanProfiles({ ...fan, duct: { ...fan.duct, exitAreaRatio: ratio } }, motor).layout;
    expect(wider.exitRadius).toBeCloseTo(profiles.layout.exitRadius + 0.0005, 9);
  });

  it('have a place for any fan the file can hold', () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    const any = fc.record({
      tip: number(10, 1500),
      hub: number(3, 500),
      lip: number(0, 100),
      length: number(2, 1000),
      depth: number(0, 500),
      ratio: number(0.3, 2),
      gap: number(0, 20),
      width: fc.integer({ min: 300, max: 1200 }),
      ducted: fc.boolean(),
    });
    fc.assert(
      fc.property(any, ({ tip, hub, lip, length, depth, ratio, gap, width, ducted }) => {
        const odd = {
          ...fan,
          kind: ducted ? ('ducted' as const) : ('open' as const),
          tipDiameter_mm: tip,
          hubDiameter_mm: hub,
          tipGap_mm: gap,
          duct: {
            ...fan.duct,
            lipRadius_mm: lip,
            length_mm: length,
            rotorDepth_mm: depth,
            exitAreaRatio: ratio,
          },
        };
        const shapes = fanProfiles(odd, motor);
        const paper = fitFrame(shapes, width, 500);
        for (const d of dimensionsOf(odd, shapes, paper)) {
          expect(Number.isFinite(d.at.x) && Number.isFinite(d.at.y)).toBe(true);
          expect(d.line + d.extension).not.toContain('NaN');
        }
      }),
      { numRuns: 300 },
    );
  });
});
