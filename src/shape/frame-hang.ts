/** How one fan hangs on the craft. */
export interface Hang {
  readonly fan: number;
  /** The neighbour it hangs on; null: the plate in the middle. */
  readonly parent: number | null;
  /** Direction in which its strip runs toward it, seen from above with x toward y [rad]. */
  readonly angle: number;
}

interface Spot {
  readonly x: number;
  readonly y: number;
}

/**
 * What each fan hangs on, in the order of the fans: the plate where a strip of `width` [m] reaches its duct of
 * `outerRadius` without crossing another, else the nearest neighbour (`pitch` off) that already hangs. A fan that neither
 * reaches is left out, as is one that stands in the middle.
 */
export function hangsOf(fans: readonly Spot[], outerRadius: number, pitch: number, width: number): Hang[] {
  const found = new Map<number, Hang>();
  fans.forEach((to, fan) => {
    const distance = Math.hypot(to.x, to.y);
    if (distance <= outerRadius) return;
    const clear = fans.every((other, i) => i === fan || passes(to, other, outerRadius + width / 2));
    if (clear) found.set(fan, { fan, parent: null, angle: Math.atan2(to.y, to.x) });
  });
  for (let round = 0; round < fans.length; round++) {
    const held = [...found.keys()];
    fans.forEach((to, fan) => {
      if (found.has(fan) || Math.hypot(to.x, to.y) <= outerRadius) return;
      const parent = held.find((i) => Math.hypot(fans[i].x - to.x, fans[i].y - to.y) < 1.01 * pitch);
      if (parent === undefined) return;
      const from = fans[parent];
      found.set(fan, { fan, parent, angle: Math.atan2(to.y - from.y, to.x - from.x) });
    });
  }
  return [...found.values()].sort((a, b) => a.fan - b.fan);
}

/** Whether the straight way from the origin to `to` stays at least `room` from `other`. */
function passes(to: Spot, other: Spot, room: number): boolean {
  const length = Math.hypot(to.x, to.y);
  const along = (other.x * to.x + other.y * to.y) / length;
  if (along <= 0 || along >= length) return true;
  return Math.abs(other.x * to.y - other.y * to.x) / length >= room;
}

/** Directions of the strips that meet at each fan, seen from it [rad]: toward what it hangs on first. */
export function stripsAt(hangs: readonly Hang[]): number[][] {
  return hangs.map(({ fan, angle }) => [
    angle + Math.PI,
    ...hangs.filter(({ parent }) => parent === fan).map((child) => child.angle),
  ]);
}

/** Fewest lugs, evenly round the duct, that offer one to every strip; null where eight do not. `least` or more. */
export function lugsFor(strips: readonly (readonly number[])[], least = 1): number | null {
  for (let count = Math.max(1, least); count <= 8; count++) if (lugsSuit(strips, count)) return count;
  return null;
}

/** Whether `count` lugs, the first turned toward the first strip, offer one to every strip (within 2 degrees). */
export function lugsSuit(strips: readonly (readonly number[])[], count: number): boolean {
  const step = (2 * Math.PI) / count;
  return strips.every(([first, ...others]) =>
    others.every((angle) => {
      const turns = (angle - first) / step;
      return Math.abs(turns - Math.round(turns)) * step < Math.PI / 90;
    }),
  );
}
