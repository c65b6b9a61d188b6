import { describe, expect, it } from 'vitest';
import { bossDiameter, finishedHole, holeDiameter, matingGap, pinDiameter } from './fits.ts';

const filament = { xyError_mm: 0.05, xyScatter_mm: 0.06, holeShrink_mm: 0.2 };
const exact = { xyError_mm: 0, xyScatter_mm: 0, holeShrink_mm: 0 };
const mm = (metres: number) => metres * 1e3;

describe('fits', () => {
  it('stand in order: press, slide, clearance, in holes, on pins and between printed mates', () => {
    for (const printer of [filament, exact]) {
      const holes = (['press', 'slide', 'clearance'] as const).map((f) => holeDiameter(f, 3e-3, printer));
      expect(holes[0]).toBeLessThan(holes[1]);
      expect(holes[1]).toBeLessThan(holes[2]);
      const pins = (['press', 'slide', 'clearance'] as const).map((f) => pinDiameter(f, 3e-3, printer));
      expect(pins[0]).toBeGreaterThan(pins[1]);
      expect(pins[1]).toBeGreaterThan(pins[2]);
      const gaps = (['press', 'slide', 'clearance'] as const).map((f) => matingGap(f, 3e-3, printer));
      expect(gaps[0]).toBeLessThan(gaps[1]);
      expect(gaps[1]).toBeLessThan(gaps[2]);
    }
  });

  it('on an exact printer a clearance hole is what screw tables give within 0.3 mm', () => {
    // Medium series of ISO 273 (from memory): M2 2.4, M3 3.4, M4 4.5, M5 5.5 mm.
    for (const [thread, hole] of [
      [2, 2.4],
      [3, 3.4],
      [4, 4.5],
      [5, 5.5],
    ])
      expect(Math.abs(mm(finishedHole('clearance', thread * 1e-3, exact)) - hole)).toBeLessThan(0.3);
  });

  it('draws what the printer will take: the printed pair has the gap of an exact printer with the same scatter', () => {
    const off = { xyError_mm: 0.08, xyScatter_mm: 0.05, holeShrink_mm: 0.24 };
    const same = { xyError_mm: 0, xyScatter_mm: 0.05, holeShrink_mm: 0 };
    for (const fit of ['press', 'slide', 'clearance'] as const) {
      expect(mm(holeDiameter(fit, 3e-3, off)) - 0.24).toBeCloseTo(mm(holeDiameter(fit, 3e-3, same)), 9);
      expect(mm(pinDiameter(fit, 3e-3, off)) + 0.16).toBeCloseTo(mm(pinDiameter(fit, 3e-3, same)), 9);
      expect(mm(matingGap(fit, 3e-3, off)) - 0.08 - 0.12).toBeCloseTo(mm(matingGap(fit, 3e-3, same)), 9);
    }
  });

  it('never strains a small shaft by more than 4 % and never closes a hole', () => {
    const wild = { xyError_mm: 0.9, xyScatter_mm: 0.5, holeShrink_mm: -1 };
    expect(finishedHole('press', 1e-3, wild)).toBeGreaterThanOrEqual(0.96e-3);
    expect(holeDiameter('press', 1e-3, wild)).toBeGreaterThan(0);
    expect(pinDiameter('clearance', 1e-3, wild)).toBeGreaterThan(0);
  });

  it('keeps a thread in the plastic: core under the thread, insert hole over it, boss over both', () => {
    expect(mm(finishedHole('thread-forming', 3e-3, filament))).toBeCloseTo(2.55, 6);
    expect(mm(finishedHole('heat-set insert', 3e-3, filament))).toBeCloseTo(4.2, 6);
    expect(bossDiameter('heat-set insert', 3e-3, filament)).toBeGreaterThan(7e-3);
    expect(bossDiameter('thread-forming', 2e-3, filament)).toBeGreaterThan(3e-3);
  });
});
