import type { FanMap } from '../air/map.ts';
import type { Supply } from '../drive/supply.ts';
import type { Project } from '../project/schema.ts';
import { answersFrom, scaledMap, type Answers } from './answers.ts';
import { AS_DRAWN, departedModel, quotedSupply, type Departure, type Model } from './model.ts';
import { runAt } from './point.ts';

/** Half of a 90 % interval over one standard deviation of a normal spread. */
const NINETY = 1.645;

/**
 * Half-widths (90 %) of what is not known before building. Section drag and lift: from the blind errors of the model on the
 * measured research rotors (rms 7.6 % of thrust, 7.3 % of power: docs/checks.md), taken at 1.645 standard deviations and
 * rounded, drag doubled because power feels only a part of it. Part-throttle loss: from none to twice the default, which
 * spans what one measured stand run leaves open (checks/motor.ts). The rest: common practice, no source.
 */
export const HALF_WIDTHS = {
  angle: (1 * Math.PI) / 180,
  drag: 0.25,
  lift: 0.12,
  ductLosses: 0.5,
  exitArea: 0.06,
  velocityConstant: 0.05,
  motorResistance: 0.15,
  packResistance: 0.3,
  ripple: 1,
  mass: 0.03,
} as const;

/** The answers with one unknown moved down, and up. */
export interface Moved {
  readonly name: string;
  readonly down: Answers;
  readonly up: Answers;
  /** Thrust and torque at a given speed over those as drawn, down and up. */
  readonly factors: readonly [FanFactors, FanFactors];
}

export interface FanFactors {
  readonly thrust: number;
  readonly torque: number;
}

/** Annuli of a moved fan: only its ratio to the drawn one is used. */
const RATIO_ANNULI = 10;

const SAME: FanFactors = { thrust: 1, torque: 1 };

/**
 * Every answer with each unknown moved to either end of its interval, one at a time. A moved fan is run once, near hover
 * speed, and the ratio to the drawn fan carries over the map: the ratios change little with speed.
 */
export function movedAnswers(model: Model, map: FanMap, supply: Supply, omega: number): Moved[] {
  const { project } = model;
  const drawn = departedModel(model, AS_DRAWN, RATIO_ANNULI);
  const base = runAt(drawn, omega);
  const fanFactors = (departure: Partial<Departure>): FanFactors => {
    const run = runAt(departedModel(drawn, { ...AS_DRAWN, ...departure }, RATIO_ANNULI), omega);
    const ratio = (a: number, b: number) => (b > 0 && a > 0 ? a / b : 1);
    return { thrust: ratio(run.thrust, base.thrust), torque: ratio(run.torque, base.torque) };
  };
  const fan = (name: string, down: Partial<Departure>, up: Partial<Departure>) => {
    const factors = [fanFactors(down), fanFactors(up)] as const;
    const answer = (f: FanFactors) =>
      answersFrom(project, supply, scaledMap(map, f.thrust, f.torque), model.needed);
    return { name, factors, down: answer(factors[0]), up: answer(factors[1]) };
  };
  const drive = (name: string, change: (factor: number) => Project, half: number) => {
    const answer = (factor: number) => {
      const changed = change(factor);
      return answersFrom(changed, quotedSupply(changed), map, model.needed);
    };
    return { name, factors: [SAME, SAME] as const, down: answer(1 - half), up: answer(1 + half) };
  };
  const gap = NINETY * project.printer.xyScatter_mm * 1e-3;
  const weight = (factor: number) => answersFrom(project, supply, map, model.needed * factor);
  return [
    fan('blade angle', { angle: -HALF_WIDTHS.angle }, { angle: HALF_WIDTHS.angle }),
    fan('section drag', { dragFactor: 1 - HALF_WIDTHS.drag }, { dragFactor: 1 + HALF_WIDTHS.drag }),
    fan('section lift', { liftFactor: 1 - HALF_WIDTHS.lift }, { liftFactor: 1 + HALF_WIDTHS.lift }),
    ...(model.passage
      ? [
          fan(
            'duct losses',
            { lossFactor: 1 - HALF_WIDTHS.ductLosses },
            { lossFactor: 1 + HALF_WIDTHS.ductLosses },
          ),
          fan('jet area', { exitFactor: 1 - HALF_WIDTHS.exitArea }, { exitFactor: 1 + HALF_WIDTHS.exitArea }),
        ]
      : []),
    ...(model.passage && gap > 0 ? [fan('tip gap', { gap: -gap }, { gap })] : []),
    drive(
      'motor speed per volt',
      (f) => withMotor(project, { velocityConstant_rpmPerV: project.motor.velocityConstant_rpmPerV * f }),
      HALF_WIDTHS.velocityConstant,
    ),
    drive(
      'winding resistance',
      (f) => withMotor(project, { resistance_mohm: project.motor.resistance_mohm * f }),
      HALF_WIDTHS.motorResistance,
    ),
    drive(
      'battery resistance',
      (f) => ({
        ...project,
        battery: { ...project.battery, cellResistance_mohm: project.battery.cellResistance_mohm * f },
      }),
      HALF_WIDTHS.packResistance,
    ),
    drive(
      'part-throttle loss',
      (f) => ({
        ...project,
        controller: { ...project.controller, rippleLoss_S: project.controller.rippleLoss_S * f },
      }),
      HALF_WIDTHS.ripple,
    ),
    {
      name: 'mass',
      factors: [SAME, SAME],
      down: weight(1 - HALF_WIDTHS.mass),
      up: weight(1 + HALF_WIDTHS.mass),
    },
  ];
}

const withMotor = (project: Project, change: Partial<Project['motor']>): Project => ({
  ...project,
  motor: { ...project.motor, ...change },
});
