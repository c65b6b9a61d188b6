import type { Craft } from '../project/schema.ts';
import { radiansFromDegrees } from '../quantities/units.ts';

/** One fan as it stands in the craft. */
export interface FanPlace {
  /** Middle of the fan seen from above [m], x forward, y to the right; the middle of all fans is at 0, 0. */
  readonly x: number;
  readonly y: number;
  /** Direction of its thrust: unit vector, z down. */
  readonly thrust: readonly [x: number, y: number, z: number];
  /** Way the rotor turns seen from above: 1 with the clock, -1 against it. Its drag turns the craft the other way. */
  readonly turns: 1 | -1;
}

/**
 * Where the fans stand, `pitch` [m] from middle to middle of neighbours.
 * - ring: on a circle of radius pitch / (2 sin(pi / n)), two in front where there are more than two;
 * - row: side by side;
 * - two rows: the larger half in front.
 * Neighbours turn opposite ways; a ring of an odd number has one pair that doesn't. A
 * single fan turns against the clock: it is right-handed. A lean of `tilt_deg` turns each thrust
 * about the fan's own middle toward the middle of the craft.
 */
export function fanPlaces(craft: Pick<Craft, 'fanCount' | 'layout' | 'tilt_deg'>, pitch: number): FanPlace[] {
  const n = craft.fanCount;
  const tilt = radiansFromDegrees(craft.tilt_deg);
  const spots =
    craft.layout === 'ring' ? ring(n, pitch) : rows(n, craft.layout === 'row' ? n : Math.ceil(n / 2), pitch);
  const middleX = spots.reduce((sum, s) => sum + s.x, 0) / n;
  const middleY = spots.reduce((sum, s) => sum + s.y, 0) / n;
  return spots.map((spot): FanPlace => {
    const x = spot.x - middleX;
    const y = spot.y - middleY;
    const away = Math.hypot(x, y);
    const lean = away > 1e-9 * pitch ? tilt : 0;
    const across = away > 0 ? Math.sin(lean) / away : 0;
    return { x, y, thrust: [-across * x, -across * y, -Math.cos(lean)], turns: spot.turns };
  });
}

interface Spot {
  readonly x: number;
  readonly y: number;
  readonly turns: 1 | -1;
}

const turnsOf = (place: number): 1 | -1 => (place % 2 === 0 ? 1 : -1);

function ring(n: number, pitch: number): Spot[] {
  if (n === 1) return [{ x: 0, y: 0, turns: -1 }];
  const radius = pitch / (2 * Math.sin(Math.PI / n));
  return Array.from({ length: n }, (_, i) => {
    const angle = ((2 * i + 1) * Math.PI) / n;
    return { x: radius * Math.cos(angle), y: radius * Math.sin(angle), turns: turnsOf(i) };
  });
}

function rows(n: number, inFront: number, pitch: number): Spot[] {
  return Array.from({ length: n }, (_, i) => {
    const row = i < inFront ? 0 : 1;
    const inRow = row === 0 ? inFront : n - inFront;
    const place = row === 0 ? i : i - inFront;
    return {
      x: -row * pitch,
      y: (place - (inRow - 1) / 2) * pitch,
      turns: n === 1 ? -1 : turnsOf(place + row),
    };
  });
}
