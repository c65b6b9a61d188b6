import { mapMassFlow, mapTorque } from '../air/map.ts';
import { idealPower } from '../air/momentum.ts';
import { answersFrom } from '../assess/answers.ts';
import { mapOf, modelOf, quotedSupply } from '../assess/model.ts';
import { dischargeLimit } from '../drive/battery.ts';
import { heatLoadOf } from '../drive/limits.ts';
import { driveAt } from '../drive/supply.ts';
import { motorHeat, steadyHeat, WINDING_LIMIT_C } from '../drive/thermal.ts';
import { controllers } from '../project/catalogue.ts';
import type { Battery, Controller, Motor, Project } from '../project/schema.ts';
import { millimetresFromMetres } from '../quantities/units.ts';
import { fanOfChoice, type FanChoice } from './fan-family.ts';
import { FLOOR } from './propose-words.ts';
import type { SizeDesign } from './size-types.ts';

/** The project with another fan, motor, battery and number of fans; its own controller as long as the motor is its own. */
export function sizedProject(
  project: Project,
  choice: FanChoice,
  motor: Motor,
  battery: Battery,
  fanCount = project.craft.fanCount,
): Project {
  return {
    ...project,
    craft: { ...project.craft, fanCount },
    motor,
    battery,
    controller: motor === project.motor ? project.controller : controllerFor(motor),
    fan: fanOfChoice(choice, motor, project.printer),
  };
}

/** The smallest controller of the catalogue that stands what the motor does. */
export const controllerFor = (motor: Motor): Controller =>
  (
    controllers.find(({ part }) => part.continuousCurrent_A >= motor.burstCurrent_A) ??
    controllers[controllers.length - 1]
  ).part;

/** Runs one sized project from its map. About 0.6 ms. */
export function trySize(
  sized: Project,
  choice: FanChoice,
  places: { readonly motor: number; readonly battery: number },
): SizeDesign {
  const { fan, motor, battery, controller, craft } = sized;
  const model = modelOf(sized);
  const supply = quotedSupply(sized);
  const map = mapOf(model);
  const answers = answersFrom(sized, supply, map, model.needed);
  const at = (omega: number | null) => (omega ? driveAt(supply, mapTorque(map, omega), omega) : null);
  const full = at(answers.fullSpeed);
  const hover = answers.thrustToWeight >= 1 ? at(answers.hoverSpeed) : null;
  const hoverSpeed = hover && answers.hoverSpeed;
  const winding = hoverSpeed
    ? steadyHeat(
        motorHeat(motor, mapMassFlow(map, hoverSpeed) / (model.air.density * model.discArea)),
        heatLoadOf(sized, mapTorque(map, hoverSpeed), hoverSpeed, sized.brief.airTemperature_C),
      )
    : null;
  const motorCurrent = full?.motorCurrent ?? Infinity;
  const packCurrent = full
    ? full.batteryCurrent * craft.fanCount + craft.auxiliaryPower_W / full.batteryVoltage
    : Infinity;
  const hoverCurrent = hover?.motorCurrent ?? null;
  const loads = [
    { kind: 'battery', ratio: packCurrent / dischargeLimit(battery) },
    {
      kind: 'torque',
      ratio: Math.max(motorCurrent / motor.burstCurrent_A, (hoverCurrent ?? 0) / motor.continuousCurrent_A),
    },
    { kind: 'controller', ratio: (hoverCurrent ?? 0) / controller.continuousCurrent_A },
    { kind: 'winding', ratio: hoverSpeed ? (winding?.winding_C ?? Infinity) / WINDING_LIMIT_C : 0 },
  ] as const;
  return {
    choice,
    ...places,
    tipDiameter_mm: fan.tipDiameter_mm,
    hubDiameter_mm: fan.hubDiameter_mm,
    bladeCount: fan.bladeCount,
    outerWidth_mm: millimetresFromMetres(2 * model.layout.outerRadius),
    mass_g: model.mass * 1000,
    thrustToWeight: answers.thrustToWeight,
    hover_min: answers.hoverMinutes,
    hoverThrottle: hover?.throttle ?? null,
    tipSpeed_mps: hoverSpeed ? hoverSpeed * model.rotor.tipRadius : null,
    motorCurrent_A: motorCurrent,
    packCurrent_A: packCurrent,
    hoverCurrent_A: hoverCurrent,
    hoverWinding_C: winding?.winding_C ?? null,
    tightest: loads.reduce((a, b) => (b.ratio > a.ratio ? b : a)),
    leastPower_W: idealPower(FLOOR * model.needed, model.discArea, 1, model.air.density, 0),
    mostPower_W: mostPower(motor, supply.rest),
  };
}

/** Most shaft power [W] off `voltage`: V I - R I^2 at the burst current, or at the peak V / 2 R where that comes first. */
function mostPower(motor: Motor, voltage: number): number {
  const resistance = motor.resistance_mohm / 1000;
  const current = Math.min(motor.burstCurrent_A, voltage / (2 * resistance));
  return current * (voltage - resistance * current);
}
