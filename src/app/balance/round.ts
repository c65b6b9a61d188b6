/** A point at an angle clockwise from the top and a distance from the middle, in a drawing with y downward. */
export function on(angle_deg: number, distance: number): { readonly x: number; readonly y: number } {
  const t = (angle_deg * Math.PI) / 180;
  return { x: distance * Math.sin(t), y: -distance * Math.cos(t) };
}
