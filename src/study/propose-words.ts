import type { Assessment } from '../assess/types.ts';
import { dischargeLimit } from '../drive/battery.ts';
import type { Motor, Project } from '../project/schema.ts';
import { GRAVITY } from '../quantities/constants.ts';
import { formatMinutes, formatNumber as n, formatPercent } from '../quantities/format.ts';
import { leastHub, type FanChoice } from './fan-family.ts';

/** Thrust over weight a craft must have to be proposed. Common practice, no source. */
export const FLOOR = 1.3;

/** Why this fan: what set each of its main figures, and what it gives. */
export function whyChosen(
  project: Project,
  { craft, fan }: Assessment,
  choice: FanChoice,
  widest: number,
): string[] {
  const { fan: drawn, motor } = project;
  const edge = widest - drawn.tipDiameter_mm < 0.03 * widest;
  return [
    `Tip diameter ${n(drawn.tipDiameter_mm)} mm: ${
      edge
        ? `about the widest whose duct, with its lip, stays within ${n(project.brief.largestDuctWidth_mm)} mm and the bed`
        : `${n(widest)} mm would fit, but a larger duct weighs more than it saves here, or asks more of motor and battery`
    }.`,
    `Hub ${n(drawn.hubDiameter_mm)} mm: ${
      choice.hubFactor < 1.02
        ? `as small as the motor's can of ${n(motor.canDiameter_mm)} mm lets it be`
        : 'wider than the motor asks, because the slow inner blade pays little'
    }.`,
    `${drawn.bladeCount} blades of ${n(drawn.blade[2].chord_mm)} mm chord at ${n(drawn.blade[2].angle_deg, 2)}° to the plane at two thirds of their height suit this motor on ${project.battery.cells} cells.`,
    `All up it weighs ${n(craft.mass_g)} g and lifts ${n(craft.thrustToWeight)} times that (${n(craft.thrustToWeightInterval.low, 2)} to ${n(craft.thrustToWeightInterval.high, 2)}).`,
    `It hovers for ${formatMinutes(craft.hover_min)} at ${formatPercent(craft.hoverThrottle ?? 0)} throttle; full throttle asks ${n(fan.full.motorCurrent_A, 2)} A of a motor that stands ${n(motor.burstCurrent_A, 2)} A for seconds.`,
  ];
}

/** Why no fan closes: the first links of the chain that break, and what would have to change. */
export function whyNone(
  six: { readonly motor: Motor; readonly largestDuctWidth_mm: number; readonly bareMass_g: number },
  best: { readonly project: Project; readonly assessment: Assessment } | null,
  widest: number,
): string[] {
  if (!best)
    return [
      `The hub fills the duct: a can of ${n(six.motor.canDiameter_mm)} mm needs a hub of ${n(leastHub(six.motor))} mm, and within ${n(six.largestDuctWidth_mm)} mm and the bed the widest rotor is ${n(widest)} mm over the tips.`,
      'A smaller motor, a wider duct or a larger bed would do.',
    ];
  const { project, assessment } = best;
  return [headline(project, assessment), ...links(project, assessment), remedy(project, assessment)];
}

function headline({ fan }: Project, { craft }: Assessment): string {
  const most = `The best fan that fits (${n(fan.tipDiameter_mm)} mm over the tips) lifts ${n(craft.thrustToWeight)} times the ${n(craft.mass_g)} g all up`;
  return craft.thrustToWeight < FLOOR
    ? `${most}; ${FLOOR} is the least for a gentle hover.`
    : `${most}, but only by running a part harder than its maker allows.`;
}

function links(project: Project, { craft, fan, air }: Assessment): string[] {
  const {
    motor,
    battery,
    craft: { fanCount },
  } = project;
  const said: string[] = [];
  const disc = fan.needed_N / craft.discLoading_Npm2;
  // Least power of a duct with the exit area of its disc: P = T^1.5 / sqrt(4 rho A).
  const thrust = FLOOR * fan.needed_N;
  const ideal = thrust ** 1.5 / Math.sqrt(4 * air.density_kgpm3 * disc);
  const small = ideal > fan.full.shaftPower_W;
  if (small)
    said.push(
      `The disc is too small for the mass: ${FLOOR} times its share of the weight, ${n(thrust)} N, through ${n(disc * 1e6)} mm² takes ${n(ideal)} W even without losses; this motor gives at most ${n(fan.full.shaftPower_W)} W to this fan on this battery.`,
    );
  if (fan.full.motorCurrent_A > motor.burstCurrent_A)
    said.push(
      `The motor is out of torque: full throttle asks ${n(fan.full.motorCurrent_A, 2)} A of a winding that stands ${n(motor.burstCurrent_A, 2)} A for seconds.`,
    );
  else if (fan.hover && fan.hover.motorCurrent_A > motor.continuousCurrent_A)
    said.push(
      `The motor is out of torque: hover alone takes ${n(fan.hover.torque_Nm * 1000)} mN m, ${n(fan.hover.motorCurrent_A, 2)} A in a winding that stands ${n(motor.continuousCurrent_A, 2)} A for minutes.`,
    );
  else if (!small && fan.full.motorCurrent_A < 0.7 * motor.burstCurrent_A && craft.thrustToWeight < FLOOR)
    said.push(
      `The motor turns too slowly here to be loaded: at full throttle it reaches ${n(fan.full.rpm)} rpm and takes ${n(fan.full.motorCurrent_A, 2)} A of the ${n(motor.burstCurrent_A, 2)} A it stands. More cells or more rpm for each volt would use it.`,
    );
  const allowed = dischargeLimit(battery);
  const drawn = fan.full.batteryCurrent_A * fanCount;
  const sag = fan.full.batteryVoltage_V / (fan.hover?.batteryVoltage_V ?? fan.full.batteryVoltage_V);
  if (drawn > allowed)
    said.push(
      `The battery cannot feed it: full throttle draws ${n(drawn, 2)} A of the ${n(allowed, 2)} A its maker allows.`,
    );
  else if (sag < 0.8)
    said.push(
      `The battery sags to ${n(fan.full.batteryVoltage_V, 2)} V under full load; one with less inner resistance would hold more.`,
    );
  return said;
}

function remedy(project: Project, { craft, fan }: Assessment): string {
  const carries = (fan.full.thrust_N * project.craft.fanCount * 1000) / (FLOOR * GRAVITY);
  const bare = project.craft.fixedMasses.reduce((sum, { mass_g }) => sum + mass_g, 0);
  const less = craft.mass_g - carries;
  if (less <= 0)
    return 'A motor or battery that stands more current would do, or a wider duct, which needs less power.';
  if (less < bare)
    return `With ${n(less)} g less aboard (${n(bare - less)} g without fans and battery) this fan would do; or a wider duct, or more motor and battery.`;
  return `Even with nothing else aboard, fans and battery weigh more than these fans carry (${n(carries)} g); a wider duct or another motor and battery is needed.`;
}
