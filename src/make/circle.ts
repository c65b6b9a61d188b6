/** A circle about (x, y) as a closed polygon [mm], from lengths [m]. */
export function circle(radius: number, segments: number, x = 0, y = 0): [number, number][] {
  return Array.from({ length: segments }, (_, i) => {
    const a = (2 * Math.PI * i) / segments;
    return [1e3 * (x + radius * Math.cos(a)), 1e3 * (y + radius * Math.sin(a))];
  });
}
