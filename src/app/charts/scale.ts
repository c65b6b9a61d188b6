/** Round numbers from 0 or below to at least `top`, about `count` of them: 1, 2, 2.5 or 5 times a power of ten apart. */
export function roundTicks(top: number, count: number): readonly number[] {
  if (!(top > 0) || !Number.isFinite(top)) return [0, 1];
  const rough = top / count;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 2.5, 5, 10].map((m) => m * power).find((s) => s >= rough * 0.999) ?? 10 * power;
  const ticks: number[] = [];
  for (let i = 0; i * step < top + step * 0.999; i++) ticks.push(Number((i * step).toPrecision(12)));
  return ticks;
}

/** An SVG path through points [px], one decimal. */
export function linePath(points: Iterable<readonly [number, number]>, closed = false): string {
  let d = '';
  for (const [x, y] of points) d += `${d ? 'L' : 'M'}${x.toFixed(1)} ${y.toFixed(1)}`;
  return closed && d ? d + 'Z' : d;
}
