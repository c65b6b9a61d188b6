import { seededRandom } from '../numerics/random.ts';

/** Blade counts up to which every order is tried; the longest list takes (10 - 1)! / 2 = 181 440 orders. */
export const EXACT_UP_TO = 10;

/** Starts of the search above that. */
const STARTS = 60;

/** Masses set round a hub, as one vector. */
export interface MassVector {
  /** In the unit of the masses; times the radius it is the unbalance. */
  readonly size: number;
  /** Where it points, from place 1 in the order of the places [rad], 0 to 2 pi. */
  readonly angle: number;
}

/** The best order found. */
export interface BladeOrder {
  /** Which blade (0-based, as weighed) stands at each place round the hub. */
  readonly order: readonly number[];
  readonly before: MassVector;
  readonly after: MassVector;
  /** Whether every order was tried, or the best of many searches taken. */
  readonly exact: boolean;
}

/** Sum of masses standing evenly round the axis, the first at angle 0. */
export function massVector(masses: readonly number[]): MassVector {
  let x = 0;
  let y = 0;
  masses.forEach((mass, i) => {
    const angle = (2 * Math.PI * i) / masses.length;
    x += mass * Math.cos(angle);
    y += mass * Math.sin(angle);
  });
  return { size: Math.hypot(x, y), angle: (Math.atan2(y, x) + 2 * Math.PI) % (2 * Math.PI) };
}

/**
 * Order of weighed blades round the hub with the least |sum m_i e_i|. Up to `EXACT_UP_TO` blades every order is tried, less
 * turns and mirror images, which change nothing; above, pairs are exchanged from many seeded starts until no exchange
 * helps. Of equal orders the first found stands. Throws for less than two blades: there is nothing to order.
 */
export function bestOrder(masses: readonly number[], exactUpTo = EXACT_UP_TO): BladeOrder {
  if (masses.length < 2) throw new Error(`bestOrder needs two blades or more; there were ${masses.length}`);
  const exact = masses.length <= exactUpTo;
  const order = exact ? tryAll(masses) : exchange(masses);
  return { order, before: massVector(masses), after: massVector(order.map((i) => masses[i])), exact };
}

function tryAll(masses: readonly number[]): number[] {
  const count = masses.length;
  const places = directions(count);
  let best = masses.map((_, i) => i);
  let least = Infinity;
  const order = [0];
  const used = new Array<boolean>(count).fill(false);
  used[0] = true;
  const go = (x: number, y: number) => {
    const place = order.length;
    if (place === count) {
      // A mirror image has the same size; a hair of rounding must not make it the better one.
      if (x * x + y * y < least * (1 - 1e-12) - 1e-30 && (count < 3 || order[1] < order[count - 1])) {
        least = x * x + y * y;
        best = [...order];
      }
      return;
    }
    for (let i = 1; i < count; i++) {
      if (used[i]) continue;
      used[i] = true;
      order.push(i);
      go(x + masses[i] * places[place].x, y + masses[i] * places[place].y);
      order.pop();
      used[i] = false;
    }
  };
  go(masses[0], 0);
  return best;
}

function exchange(masses: readonly number[]): number[] {
  const count = masses.length;
  const places = directions(count);
  const random = seededRandom(count);
  let best: number[] = [];
  let least = Infinity;
  for (let start = 0; start < STARTS; start++) {
    const order = masses.map((_, i) => i);
    if (start > 0)
      for (let i = count - 1; i > 0; i--) {
        const j = Math.floor(random.even() * (i + 1));
        [order[i], order[j]] = [order[j], order[i]];
      }
    const found = settle(masses, places, order);
    if (found < least) {
      least = found;
      best = order;
    }
  }
  const first = best.indexOf(0);
  return [...best.slice(first), ...best.slice(0, first)];
}

/** Exchanges pairs of `order` in place while one makes the sum smaller; its square when none does. */
function settle(masses: readonly number[], places: readonly Direction[], order: number[]): number {
  let x = 0;
  let y = 0;
  order.forEach((blade, place) => {
    x += masses[blade] * places[place].x;
    y += masses[blade] * places[place].y;
  });
  for (;;) {
    let least = x * x + y * y;
    let swap: readonly [number, number] | null = null;
    for (let i = 0; i < order.length; i++)
      for (let j = i + 1; j < order.length; j++) {
        const more = masses[order[j]] - masses[order[i]];
        const nx = x + more * (places[i].x - places[j].x);
        const ny = y + more * (places[i].y - places[j].y);
        if (nx * nx + ny * ny < least * (1 - 1e-9)) {
          least = nx * nx + ny * ny;
          swap = [i, j];
        }
      }
    if (!swap) return least;
    const [i, j] = swap;
    const more = masses[order[j]] - masses[order[i]];
    x += more * (places[i].x - places[j].x);
    y += more * (places[i].y - places[j].y);
    [order[i], order[j]] = [order[j], order[i]];
  }
}

interface Direction {
  readonly x: number;
  readonly y: number;
}

const directions = (count: number): Direction[] =>
  Array.from({ length: count }, (_, i) => ({
    x: Math.cos((2 * Math.PI * i) / count),
    y: Math.sin((2 * Math.PI * i) / count),
  }));
