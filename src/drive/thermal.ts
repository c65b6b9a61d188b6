import type { Motor } from '../project/schema.ts';
import { kilogramsFromGrams, metresFromMillimetres } from '../quantities/units.ts';
import { copperFactor } from './motor.ts';

/**
 * A motor's heat in two lumps: the winding on its stator, and the case (bell, magnets, base).
 *
 *   C_w dT_w/dt = P - (T_w - T_c) / R_wc           P: copper loss, which grows with T_w, and the no-load loss
 *   C_c dT_c/dt = (T_w - T_c) / R_wc - (T_c - T_air) / R_ca
 *
 * Source of the form: lumped heat capacities, any text on heat transfer; of the figures: see each.
 */
export interface MotorHeat {
  /** Heat capacities [J/K] */
  readonly windingCapacity: number;
  readonly caseCapacity: number;
  /** Resistances to heat [K/W] */
  readonly windingToCase: number;
  readonly caseToAir: number;
}

/** What heats it. */
export interface HeatLoad {
  /** Winding current [A] and its resistance at 20 C [ohm] */
  readonly current: number;
  readonly resistance: number;
  /** No-load loss [W]: iron, bearings and air, all counted to the stator, to be on the safe side. */
  readonly idleLoss: number;
  readonly air_C: number;
}

/** Where the enamel ages fast and small magnets begin to weaken [C]. Common practice, no source. */
export const WINDING_LIMIT_C = 120;

/** Factor either way on both heat resistances that holds nine motors in ten. Common practice, no source. */
export const HEAT_SPREAD = 1.6;

/** Share of the mass that is winding and stator, and specific heats [J/(kg K)] of copper on iron, and of steel with magnets. */
const WINDING_SHARE = 0.45;
const WINDING_HEAT = 420;
const CASE_HEAT = 460;

/** Winding to case, over the case's skin [W/(m2 K)]: through the stator to the base, and by air stirred in the bell. Common practice, no source. */
const INNER_FILM = 300;

/** Still air with radiation, over the skin [W/(m2 K)]. Common practice, no source. */
const STILL_FILM = 12;

/** What a turning bell in a swirling, unsteady stream gains over a smooth plate in a smooth one. Common practice, no source. */
const ROUGH_GAIN = 1.5;

/** Air near 40 C: conductivity [W/(m K)], kinematic viscosity [m2/s], Prandtl number. Source: from memory. */
const AIR = { conductivity: 0.027, viscosity: 1.7e-5, prandtl: 0.71 };

/**
 * The two lumps of a motor from its can and mass, in a stream of `airSpeed` [m/s], 0 and up. Film on the can as on a flat
 * plate of its length, Nu = 0.664 Re^0.5 Pr^(1/3) (laminar plate; e.g. Incropera and DeWitt, ch. 7, from memory), times 1.5,
 * never below still air. An estimate: `spread` multiplies both resistances (see `HEAT_SPREAD`).
 */
export function motorHeat(motor: Motor, airSpeed: number, spread = 1): MotorHeat {
  const diameter = metresFromMillimetres(motor.canDiameter_mm);
  const height = metresFromMillimetres(motor.canHeight_mm);
  const skin = Math.PI * diameter * height + (Math.PI / 2) * diameter * diameter;
  const reynolds = (Math.max(0, airSpeed) * height) / AIR.viscosity;
  const forced =
    (ROUGH_GAIN * 0.664 * Math.sqrt(reynolds) * Math.cbrt(AIR.prandtl) * AIR.conductivity) / height;
  const mass = kilogramsFromGrams(motor.mass_g);
  return {
    windingCapacity: mass * WINDING_SHARE * WINDING_HEAT,
    caseCapacity: mass * (1 - WINDING_SHARE) * CASE_HEAT,
    windingToCase: spread / (INNER_FILM * skin),
    caseToAir: spread / (Math.max(STILL_FILM, forced) * skin),
  };
}

/** Heat put into the winding at `winding_C` [W]. */
const heatAt = ({ current, resistance, idleLoss }: HeatLoad, winding_C: number): number =>
  current * current * resistance * copperFactor(winding_C) + idleLoss;

/** Winding and case in the long run [C]; null where the copper gains loss faster with heat than it sheds it: it burns. */
export function steadyHeat(
  heat: MotorHeat,
  load: HeatLoad,
): { readonly winding_C: number; readonly case_C: number } | null {
  const total = heat.windingToCase + heat.caseToAir;
  const atAir = heatAt(load, load.air_C);
  const growth = heatAt(load, load.air_C + 1) - atAir;
  const room = 1 - growth * total;
  if (room <= 0) return null;
  const winding_C = load.air_C + (atAir * total) / room;
  return { winding_C, case_C: load.air_C + heatAt(load, winding_C) * heat.caseToAir };
}

/** Longest time looked at [s]; a motor that lasts this long lasts longer than any pack. */
const LONGEST = 3600;

/**
 * Time [s] until the winding reaches `limit_C`, from `start` (left out: all at air temperature); null where it never does
 * within an hour. Fourth-order Runge-Kutta in steps of a tenth of the quickest time in it.
 */
export function timeToHeat(
  heat: MotorHeat,
  load: HeatLoad,
  limit_C = WINDING_LIMIT_C,
  start: { readonly winding_C: number; readonly case_C: number } = {
    winding_C: load.air_C,
    case_C: load.air_C,
  },
): number | null {
  if (start.winding_C >= limit_C) return 0;
  const steady = steadyHeat(heat, load);
  if (steady && steady.winding_C <= limit_C) return null;
  const { windingCapacity, caseCapacity, windingToCase, caseToAir } = heat;
  const rate = (w: number, c: number): [number, number] => {
    const through = (w - c) / windingToCase;
    return [
      (heatAt(load, w) - through) / windingCapacity,
      (through - (c - load.air_C) / caseToAir) / caseCapacity,
    ];
  };
  // The stiffest rate of the pair, and the time the heat alone would take to the limit, bound the step.
  const quickest = Math.min(
    1 / (1 / (windingCapacity * windingToCase) + 1 / (caseCapacity * windingToCase)),
    caseCapacity * caseToAir,
    ((limit_C - start.winding_C) * windingCapacity) / heatAt(load, limit_C),
  );
  const step = Math.min(quickest / 10, LONGEST / 100);
  let w = start.winding_C;
  let c = start.case_C;
  for (let time = 0; time < LONGEST; time += step) {
    const [w1, c1] = rate(w, c);
    const [w2, c2] = rate(w + (step / 2) * w1, c + (step / 2) * c1);
    const [w3, c3] = rate(w + (step / 2) * w2, c + (step / 2) * c2);
    const [w4, c4] = rate(w + step * w3, c + step * c3);
    const next = w + (step / 6) * (w1 + 2 * w2 + 2 * w3 + w4);
    if (next >= limit_C) return time + (step * (limit_C - w)) / (next - w);
    w = next;
    c += (step / 6) * (c1 + 2 * c2 + 2 * c3 + c4);
  }
  return null;
}
