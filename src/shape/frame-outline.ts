import { clippedBelow } from './clip.ts';

/** A point in the plane of a plate [m]. */
export type Point = readonly [x: number, y: number];

/** A plate with rounded corners round the origin, half as long and half as wide [m]. */
export interface Pad {
  readonly halfLength: number;
  readonly halfWidth: number;
  readonly corner: number;
}

/** A strip of even width that runs from the origin in the direction `angle` [rad]. */
export interface Tongue {
  readonly angle: number;
  readonly width: number;
  /** It ends in a hollow round a circle of this radius, whose middle lies this far off [m] ... */
  readonly circle?: { readonly distance: number; readonly radius: number };
  /** ... or square, this far off [m]. */
  readonly end?: number;
}

/** Directions in which an outline is cut, beside its corners. */
const RAYS = 720;

/** Pieces of the arc of a hollow end, and of a half-round one. */
const ARC = 16;

/**
 * Outline of a pad with tongues: both are seen whole from the origin, so their union is the farther of them in each
 * direction. Anticlockwise; corners that bend nowhere are left out.
 */
export function starOutline(pad: Pad, tongues: readonly Tongue[]): Point[] {
  const angles = new Set<number>();
  for (let i = 0; i < RAYS; i++) angles.add((2 * Math.PI * i) / RAYS);
  for (const tongue of tongues) {
    const half = Math.atan2(tongue.width / 2, tongueTip(tongue));
    for (const at of [tongue.angle - half, tongue.angle + half])
      angles.add(at - 2 * Math.PI * Math.floor(at / (2 * Math.PI)));
  }
  const sorted = [...angles].sort((a, b) => a - b).filter((at, i, all) => i === 0 || at - all[i - 1] > 1e-7);
  const points = sorted.map((at): Point => {
    const reach = Math.max(padReach(pad, at), ...tongues.map((tongue) => tongueReach(tongue, at)));
    return [reach * Math.cos(at), reach * Math.sin(at)];
  });
  return withoutStraights(points);
}

/** How far along the tongue its two corners lie. */
function tongueTip({ width, circle, end }: Tongue): number {
  if (!circle) return end ?? 0;
  return circle.distance - Math.sqrt(Math.max(0, circle.radius ** 2 - (width / 2) ** 2));
}

function padReach({ halfLength, halfWidth, corner }: Pad, angle: number): number {
  const [dx, dy] = [Math.abs(Math.cos(angle)), Math.abs(Math.sin(angle))];
  const square = Math.min(halfLength / Math.max(dx, 1e-12), halfWidth / Math.max(dy, 1e-12));
  const [x, y] = [halfLength - corner, halfWidth - corner];
  if (square * dx <= x || square * dy <= y) return square;
  const along = dx * x + dy * y;
  return along + Math.sqrt(Math.max(0, along ** 2 - (x * x + y * y - corner * corner)));
}

function tongueReach(tongue: Tongue, angle: number): number {
  const off = angle - tongue.angle;
  const [c, s] = [Math.cos(off), Math.abs(Math.sin(off))];
  if (c <= 0) return 0;
  const side = tongue.width / 2 / Math.max(s, 1e-12);
  if (!tongue.circle) return Math.min(side, (tongue.end ?? 0) / c);
  const { distance, radius } = tongue.circle;
  const under = radius ** 2 - (distance * s) ** 2;
  return under < 0 ? side : Math.min(side, distance * c - Math.sqrt(under));
}

/** A strip along x from a half-round end at `from` to a hollow round a circle about (`distance`, 0) [m]. */
export function armOutline(
  width: number,
  from: number,
  circle: { readonly distance: number; readonly radius: number },
): Point[] {
  const half = width / 2;
  const points: Point[] = [];
  for (let i = 0; i <= ARC; i++) {
    const a = Math.PI / 2 + (Math.PI * i) / ARC;
    points.push([from + half + half * Math.cos(a), half * Math.sin(a)]);
  }
  return [...points, ...hollow(half, circle)];
}

/** A strip along x between two circles of `radius` about (-`distance`, 0) and (`distance`, 0) [m], hollow at both ends. */
export function bridgeOutline(width: number, distance: number, radius: number): Point[] {
  const right = hollow(width / 2, { distance, radius });
  return [...right, ...right.map(([x, y]): Point => [-x, -y])];
}

function hollow(
  half: number,
  { distance, radius }: { readonly distance: number; readonly radius: number },
): Point[] {
  const reach = Math.asin(half / radius);
  return Array.from({ length: ARC + 1 }, (_, i): Point => {
    const a = reach * ((2 * i) / ARC - 1);
    return [distance - radius * Math.cos(a), radius * Math.sin(a)];
  });
}

/** Area of a closed outline [m2], positive where it runs anticlockwise. */
export function outlineArea(points: readonly Point[]): number {
  let twice = 0;
  points.forEach(([x, y], i) => {
    const [nextX, nextY] = points[(i + 1) % points.length];
    twice += x * nextY - nextX * y;
  });
  return twice / 2;
}

function withoutStraights(points: readonly Point[]): Point[] {
  return points.filter(([x, y], i) => {
    const [px, py] = points[(i + points.length - 1) % points.length];
    const [nx, ny] = points[(i + 1) % points.length];
    const length = Math.hypot(nx - px, ny - py);
    return Math.abs((x - px) * (ny - py) - (y - py) * (nx - px)) > 1e-8 * length;
  });
}

/** Area of an outline within a rectangle of `length` and `width` about (x, y), turned by `angle` [rad]. */
export function areaInRectangle(
  points: readonly Point[],
  { x, y, angle, length, width }: { x: number; y: number; angle: number; length: number; width: number },
): number {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const [along, across] = [c * x + s * y, c * y - s * x];
  let left: readonly Point[] = points;
  for (const side of [1, -1] as const) {
    left = clippedBelow(left, [side * c, side * s], side * along + length / 2);
    left = clippedBelow(left, [-side * s, side * c], side * across + width / 2);
  }
  return left.length < 3 ? 0 : outlineArea(left);
}
