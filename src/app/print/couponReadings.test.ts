import { expect, test } from 'vitest';
import { readTyped } from './couponReadings.ts';

test('readings as typed: several of a size, a decimal comma, what is left out stays out', () => {
  const read = readTyped({ fin: '0.5', 'pin-3': '3,08 3.10', 'hole-5': '4.8', 'hole-2': ' ', lean: '' });
  expect(read).toEqual({
    ok: true,
    any: true,
    readings: {
      thinnestWholeFin_mm: 0.5,
      pins: [{ nominal_mm: 3, measured_mm: [3.08, 3.1] }],
      holes: [{ nominal_mm: 5, measured_mm: [4.8] }],
    },
  });
  expect(readTyped({})).toEqual({ ok: true, any: false, readings: {} });
});

test('what is no number is named with its place', () => {
  expect(readTyped({ 'hole-4': '3.8', 'pin-5': 'about 5' })).toMatchObject({
    ok: false,
    key: 'pin-5',
    error: expect.stringContaining('"about 5" at the pin of 5 mm is no number'),
  });
});
