/** One trial run without phase: its amplitude, the place of the mass [rad], and its moment over the mean one. */
export interface AmplitudeReading {
  readonly amplitude: number;
  readonly angle: number;
  readonly share: number;
}

/** Where the circles meet, and the root mean square of the amplitudes missed there. */
export interface Meeting {
  readonly x: number;
  readonly y: number;
  readonly missed: number;
}

const STEPS = 60;

/**
 * The point M with A_i = |u_i M - O e^(i t_i)| as nearly as can be: least sum of squared misses of amplitude, found by
 * Gauss-Newton steps, halved where they overshoot. The start comes from the squares,
 * A_i^2 - O^2 = u_i^2 |M|^2 - 2 O u_i (x cos t_i + y sin t_i), which are linear in |M|^2, x and y.
 * null where the places leave that system without an answer (fewer than three different ones).
 */
export function fitAmplitudes(original: number, readings: readonly AmplitudeReading[]): Meeting | null {
  const rows = readings.map(({ amplitude, angle, share }) => ({
    terms: [
      share * share,
      -2 * original * share * Math.cos(angle),
      -2 * original * share * Math.sin(angle),
    ] as const,
    value: amplitude * amplitude - original * original,
  }));
  const linear = leastSquares(rows);
  if (!linear) return null;
  const [square, x, y] = linear;
  // The square and the parts are two readings of one length; where they differ, start from both.
  const starts = [{ x, y }];
  const length = Math.hypot(x, y);
  if (square > 0 && length > 0) {
    const scale = Math.sqrt(square) / length;
    starts.push({ x: x * scale, y: y * scale });
  }
  const found = starts.map((start) => descend(original, readings, start));
  return found.reduce((best, one) => (one.missed < best.missed ? one : best));
}

function missesAt(original: number, readings: readonly AmplitudeReading[], x: number, y: number) {
  return readings.map(({ amplitude, angle, share }) => {
    const dx = share * x - original * Math.cos(angle);
    const dy = share * y - original * Math.sin(angle);
    const size = Math.hypot(dx, dy);
    const over = size > 0 ? share / size : 0;
    return { miss: size - amplitude, byX: dx * over, byY: dy * over };
  });
}

const sumOfSquares = (misses: readonly { readonly miss: number }[]): number =>
  misses.reduce((sum, { miss }) => sum + miss * miss, 0);

function descend(
  original: number,
  readings: readonly AmplitudeReading[],
  start: { readonly x: number; readonly y: number },
): Meeting {
  let { x, y } = start;
  let misses = missesAt(original, readings, x, y);
  let sum = sumOfSquares(misses);
  for (let step = 0; step < STEPS; step++) {
    let [xx, xy, yy, gx, gy] = [0, 0, 0, 0, 0];
    for (const { miss, byX, byY } of misses) {
      xx += byX * byX;
      xy += byX * byY;
      yy += byY * byY;
      gx += byX * miss;
      gy += byY * miss;
    }
    const det = xx * yy - xy * xy;
    if (!(det > 1e-14 * (xx + yy) ** 2)) break;
    const dx = (xy * gy - yy * gx) / det;
    const dy = (xy * gx - xx * gy) / det;
    let share = 1;
    let next = missesAt(original, readings, x + dx, y + dy);
    while (sumOfSquares(next) > sum && share > 1e-6) {
      share /= 2;
      next = missesAt(original, readings, x + share * dx, y + share * dy);
    }
    const better = sumOfSquares(next);
    if (!(better < sum)) break;
    x += share * dx;
    y += share * dy;
    misses = next;
    const gained = sum - better;
    sum = better;
    if (gained <= 1e-24 * original * original) break;
  }
  return { x, y, missed: Math.sqrt(sum / readings.length) };
}

/** Three unknowns from three equations or more, by the normal equations; null where they do not fix them. */
function leastSquares(
  rows: readonly { readonly terms: readonly [number, number, number]; readonly value: number }[],
): readonly [number, number, number] | null {
  const scales = [0, 1, 2].map((k) => Math.sqrt(rows.reduce((sum, { terms }) => sum + terms[k] ** 2, 0)));
  if (scales.some((scale) => !(scale > 0))) return null;
  const m = [0, 1, 2].map((i) => [
    ...[0, 1, 2].map((j) =>
      rows.reduce((sum, { terms }) => sum + (terms[i] / scales[i]) * (terms[j] / scales[j]), 0),
    ),
    rows.reduce((sum, { terms, value }) => sum + (terms[i] / scales[i]) * value, 0),
  ]);
  for (let k = 0; k < 3; k++) {
    const pivot = [0, 1, 2]
      .slice(k)
      .reduce((best, r) => (Math.abs(m[r][k]) > Math.abs(m[best][k]) ? r : best), k);
    if (Math.abs(m[pivot][k]) < 1e-9) return null;
    [m[k], m[pivot]] = [m[pivot], m[k]];
    for (let r = 0; r < 3; r++) {
      if (r === k) continue;
      const share = m[r][k] / m[k][k];
      for (let c = k; c < 4; c++) m[r][c] -= share * m[k][c];
    }
  }
  const at = (k: number) => m[k][3] / m[k][k] / scales[k];
  return [at(0), at(1), at(2)];
}
