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

/** Gap that remains between printed mates, and around what passes a hole freely [m]. Common practice, no source. */
const USUAL_GAP = 0.00016;

/**
 * Fits as good parts come out, for the mass build-up: it counts the printed part, whose gaps the printer has closed by what
 * they were drawn wider. Rotors in one piece agree with the drawn solids within 1 %, in parts within 5 %.
 */
export function usualFits(fan: Fan, layout: FanLayout, holeShrink_mm = 0): RotorFits {
  const widening = metresFromMillimetres(holeShrink_mm) / 2;
  const screw = metresFromMillimetres(fan.hub.screw_mm) / 2;
  const bore = Math.max(0, layout.hubBoreRadius + widening);
  const pressed = fan.hub.hold === 'press fit';
  return {
    bore: pressed ? bore : bore + USUAL_GAP,
    capBore: bore + USUAL_GAP,
    screwHole: Math.max(0, CLEARANCE_SHARE * screw + widening),
    screwCore: Math.max(0, CORE_SHARE * screw + widening),
    key: USUAL_GAP,
    tongue: USUAL_GAP,
  };
}
