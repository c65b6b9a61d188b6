import { findRoot } from '../numerics/root.ts';
import { fullThrustAt, hoverThrust, type Flown } from './flight.ts';

/** How fast a craft climbs straight up. */
export interface Climb {
  /** [m/s]; 0 where it does not lift. */
  readonly rate: number;
  /** Thrust of one fan at that rate [N] */
  readonly thrust: number;
  /** Drag of the craft at that rate [N] */
  readonly drag: number;
}

/** Steps in which the rate is hemmed in before it is found; a model's small fan leaves this far behind. [m/s] */
const STEP = 2;
const FASTEST = 120;

/**
 * Steady axial climb at full throttle of all fans: n T(V) cos(tilt) = W + 1/2 rho V^2 C_d A, the fan's thrust falling as the
 * air comes faster toward it. The heat of the motor and the falling charge are not looked at.
 */
export function climbOf(flown: Flown): Climb {
  const { placement, weight, upward, air, drag } = flown;
  const dragAt = (v: number) => (air.density / 2) * v * v * drag.above;
  const excess = (v: number) => placement.fans.length * fullThrustAt(flown, v) * upward - weight - dragAt(v);
  if (!(excess(0) > 0))
    return { rate: 0, thrust: Math.min(fullThrustAt(flown, 0), hoverThrust(flown)), drag: 0 };
  let high = STEP;
  while (excess(high) > 0 && high < FASTEST) high += STEP;
  const rate = excess(high) > 0 ? high : findRoot(excess, high - STEP, high, 1e-6);
  return { rate, thrust: fullThrustAt(flown, rate), drag: dragAt(rate) };
}
