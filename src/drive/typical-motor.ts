import type { Motor } from '../project/schema.ts';
import type { Interval } from '../quantities/interval.ts';

/** What a motor of a stator size usually is, each with the range nine of ten fall in. */
export interface TypicalMotor {
  readonly resistance_mohm: Interval;
  readonly noLoadCurrent_A: Interval;
  readonly noLoadVoltage_V: number;
  readonly continuousCurrent_A: Interval;
  readonly burstCurrent_A: Interval;
  readonly mass_g: Interval;
  readonly canDiameter_mm: Interval;
  readonly canHeight_mm: Interval;
  /** Always true: nobody measured this motor. */
  readonly estimate: true;
  readonly source: 'common practice, no source';
}

/** Stators and speeds the estimate was made from; outside, it is refused. */
const REACH = { diameter: [9, 30], height: [1.5, 12], velocityConstant: [600, 20_000] } as const;

/** Factors either way that hold nine motors in ten. Wider than the scatter of the catalogue, whose figures are middles. */
const SPREAD = { resistance: 1.6, noLoadCurrent: 2, current: 1.5, mass: 1.3, size: 1.1 };

const around = (value: number, factor: number): Interval => ({
  value,
  low: value / factor,
  high: value * factor,
});

/**
 * An outrunner's usual figures from its stator (diameter and height [mm], as the trade counts them: 1404 is 14 by 4) and
 * its velocity constant [rpm/V]. Power laws through the generic motors of the catalogue: R ~ D^-3.5 H^-1.2 / K_v^2 (the same
 * copper, cut finer), I_0 ~ (D^2 H)^0.915 K_v, mass ~ D^2.1 H^0.75. Common practice, no source. Null outside stators of 9
 * to 30 mm by 1.5 to 12 mm or 600 to 20 000 rpm/V.
 */
export function typicalMotor(
  statorDiameter_mm: number,
  statorHeight_mm: number,
  velocityConstant_rpmPerV: number,
): TypicalMotor | null {
  const inside = (value: number, [low, high]: readonly [number, number]) => value >= low && value <= high;
  if (
    !inside(statorDiameter_mm, REACH.diameter) ||
    !inside(statorHeight_mm, REACH.height) ||
    !inside(velocityConstant_rpmPerV, REACH.velocityConstant)
  )
    return null;
  const d = statorDiameter_mm;
  const h = statorHeight_mm;
  const resistance = (1.165e14 * d ** -3.507 * h ** -1.212) / velocityConstant_rpmPerV ** 2;
  const mass = 0.011 * d ** 2.124 * h ** 0.747;
  const continuous = 15.87 * mass ** 0.634 * resistance ** -0.392;
  return {
    resistance_mohm: around(resistance, SPREAD.resistance),
    noLoadCurrent_A: around(2.781e-7 * (d * d * h) ** 0.915 * velocityConstant_rpmPerV, SPREAD.noLoadCurrent),
    noLoadVoltage_V: Math.min(12, Math.max(3, Math.round(35_000 / velocityConstant_rpmPerV))),
    continuousCurrent_A: around(continuous, SPREAD.current),
    burstCurrent_A: around(1.37 * continuous, SPREAD.current),
    mass_g: around(mass, SPREAD.mass),
    canDiameter_mm: around(1.387 * d ** 0.967, SPREAD.size),
    canHeight_mm: around(6.494 * h ** 0.505, 1.3),
    estimate: true,
    source: 'common practice, no source',
  };
}

/** The middle of the estimate as keys of a project's motor group. */
export function typicalMotorKeys(typical: TypicalMotor): Partial<Motor> {
  const tidy = (interval: Interval) => Number(interval.value.toPrecision(3));
  return {
    resistance_mohm: tidy(typical.resistance_mohm),
    noLoadCurrent_A: tidy(typical.noLoadCurrent_A),
    noLoadVoltage_V: typical.noLoadVoltage_V,
    continuousCurrent_A: tidy(typical.continuousCurrent_A),
    burstCurrent_A: tidy(typical.burstCurrent_A),
    mass_g: tidy(typical.mass_g),
    canDiameter_mm: tidy(typical.canDiameter_mm),
    canHeight_mm: tidy(typical.canHeight_mm),
  };
}
