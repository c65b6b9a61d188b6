import type { Fan } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import type { FanLayout } from './layout.ts';

/** Holes and gaps of a rotor as they are drawn [m], so that they come out right on the printer. */
export interface RotorFits {
  /** Radius of the hole in the hub for the shaft, its end or the thread. */
  readonly bore: number;
  /** Radius of the same hole in the cap, which the shaft passes freely. */
  readonly capBore: number;
  /** Radius of a hole that a hub screw passes, and of one that it cuts its thread in. */
  readonly screwHole: number;
  readonly screwCore: number;
  /** Gap on each side of key and platform of a blade apart. */
  readonly key: number;
  /** Gap on each side of the tongue of the spinner. */
  readonly tongue: number;
}

/** Clearance hole over thread, and core of a thread cut in plastic. Common practice, no source. */
const CLEARANCE_SHARE = 1.1;
const CORE_SHARE = 0.85;

/** Gap between printed mates where the printer is not known [m]. Common practice, no source. */
const USUAL_GAP = 0.0001;

/** Fits by the nominal dimensions and what the printer closes of a hole, for the mass build-up: within a milligram or so. */
export function usualFits(fan: Fan, layout: FanLayout, holeShrink_mm = 0): RotorFits {
  const widening = metresFromMillimetres(holeShrink_mm) / 2;
  const screw = metresFromMillimetres(fan.hub.screw_mm) / 2;
  const bore = Math.max(0, layout.hubBoreRadius + widening);
  return {
    bore,
    capBore: bore + USUAL_GAP,
    screwHole: Math.max(0, CLEARANCE_SHARE * screw + widening),
    screwCore: Math.max(0, CORE_SHARE * screw + widening),
    key: USUAL_GAP,
    tongue: USUAL_GAP,
  };
}
