import { describe, expect, it } from 'vitest';
import { describeField } from './describe.ts';
import { readEntry, stepFor, stepped } from './entry.ts';

describe('describeField', () => {
  it('knows label, unit, limits and help by path', () => {
    const gap = describeField('fan.tipGap_mm');
    expect(gap).toMatchObject({ label: 'Tip gap', unit: 'mm', min: 0, max: 20, whole: false });
    expect(gap.help).toContain('Gap between blade tip and duct wall');
    expect(describeField('fan.blade.3.chord_mm').label).toBe('Chord');
    expect(describeField('fan.bladeCount').whole).toBe(true);
    expect(describeField('battery.parallel').max).toBe(20);
    expect(describeField('brief.noiseWish_dBA').nullable).toBe(true);
    expect(describeField('battery.dischargeLimit_C').unit).toBe('C');
    expect(describeField('brief.airTemperature_C').unit).toBe('°C');
  });
});

describe('readEntry', () => {
  const gap = describeField('fan.tipGap_mm');
  it('accepts a number, a decimal comma and the unit', () => {
    expect(readEntry(' 0,35 mm ', gap)).toEqual({ ok: true, value: 0.35 });
    expect(readEntry('−5', describeField('brief.altitude_m'))).toEqual({ ok: true, value: -5 });
  });

  it('says what would be accepted', () => {
    expect(readEntry('25', gap)).toEqual({
      ok: false,
      why: 'Tip gap takes a number from 0 to 20 mm; 25 lies outside.',
    });
    expect(readEntry('wide', gap)).toEqual({
      ok: false,
      why: '"wide" is not a number; Tip gap takes a number from 0 to 20 mm.',
    });
    expect(readEntry('2.5', describeField('fan.bladeCount'))).toEqual({
      ok: false,
      why: 'Blades takes a whole number from 1 to 20, so 2.5 is not possible.',
    });
    expect(readEntry('', gap).ok).toBe(false);
    expect(readEntry('', describeField('brief.noiseWish_dBA'))).toEqual({ ok: true, value: null });
  });
});

describe('stepping', () => {
  it('keeps to round numbers within the limits', () => {
    const gap = describeField('fan.tipGap_mm');
    expect(stepFor(0.5, gap)).toBeCloseTo(0.01, 9);
    expect(stepped(0.5, 0.01, gap)).toBe(0.51);
    expect(stepped(0, -0.01, gap)).toBe(0);
    expect(stepped(76.03, 0.5, describeField('fan.tipDiameter_mm'))).toBe(76.5);
  });
});
