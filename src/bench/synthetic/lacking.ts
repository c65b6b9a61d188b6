import { ANNULI } from '../../air/rotor.ts';
import type { Model } from '../../assess/model.ts';
import { bentFan, runBent } from '../diagnose/bent-fan.ts';
import type { FanLaw } from '../diagnose/running.ts';
import type { Unknowns } from '../diagnose/unknowns.ts';

/**
 * Faults the diagnosis knows no cause for, for the synthetic rig only: it must say that nothing it knows explains them.
 *
 *   slip     the rotor slips on its shaft above a torque: the marked motor turns, the blades do not
 *   step     the controller loses step in a stretch of the throttle and catches itself above it
 *   bending  the blades twist flat, then past flat, as speed and load grow
 *   zero     the zero of the scale walks away while the sweep goes up
 */
export type LackId = 'slip' | 'step' | 'bending' | 'zero';
export const LACKS: readonly LackId[] = ['slip', 'step', 'bending', 'zero'];

/** One of them and how gross it is, 0 to 1. */
export interface Lack {
  readonly id: LackId;
  readonly size: number;
}

export interface Lacking {
  readonly law: FanLaw;
  /** Factor on the duty that reaches the motor. */
  readonly duty: (throttle: number) => number;
  /** Added to the thrust the rig sees [N] */
  readonly offset: (throttle: number) => number;
}

/** `size` from 0 (hardly there) to 1 (gross). */
export function lackingLaw(
  { id, size }: Lack,
  law: FanLaw,
  highest: number,
  model: Model,
  u: Unknowns,
): Lacking {
  const one = () => 1;
  const none = () => 0;
  switch (id) {
    case 'slip': {
      const from = (0.65 - 0.25 * size) * highest;
      const turned = (omega: number) => (omega <= from ? omega : from + 0.15 * (omega - from));
      return {
        law: { thrustAt: (w) => law.thrustAt(turned(w)), torqueAt: (w) => law.torqueAt(turned(w)) },
        duty: one,
        offset: none,
      };
    }
    case 'step':
      return {
        law,
        duty: (throttle) => (throttle > 0.55 && throttle < 0.85 ? 1 - 0.4 * size : 1),
        offset: none,
      };
    case 'bending': {
      const at = (omega: number) =>
        runBent(
          bentFan(model, { ...u, angle: u.angle - 2.1 * size * (omega / highest) ** 4 }, 'right', ANNULI),
          omega,
        );
      return {
        law: {
          thrustAt: (w) => (w > 0 ? at(w).thrust : 0),
          torqueAt: (w) => (w > 0 ? Math.abs(at(w).torque) : 0),
        },
        duty: one,
        offset: none,
      };
    }
    case 'zero':
      return { law, duty: one, offset: (throttle) => -0.9 * size * model.needed * (1.2 - throttle) };
  }
}
