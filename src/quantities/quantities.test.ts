import { expect, test } from 'vitest';
import { formatMinutes, formatNumber, formatPercent } from './format.ts';
import { intervalFrom } from './interval.ts';
import { angularSpeedFromRpm, rpmFromAngularSpeed } from './units.ts';

test.each([
  [0, '0'],
  [1.2345, '1.23'],
  [12.345, '12.3'],
  [123.45, '123'],
  [15123, '15 100'],
  [-0.0123, '−0.0123'],
  [9.999, '10.0'],
  [1234567, '1 230 000'],
  [Infinity, 'unlimited'],
  [NaN, 'unknown'],
])('formatNumber(%f) is %s', (value, text) => {
  expect(formatNumber(value)).toBe(text);
});

test('minutes and percent as people say them', () => {
  expect([formatMinutes(4.83), formatMinutes(5), formatMinutes(0.5)]).toEqual([
    '4 min 50 s',
    '5 min',
    '30 s',
  ]);
  expect([formatPercent(0.576), formatPercent(-0.0125, 1)]).toEqual(['58\u00a0%', '−1.3\u00a0%']);
});

test('an interval is the root sum of squares on either side', () => {
  const interval = intervalFrom(10, [
    [7, 13],
    [14, 6],
  ]);
  expect(interval).toEqual({ value: 10, low: 5, high: 15 });
  expect(intervalFrom(10, [[9, 9.5]])).toEqual({ value: 10, low: 9, high: 10 });
});

test('rpm and rad/s are each other back', () => {
  expect(rpmFromAngularSpeed(angularSpeedFromRpm(24_600))).toBeCloseTo(24_600, 9);
  expect(angularSpeedFromRpm(60)).toBeCloseTo(2 * Math.PI, 12);
});
