import type { Interval } from '../quantities/interval.ts';

/** Half of a 90 % interval over one standard deviation of a normal spread. */
export const NINETY = 1.645;

/** Half of the 90 % interval of one standard deviation found from few readings, by degrees of freedom 1, 2, ... Source: Student's t, two-sided 90 %. */
const STUDENT = [6.314, 2.92, 2.353, 2.132, 2.015, 1.943, 1.895, 1.86, 1.833, 1.812];
export const studentNinety = (freedom: number): number =>
  STUDENT[Math.floor(freedom) - 1] ?? NINETY + 1.67 / Math.max(freedom, 1);

export const around = (value: number, half: number): Interval => ({
  value,
  low: value - half,
  high: value + half,
});

/** Half of an interval that need not lie evenly about its value. */
export const halfOf = ({ low, high }: Interval): number => (high - low) / 2;

/** Root of the sum of squares: how independent errors add up. */
export const together = (...errors: readonly number[]): number => Math.hypot(...errors);

/**
 * `f` of some measured inputs with its 90 % interval: each input is moved to both ends of its own, one at a time, and the
 * effects add as independent errors (GUM, JCGM 100:2008, eq. 10). NaN of a moved answer counts as no change.
 */
export function propagated(inputs: readonly Interval[], f: (...values: number[]) => number): Interval {
  const values = inputs.map((input) => input.value);
  const value = f(...values);
  let down = 0;
  let up = 0;
  inputs.forEach((input, i) => {
    const ends = [input.low, input.high]
      .map((end) => f(...values.with(i, end)) - value)
      .filter((change) => Number.isFinite(change));
    down += Math.min(0, ...ends) ** 2;
    up += Math.max(0, ...ends) ** 2;
  });
  return { value, low: value - Math.sqrt(down), high: value + Math.sqrt(up) };
}
