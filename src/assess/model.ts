import { atmosphere, type Air } from '../air/atmosphere.ts';
import type { FanRun } from '../air/fan.ts';
import { fanMap, type FanMap } from '../air/map.ts';
import { passageOf, type Passage } from '../air/passage.ts';
import { ANNULI, type RotorAir } from '../air/rotor.ts';
import { tiltLoss } from '../craft/control.ts';
import { massItems, totalMass_g, type MassItem } from '../craft/mass.ts';
import { restVoltage } from '../drive/battery.ts';
import { motorConstants } from '../drive/motor.ts';
import { supplyAt, type DriveDay, type Supply } from '../drive/supply.ts';
import { printedBlade, type PrintedBlade } from '../print/printed-fan.ts';
import { PLAIN_CALIBRATION } from '../project/calibration.ts';
import type { Project } from '../project/schema.ts';
import { GRAVITY } from '../quantities/constants.ts';
import { kilogramsFromGrams } from '../quantities/units.ts';
import { fanLayout, type FanLayout } from '../shape/layout.ts';
import { printedVolumes, type PrintedVolumes } from '../shape/volumes.ts';
import { builtOf, builtRotor, type Built } from './built.ts';

/** State of charge at which hover and full throttle are quoted: half full, the middle of a flight. */
export const QUOTED_CHARGE = 0.5;

/** How far one draw of the unknowns departs from the drawing; all zero or one: as drawn. */
export interface Departure {
  readonly angle: number;
  readonly dragFactor: number;
  readonly liftFactor: number;
  /** Added to the tip gap [m] */
  readonly gap: number;
  /** Factor on every loss coefficient of the duct. */
  readonly lossFactor: number;
  /** Factor on the area the jet fills at the exit. */
  readonly exitFactor: number;
}

export const AS_DRAWN: Departure = {
  angle: 0,
  dragFactor: 1,
  liftFactor: 1,
  gap: 0,
  lossFactor: 1,
  exitFactor: 1,
};

/** The physical model of a project, ready to be asked. SI. */
export interface Model {
  readonly project: Project;
  readonly air: Air;
  readonly layout: FanLayout;
  readonly rotor: RotorAir;
  /** The blade as this printer makes it; null: taken as drawn. */
  readonly printed: PrintedBlade | null;
  /** What the bench taught about the fan, in `rotor`, `passage` and `factors` already. */
  readonly built: Built;
  /** null: open rotor */
  readonly passage: Passage | null;
  readonly factors: Pick<FanRun, 'dragFactor' | 'liftFactor'>;
  readonly volumes: PrintedVolumes;
  readonly items: readonly MassItem[];
  readonly mass: number;
  /** Thrust each fan must give in hover [N] */
  readonly needed: number;
  readonly discArea: number;
}

/** Whether the blade is taken as the printer makes it, or as it is drawn. */
export type Made = 'printed' | 'drawn';

/** Builds the model of a project, its blades as the printer makes them unless asked for as drawn. */
export function modelOf(project: Project, as: Made = 'printed'): Model {
  const { fan, motor, brief } = project;
  const air = atmosphere(brief.altitude_m, brief.airTemperature_C);
  const layout = fanLayout(fan, motor);
  const printed = as === 'printed' ? printedBlade(fan, project.printer) : null;
  const built = builtOf(as === 'printed' ? project.calibration : PLAIN_CALIBRATION);
  const rotor = builtRotor(fan, built, { printed });
  const volumes = printedVolumes(fan, motor, project.printer.holeShrink_mm, layout);
  const items = massItems(project, volumes);
  const mass = kilogramsFromGrams(totalMass_g(items));
  const upright = project.craft.fanCount > 1 ? 1 - tiltLoss(project.craft.tilt_deg) : 1;
  const needed = (mass * GRAVITY) / project.craft.fanCount / upright;
  const discArea = Math.PI * (rotor.tipRadius ** 2 - rotor.hubRadius ** 2);
  return {
    project,
    air,
    layout,
    rotor,
    printed,
    built,
    passage: passageFor({ project, air, layout, needed, discArea, built }, 0),
    factors: built.dragFactor === 1 ? {} : { dragFactor: built.dragFactor },
    volumes,
    items,
    mass,
    needed,
    discArea,
  };
}

/**
 * The same craft as in `model`, with a fan that departs from it, cut into `annuli`; mass and need stay as
 * drawn.
 */
export function departedModel(model: Model, departure: Departure, annuli = ANNULI): Model {
  const passage = passageFor(model, departure.gap);
  return {
    ...model,
    rotor:
      departure.angle === 0 && model.rotor.radius.length === annuli
        ? model.rotor
        : builtRotor(
            model.project.fan,
            model.built,
            { angle: departure.angle, printed: model.printed },
            annuli,
          ),
    passage: passage && departed(passage, departure),
    factors: {
      dragFactor: departure.dragFactor * model.built.dragFactor,
      liftFactor: departure.liftFactor,
    },
  };
}

type Placed = Pick<Model, 'project' | 'air' | 'layout' | 'needed' | 'discArea' | 'built'>;

/** The duct of a fan near hover, its gap `wider` than drawn [m]; null for an open rotor. */
function passageFor(
  { project, air, layout, needed, discArea, built }: Placed,
  wider: number,
): Passage | null {
  if (project.fan.kind === 'open') return null;
  const speed = Math.sqrt(needed / (air.density * discArea));
  const gap = Math.max(0, layout.boreRadius - layout.turningRadius + built.gap + wider);
  const passage = passageOf(project.fan, layout, air, speed, gap);
  if (built.blocked === 0) return passage;
  const { losses } = passage;
  return { ...passage, losses: { ...losses, inletLip: losses.inletLip + Math.max(0, built.blocked) } };
}

function departed(passage: Passage, { lossFactor, exitFactor }: Departure): Passage {
  const { inletLip, wallFriction, hubBase, struts, exitExpansion } = passage.losses;
  return {
    ...passage,
    exitRatio: passage.exitRatio * exitFactor,
    losses: {
      inletLip: inletLip * lossFactor,
      wallFriction: wallFriction * lossFactor,
      hubBase: hubBase * lossFactor,
      struts: struts * lossFactor,
      exitExpansion: exitExpansion * lossFactor,
    },
  };
}

/** Highest speed the motor can see [rad/s]: no load on a full pack. */
export function highestSpeed(project: Project): number {
  const { velocityConstant } = motorConstants(project.motor);
  return velocityConstant * project.calibration.velocityConstant_factor * restVoltage(project.battery, 1);
}

/** Thrust and torque of the model's fan over speed, as far as the motor can turn. */
export const mapOf = (model: Model): FanMap =>
  fanMap(model.rotor, model.passage, model.air, highestSpeed(model.project), model.factors);

/** Cells as warm as the air they fly in: on a cold day the first minutes, on a warm one near enough throughout. */
export const dayOf = (project: Project): DriveDay => ({ cell_C: project.brief.airTemperature_C });

/** The drive at the quoted charge. */
export const quotedSupply = (project: Project): Supply => supplyAt(project, QUOTED_CHARGE, dayOf(project));
