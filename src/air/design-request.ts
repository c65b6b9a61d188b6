import type { Fan } from '../project/schema.ts';
import type { Air } from './atmosphere.ts';
import type { Passage } from './passage.ts';

/** How the blades' pressure rise is wanted over the radius. */
export type Loading = 'uniform' | 'free vortex' | 'printable';

/** What a blade is to do. SI. */
export interface DesignRequest {
  /** Everything but chord and angle: of its blade, the section, thickness and camber along the span are kept. */
  readonly fan: Fan;
  /** null: open rotor */
  readonly passage: Passage | null;
  readonly air: Air;
  /** Thrust of one fan with its duct, at rest [N] */
  readonly thrust: number;
  /** Angular speed [rad/s] */
  readonly omega: number;
  readonly loading: Loading;
  /** Lift coefficient to design for; left out: the one with the least drag at each radius. */
  readonly lift?: number | null;
  /** Least blade thickness that prints [m] */
  readonly leastThickness: number;
  /** Most that the blade may reach along the axis [m], for what stands behind it; left out: no matter. */
  readonly deepest?: number;
  /** Share of the largest lift left unused, 0.15 where left out. Common practice, no source. */
  readonly stallMargin?: number;
}
