import { runFan, type FanAir } from '../../air/fan.ts';
import { AS_DRAWN, departedModel, type Model } from '../../assess/model.ts';
import type { Turn, Unknowns } from './unknowns.ts';

/** A fan with something amiss, ready to run. */
export type BentFan = Pick<Model, 'rotor' | 'passage' | 'factors' | 'air'>;

/** The fan of `model` with the unknowns in it, on top of what the project's calibration knows already. */
export function bentFan(model: Model, u: Unknowns, turn: Turn, annuli: number): BentFan {
  const { built } = model;
  const bent = {
    ...built,
    chordKept: built.chordKept * (1 - u.edge),
    camberKept: built.camberKept * (1 - u.flat),
    blocked: built.blocked + u.blocked,
    turn: turn === 'right' ? built.turn : turn,
  };
  const departure = {
    ...AS_DRAWN,
    angle: u.angle,
    dragFactor: Math.exp(u.drag),
    liftFactor: Math.exp(u.lift),
    gap: u.gap,
    lossFactor: Math.exp(u.loss),
    exitFactor: Math.exp(u.exit),
  };
  // Without a rotor to take over, the bent blade is cut anew.
  const uncut = { ...model.rotor, radius: NO_ANNULI };
  return departedModel({ ...model, built: bent, rotor: uncut }, departure, annuli);
}

const NO_ANNULI = new Float64Array(0);

/** The fan at `omega` [rad/s]. */
export const runBent = (fan: BentFan, omega: number): FanAir =>
  runFan(fan.rotor, fan.passage, fan.air, { omega, axialSpeed: 0, ...fan.factors });
