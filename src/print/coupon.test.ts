import { describe, expect, it } from 'vitest';
import { printers } from '../project/catalogue.ts';
import { COUPON, profileFromCoupon, readCouponReadings, type CouponReadings } from './coupon.ts';

const typical = printers[0].part;

/** Readings that a printer with these errors would give, the scatter alternating about the mean. */
function readingsOf(error: number, spread: number, shrink: number): CouponReadings {
  let sign = 1;
  return {
    thinnestWholeFin_mm: 0.6,
    pins: COUPON.pins.diameter.map((nominal_mm) => ({
      nominal_mm,
      measured_mm: [0, 1].map(() => nominal_mm + 2 * (error + (sign = -sign) * spread)),
    })),
    holes: COUPON.holes.map((nominal_mm) => ({ nominal_mm, measured_mm: nominal_mm - shrink })),
    narrowestOpenGap_mm: 0.2,
    steepestCleanLean_deg: 55,
  };
}

describe('profile from a coupon', () => {
  it('finds the errors that made the readings', () => {
    const found = profileFromCoupon(readingsOf(0.08, 0.03, 0.24), typical);
    if (!found.ok) throw new Error(found.error);
    expect(found.printer.xyError_mm).toBeCloseTo(0.08, 3);
    // Ten readings at plus and minus 0.03: sample deviation 0.03 sqrt(10 / 9).
    expect(found.printer.xyScatter_mm).toBeCloseTo(0.03 * Math.sqrt(10 / 9), 3);
    expect(found.printer.holeShrink_mm).toBeCloseTo(0.24, 3);
    expect(found.printer.minimumWall_mm).toBe(0.6);
    expect(found.printer.overhang_deg).toBe(55);
    expect(found.printer.source).toBe('coupon');
    expect(found.printer.lineWidth_mm).toBe(typical.lineWidth_mm);
    expect(found.words.join(' ')).toContain('agrees with the pins');
  });

  it('undersize and oversize holes keep their signs', () => {
    const found = profileFromCoupon(readingsOf(-0.05, 0.01, -0.1), typical);
    if (!found.ok) throw new Error(found.error);
    expect(found.printer.xyError_mm).toBeCloseTo(-0.05, 3);
    expect(found.printer.holeShrink_mm).toBeCloseTo(-0.1, 3);
    expect(found.words.join(' ')).toMatch(/smaller on each side/);
  });

  it('what was not read stays, and two pins say nothing of scatter', () => {
    const found = profileFromCoupon({ pins: [{ nominal_mm: 5, measured_mm: [5.1, 5.2] }] }, typical);
    if (!found.ok) throw new Error(found.error);
    expect(found.printer).toMatchObject({
      xyScatter_mm: typical.xyScatter_mm,
      holeShrink_mm: typical.holeShrink_mm,
      minimumWall_mm: typical.minimumWall_mm,
    });
  });

  it('refuses what cannot be, with the whole sentence', () => {
    expect(profileFromCoupon({ pins: [{ nominal_mm: 5, measured_mm: 6.1 }] }, typical)).toEqual({
      ok: false,
      error:
        'pins: 6.1 mm was read on the size 5 mm; a reading lies within 0.8 mm of its size, so it may belong to another one.',
    });
    expect(profileFromCoupon({}, typical).ok).toBe(false);
    expect(profileFromCoupon({ steepestCleanLean_deg: 120 }, typical).ok).toBe(false);
  });

  it('reads readings from JSON, or says what is wrong', () => {
    const good = readingsOf(0.05, 0.01, 0.2);
    expect(readCouponReadings(JSON.parse(JSON.stringify(good)))).toEqual({ ok: true, readings: good });
    for (const bad of [
      null,
      [],
      { fin: 3 },
      { pins: 5 },
      { pins: [{ nominal_mm: 5 }] },
      { holes: [{ nominal_mm: 5, measured_mm: [] }] },
      { thinnestWholeFin_mm: '0.5' },
    ]) {
      const read = readCouponReadings(bad);
      expect(read.ok).toBe(false);
    }
  });
});
