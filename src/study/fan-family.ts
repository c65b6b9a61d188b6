import {
  PLAIN_DUCT,
  PLAIN_ROTOR,
  PLAIN_SECTION,
  type BladeStation,
  type Fan,
  type Motor,
  type Printer,
} from '../project/schema.ts';
import {
  degreesFromRadians,
  metresFromMillimetres,
  millimetresFromMetres,
  radiansFromDegrees,
} from '../quantities/units.ts';
import type { BladeSection } from '../shape/blade.ts';
import { fanLayout } from '../shape/layout.ts';
import { halfDepth } from '../shape/root.ts';

/** The few numbers that tell one proposed fan from another; the rest follows from motor and printer. */
export interface FanChoice {
  readonly tipDiameter_mm: number;
  /** Hub over the least hub the motor allows, 1 and up. */
  readonly hubFactor: number;
  readonly bladeCount: number;
  /** Way the air is meant to move through the disc in one turn, over the tip diameter. */
  readonly advanceRatio: number;
  /** Blade chords over the circle at seven tenths of the tip radius. */
  readonly solidity: number;
}

/** Lip radius over tip diameter: past a tenth little inlet loss is left to save (Idelchik's bellmouths). */
const LIP_RATIO = 0.1;

/** Tip gap over tip diameter, and the least gap. Common practice, no source. */
const GAP_RATIO = 0.006;
const LEAST_GAP_MM = 0.35;

/** Chord along the blade, over that at seven tenths, at the spans of `SPANS`: fuller outside the root. Our choice. */
const SPANS = [0, 0.33, 0.66, 1];
const CHORDS = [0.9, 1, 1, 0.95];

/** Angle of attack along the blade [deg], where a 5 % arc is near its best lift over drag. Our choice. */
const ATTACK_DEG = 6;

/** Steepest blade at the root [deg]; steeper roots stall and crowd the hub. Our choice. */
const STEEPEST_DEG = 58;

/** Room for the hub around the motor can [mm]. Common practice, no source. */
const HUB_OVER_CAN_MM = 0.4;

const round = (value: number, step: number): number => Math.round(value / step) * step;
const tidy = (value: number): number => Number(value.toFixed(3));
const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** Least hub diameter [mm] that hides the motor. */
export const leastHub = (motor: Motor): number =>
  Math.max(motor.canDiameter_mm + HUB_OVER_CAN_MM, motor.shaftDiameter_mm + 3);

/** A whole fan from a choice: blades twisted for an even flow, circular-arc plates as thick as the printer needs, a plain duct. */
export function fanOfChoice(choice: FanChoice, motor: Motor, printer: Printer): Fan {
  const tip = tidy(round(choice.tipDiameter_mm, 0.5));
  const hub = tidy(round(Math.min(leastHub(motor) * choice.hubFactor, 0.9 * tip) + 0.05, 0.1));
  const line = printer.process === 'resin' ? 0.3 : printer.lineWidth_mm;
  const chord = (choice.solidity * 2 * Math.PI * 0.35 * tip) / choice.bladeCount;
  const blade = SPANS.map((span, i): BladeStation => {
    const radius = (hub + span * (tip - hub)) / 2;
    const inflow = degreesFromRadians(Math.atan((choice.advanceRatio * tip) / (2 * Math.PI * radius)));
    const chord_mm = tidy(round(Math.max(chord * CHORDS[i], 1), 0.1));
    // Two lines at the tip, three at the root; below 5 % the arc is too weak, above 14 % it is no plate any more.
    const thickness = (line * (3 - 0.95 * span)) / chord_mm;
    return {
      span_ratio: span,
      chord_mm,
      angle_deg: tidy(round(Math.min(inflow + ATTACK_DEG, STEEPEST_DEG), 0.1)),
      thickness_ratio: tidy(clamp(Math.ceil(thickness * 1000) / 1000, 0.05, 0.14)),
      camber_ratio: 0.05,
    };
  });
  const root: BladeSection = {
    radius: metresFromMillimetres(hub) / 2,
    chord: metresFromMillimetres(blade[0].chord_mm),
    angle: radiansFromDegrees(blade[0].angle_deg),
    thickness: blade[0].thickness_ratio,
    camber: blade[0].camber_ratio,
  };
  const rootDepth = millimetresFromMetres(2 * halfDepth(root));
  const hubHeight = tidy(Math.max(Math.ceil(2 * (rootDepth + 0.4)) / 2, 5));
  const lip = tidy(round(LIP_RATIO * tip, 0.1));
  const vaneChord = tidy(round(clamp(0.55 * motor.canHeight_mm, 4, 12), 0.5));
  const rotorDepth = tidy(round(Math.max(hubHeight / 2, 0.08 * tip), 0.5));
  const wall = tidy(Math.max(0.8, 2 * printer.lineWidth_mm, printer.minimumWall_mm));
  const fan: Fan = {
    kind: 'ducted',
    tipDiameter_mm: tip,
    hubDiameter_mm: hub,
    hubHeight_mm: hubHeight,
    bladeCount: choice.bladeCount,
    rootFillet_mm: 0.8,
    ...PLAIN_ROTOR,
    section: {
      family: 'arc-plate',
      camberPosition_ratio: 0.5,
      trailingEdge_mm: tidy(Math.min(line, 0.45)),
      ...PLAIN_SECTION,
    },
    blade,
    tipGap_mm: tidy(Math.max(LEAST_GAP_MM, GAP_RATIO * tip)),
    duct: {
      lipRadius_mm: lip,
      length_mm: 100,
      wall_mm: wall,
      exitAreaRatio: 1.05,
      rotorDepth_mm: rotorDepth,
      tailCone: false,
      ...PLAIN_DUCT,
    },
    stator: {
      turn_deg: 25,
      vaneCount:
        [4, 3, 5].find((vanes) => vanes % choice.bladeCount !== 0 && choice.bladeCount % vanes !== 0) ?? 4,
      chord_mm: vaneChord,
      thickness_mm: tidy(Math.min(Math.max(1.2, 2 * wall), 0.35 * vaneChord)),
      curved: false,
    },
  };
  const seat = millimetresFromMetres(fanLayout(fan, motor).seatBottomZ);
  return { ...fan, duct: { ...fan.duct, length_mm: tidy(Math.ceil(lip + seat + 1)) } };
}

/** Widest tip [mm] whose duct stays within `width_mm`, by halving; 0 where none does. */
export function widestTip(width_mm: number, motor: Motor, printer: Printer): number {
  const fits = (tip: number) => {
    const choice = { tipDiameter_mm: tip, hubFactor: 1, bladeCount: 5, advanceRatio: 0.6, solidity: 0.4 };
    const fan = fanOfChoice(choice, motor, printer);
    return millimetresFromMetres(2 * fanLayout(fan, motor).outerRadius) <= width_mm;
  };
  let low = 0;
  let high = Math.min(1500, width_mm);
  for (let i = 0; i < 24; i++) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return Math.floor(low * 2) / 2;
}
