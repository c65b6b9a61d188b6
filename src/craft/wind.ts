import { mapAt } from '../air/flight-map.ts';
import { findRoot } from '../numerics/root.ts';
import { controlOf, type Control } from './control.ts';
import { fullThrustAt, hoverThrust, speedForThrust, type Flown } from './flight.ts';

/** A craft that stands still over the ground in a steady wind, leaning into it. SI. */
export interface WindState {
  readonly speed: number;
  /** Lean into the wind [rad] */
  readonly lean: number;
  /** Thrust of one fan in the mean, and the most it could give there with all at full throttle [N] */
  readonly thrust: number;
  readonly most: number;
  /** Drag of turning the air that all fans swallow (open rotors: drag of the blades), and of everything else [N] */
  readonly momentumDrag: number;
  readonly bodyDrag: number;
  /** Moment that lifts the windward side [Nm], and the differential thrust left about that axis over that in still air. */
  readonly upsetting: number;
  readonly marginLeft: number;
  /** Wind along the disc over the speed of the air through it: past about 1 the windward lip stalls and the model fails. */
  readonly crossRatio: number;
  /** Whether the fans can do it and the model reaches there. */
  readonly holds: boolean;
}

/** Where the wind comes from. */
export type From = 'front' | 'side';

/** The largest wind and what sets it. */
export interface WindLimits {
  readonly from: From;
  /** Steady wind with the control margin kept [m/s] */
  readonly steady: number;
  /** Sudden gust in a still hover with the same margin kept [m/s] */
  readonly gust: number;
  readonly steadyLimit: 'thrust' | 'control' | 'model';
  /** The state at the steady limit; null where it can't stand in any wind. */
  readonly atSteady: WindState | null;
}

/** Share of the still-air moment authority kept for steering. Common practice, no source. */
export const MARGIN_KEPT = 0.15;

/** Least thrust a fan is slowed to, over its most: below it a motor answers late. Common practice, no source. */
const IDLE = 0.05;

/**
 * Height above the lip at which the drag of the swallowed air acts, over the tip diameter. The air turns above the mouth and
 * the windward lip sucks harder than the leeward one; together they put the force above the lip. A quarter is our estimate,
 * of the order that wind-tunnel work on single ducted fans across a stream reports (Martin and Tung 2004; Graf, Fleming and
 * Gelhausen 2008; from memory); a half or a tenth would not surprise.
 */
export const LIP_ARM = 0.25;

/** Steepest lean looked at [rad]. */
const STEEPEST = (70 * Math.PI) / 180;

/** Fastest wind looked at [m/s]. */
export const FASTEST = 60;

const AXIS = { front: 'pitch', side: 'roll' } as const;

/** Section drag and lift slope [1/rad] of small blades at their Reynolds numbers, for the drag across the stream. From memory. */
const BLADE_DRAG = 0.03;
const LIFT_SLOPE = 5;

/**
 * In-plane drag of a rotor that does not flap, in a stream `along` [m/s] with `through` [m/s] of air through its disc:
 *   H = N V / 2 rho Int c (c_d Omega r + a theta v / 2) dr,
 * the mean over a turn of (dD + dL phi) sin psi with U_T = Omega r + V sin psi, U_P = v, c_l = a (theta - U_P / U_T); theta
 * is taken from zero lift, which a thin arc has at -2 camber. The second term, lift tilted back where the blade meets the
 * stream, is several times the first in small rotors. Source: blade-element theory with even inflow; Leishman, Principles of
 * Helicopter Aerodynamics, 2006, chapters 3 and 5 (from memory; the mean over the turn is ours).
 */
export function rotorInPlaneDrag(
  rotor: Flown['rotor'],
  density: number,
  omega: number,
  along: number,
  through: number,
): number {
  let sum = 0;
  for (let i = 0; i < rotor.radius.length; i++) {
    const fromZeroLift = rotor.angle[i] + 2 * rotor.sections[i].camber;
    sum +=
      rotor.chord[i] *
      rotor.width[i] *
      (BLADE_DRAG * omega * rotor.radius[i] + (LIFT_SLOPE * fromZeroLift * Math.max(0, through)) / 2);
  }
  return (rotor.bladeCount * along * density * sum) / 2;
}

/** Drag that one fan makes across a stream of `along` [m/s] in its plane while it turns at `omega` in air that comes at `axial`. */
function fanDrag(flown: Flown, omega: number, axial: number, along: number): number {
  const { air, rotor, passage } = flown;
  const massFlow = Math.max(0, mapAt(flown.map, omega, axial).massFlow);
  if (passage) return massFlow * along;
  const disc = Math.PI * (rotor.tipRadius ** 2 - rotor.hubRadius ** 2);
  return rotorInPlaneDrag(rotor, air.density, omega, along, massFlow / air.density / disc);
}

/** Moment about the centre of mass [Nm] of drags met in the plane of the discs; positive lifts the windward side. */
function upsettingOf({ placement, passage, rotor }: Flown, momentumDrag: number, bodyDrag: number): number {
  const actsAt = passage ? placement.topZ - LIP_ARM * 2 * rotor.tipRadius : placement.rotorZ;
  const middle = (placement.topZ + placement.exitZ) / 2;
  const centre = placement.whole.centre[2];
  return momentumDrag * (centre - actsAt) + bodyDrag * (centre - middle);
}

function controlWith(
  flown: Flown,
  from: From,
  thrust: number,
  most: number,
  omega: number,
  axial: number,
  upset: number,
): Control {
  const torque = mapAt(flown.map, omega, axial).torque;
  const reach = { least: IDLE * most, most, torqueOverThrust: thrust > 0 ? torque / thrust : 0 };
  const lift = thrust * flown.upward * flown.placement.fans.length;
  // The fans answer the other way: nose down (pitch below 0), or the side toward the wind down (wind from the right: roll above 0).
  return controlOf(flown.placement, reach, lift, from === 'front' ? { pitch: -upset } : { roll: upset });
}

/** Control in a level hover in still air; null where the fans can't give the thrust at all. */
export function hoverControl(flown: Flown): Control | null {
  const thrust = hoverThrust(flown);
  const omega = speedForThrust(flown, thrust, 0);
  return omega === null ? null : controlWith(flown, 'front', thrust, fullThrustAt(flown, 0), omega, 0, 0);
}

/**
 * The craft in a steady wind of `speed` [m/s]. Along and across the discs, with lean a into the wind:
 *   W sin a = n m V cos a + 1/2 rho (V cos a)^2 C_d A                    momentum (ram) and body drag
 *   n T cos(tilt) = W cos a + 1/2 rho (V sin a)^2 C_d A_top              T of the fan in air that comes at V sin a
 * Source: momentum drag as in Kuechemann and Weber, Aerodynamics of Propulsion, 1953 (from memory). What a stream across the
 * disc adds to its thrust is left out, which is on the safe side until the windward lip stalls.
 */
export function inWind(flown: Flown, speed: number, from: From): WindState {
  const { placement, air, drag, weight, upward, rotor } = flown;
  const fans = placement.fans.length;
  const at = (lean: number) => {
    const along = speed * Math.cos(lean);
    const axial = speed * Math.sin(lean);
    const press = (air.density / 2) * axial * axial * drag.above;
    const thrust = (weight * Math.cos(lean) + press) / upward / fans;
    const omega = speedForThrust(flown, thrust, axial);
    const turned = omega ?? flown.map.atAdvance[0].highest;
    return {
      along,
      axial,
      thrust,
      omega: turned,
      reached: omega !== null,
      momentumDrag: fans * fanDrag(flown, turned, axial, along),
      bodyDrag: (air.density / 2) * along * along * drag[from],
    };
  };
  const residual = (lean: number) => {
    const { momentumDrag, bodyDrag } = at(lean);
    return momentumDrag + bodyDrag - weight * Math.sin(lean);
  };
  const balanced = residual(STEEPEST) <= 0;
  const lean = speed > 0 && balanced ? findRoot(residual, 0, STEEPEST, 1e-7) : speed > 0 ? STEEPEST : 0;
  const state = at(lean);
  const most = fullThrustAt(flown, state.axial);
  const upsetting = upsettingOf(flown, state.momentumDrag, state.bodyDrag);
  const control = controlWith(flown, from, state.thrust, most, state.omega, state.axial, upsetting);
  const still = hoverControl(flown)?.moment[AXIS[from]] ?? 0;
  const flow = mapAt(flown.map, state.omega, state.axial);
  const disc = Math.PI * (rotor.tipRadius ** 2 - rotor.hubRadius ** 2);
  const through = flow.massFlow / air.density / disc;
  return {
    speed,
    lean,
    thrust: state.thrust,
    most,
    momentumDrag: state.momentumDrag,
    bodyDrag: state.bodyDrag,
    upsetting,
    marginLeft: still > 0 && control.holds ? control.moment[AXIS[from]] / still : 0,
    crossRatio: through > 0 ? state.along / through : Infinity,
    holds: balanced && state.reached && flow.within && control.holds,
  };
}

/** Largest value up to `top` at which `ok` still holds, met by steps of `step` and then by halving; 0 where it fails at once. */
function largest(ok: (x: number) => boolean, step: number, top: number): number {
  if (!ok(step / 100)) return 0;
  let low = step / 100;
  let high = step;
  while (high < top && ok(high)) {
    low = high;
    high += step;
  }
  if (high >= top) return top;
  for (let i = 0; i < 12; i++) {
    const middle = (low + high) / 2;
    if (ok(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** The largest steady wind and the largest sudden gust from one side with `MARGIN_KEPT` of the moment authority left. */
export function windLimits(flown: Flown, from: From): WindLimits {
  const still = hoverControl(flown);
  const axis = AXIS[from];
  const none: WindLimits = { from, steady: 0, gust: 0, steadyLimit: 'thrust', atSteady: null };
  if (!still?.holds) return none;
  if (still.without.includes(axis)) return { ...none, steadyLimit: 'control' };
  const keeps = (state: WindState) => state.holds && state.marginLeft >= MARGIN_KEPT;
  const steady = largest((v) => keeps(inWind(flown, v, from)), 2, FASTEST);
  const past = inWind(flown, Math.min(FASTEST, steady * 1.01 + 0.02), from);
  const steadyLimit =
    past.thrust >= past.most ? 'thrust' : past.marginLeft < MARGIN_KEPT ? 'control' : 'model';
  return {
    from,
    steady,
    gust: largest((v) => gustMargin(flown, v, from, still) >= MARGIN_KEPT, 2, FASTEST),
    steadyLimit,
    atSteady: steady > 0 ? inWind(flown, steady, from) : null,
  };
}

/** Share of the moment authority left the moment a level hover in still air is met by a gust of `speed` [m/s]. */
export function gustMargin(flown: Flown, speed: number, from: From, still = hoverControl(flown)): number {
  const thrust = hoverThrust(flown);
  const omega = speedForThrust(flown, thrust, 0);
  if (omega === null || !still || !(still.moment[AXIS[from]] > 0)) return 0;
  const momentumDrag = flown.placement.fans.length * fanDrag(flown, omega, 0, speed);
  const bodyDrag = (flown.air.density / 2) * speed * speed * flown.drag[from];
  const upset = upsettingOf(flown, momentumDrag, bodyDrag);
  const control = controlWith(flown, from, thrust, fullThrustAt(flown, 0), omega, 0, upset);
  return control.holds ? control.moment[AXIS[from]] / still.moment[AXIS[from]] : 0;
}
