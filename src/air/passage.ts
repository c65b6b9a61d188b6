import type { Fan } from '../project/schema.ts';
import type { FanLayout } from '../shape/layout.ts';
import { metresFromMillimetres, radiansFromDegrees } from '../quantities/units.ts';
import type { Air } from './atmosphere.ts';
import { ductHold } from './gap.ts';
import { inletLossFree } from './inlet.ts';
import { bluntEdgeDrag } from './section.ts';

/** Loss coefficients of a duct's parts on the axial velocity head 1/2 rho V_x^2 in the disc annulus. */
export interface PassageLosses {
  readonly inletLip: number;
  readonly wallFriction: number;
  readonly hubBase: number;
  readonly struts: number;
  readonly exitExpansion: number;
}

/** A row of curved vanes at its mean radius. */
export interface Vanes {
  /** Angle to the axis of the air it is made for [rad] */
  readonly turn: number;
  readonly pitchOverChord: number;
}

/** How unevenly the lip lets the air in: ratio 1 in the mean over the disc. Radii increase. */
export interface InflowProfile {
  readonly radius: ArrayLike<number>;
  readonly ratio: ArrayLike<number>;
}

/** A duct as the rotor feels it. */
export interface Passage {
  /** Effective exit area over disc annulus: what the jet really fills. */
  readonly exitRatio: number;
  readonly losses: PassageLosses;
  /** Exit area over inlet area with the flow reversed, and its losses. */
  readonly reversedExitRatio: number;
  readonly reversedLoss: number;
  /** Share of swirl energy turned into pressure, where that is given and not a matter of vanes. */
  readonly swirlRecovery: number;
  /** Curved vanes that recover swirl by how well it meets them; null: none, or straight struts. */
  readonly vanes: Vanes | null;
  /** Axial velocity at the rotor over its mean, by radius [m]; null: the same everywhere. */
  readonly inflow: InflowProfile | null;
  /** Gap over blade height, blade height over mean chord. */
  readonly gapOverHeight: number;
  readonly bladeAspect: number;
}

/** A duct without losses of any kind, for the ideal limits. */
export function idealPassage(exitRatio: number): Passage {
  return {
    exitRatio,
    losses: { inletLip: 0, wallFriction: 0, hubBase: 0, struts: 0, exitExpansion: 0 },
    reversedExitRatio: 1,
    reversedLoss: 0,
    swirlRecovery: 1,
    vanes: null,
    inflow: null,
    gapOverHeight: 0,
    bladeAspect: 1,
  };
}

/** Steepest half-angle [rad] that a short exit cone fills. Source: 10 degrees was best in Pereira, thesis, Univ. of Maryland, 2008 (ADA595716). */
const STEEPEST_CONE = (10 * Math.PI) / 180;

/** An open rotor's far wake is half the disc: the exit ratio that a duct without hold tends to. */
const OPEN_EXIT_RATIO = 0.5;

/** Loss of a reversed intake through the sharp exit edge, on V_x. Idelchik, diagram 3-1 (from memory). */
const REVERSED_INTAKE_LOSS = 1;

/**
 * Mean turbulent friction coefficient of a flat plate, 0.074 Re^-1/5, with Re held above 10 000. The wall behind a rotor is
 * taken as turbulent. Source: Schlichting, Boundary-Layer Theory, ch. 21.
 */
export function plateFriction(reynolds: number): number {
  return 0.074 * Math.max(1e4, reynolds) ** -0.2;
}

/** Mean laminar friction coefficient of a plate, one side, 1.328 Re^-1/2 (Blasius; Schlichting ch. 7), Re held above 100. */
export function laminarPlateFriction(reynolds: number): number {
  return 1.328 / Math.sqrt(Math.max(100, reynolds));
}

/**
 * Loss of a cone from area ratio 1 to `ratio` (on the velocity before it), half-angle `halfAngle` [rad]: for expansion
 * 2.6 sin(halfAngle) (1 - 1/ratio)^2, at most the sudden expansion (1 - 1/ratio)^2; for contraction 5 % of the exit head's
 * excess (our estimate). Source: Gibson's results as given in Crane Technical Paper 410 (from memory).
 */
export function exitLoss(ratio: number, halfAngle: number): number {
  if (ratio < 1) return (0.05 * (1 - ratio)) / ratio ** 2;
  return Math.min(1, 2.6 * Math.sin(Math.abs(halfAngle))) * (1 - 1 / ratio) ** 2;
}

/** Most of the swirl's energy that vanes are believed to recover. Common practice, no source. */
const MOST_RECOVERY = 0.95;

/**
 * Share of swirl energy that curved vanes turn into pressure, for air that meets them at `swirlAngle` [rad] to the axis.
 * They let it go at Constant's deviation, d = 0.26 turn sqrt(pitch / chord), and lose the head of the velocity across
 * them at wrong incidence, (V sin(swirlAngle - turn))^2:
 *   share = 1 - (tan^2 d + sin^2(swirlAngle - turn) / cos^2 swirlAngle) / tan^2 swirlAngle, 0 to 0.95
 * Sources: Constant, ARC note E 3696, 1939, and incidence loss as quoted in Wallis, Axial Flow Fans and Ducts, 1983 (from
 * memory).
 */
export function vaneRecovery({ turn, pitchOverChord }: Vanes, swirlAngle: number): number {
  const angle = Math.abs(swirlAngle);
  if (!(angle > 1e-4 && angle < 1.5)) return 0;
  const deviation = Math.min(1.2, 0.26 * turn * Math.sqrt(pitchOverChord));
  const across = Math.sin(angle - turn) / Math.cos(angle);
  const lost = (Math.tan(deviation) ** 2 + across ** 2) / Math.tan(angle) ** 2;
  return Math.min(MOST_RECOVERY, Math.max(0, 1 - lost));
}

/**
 * Base drag coefficient of a body of revolution that ends abruptly, on its base area: 0.029 / sqrt(C_fB), C_fB the
 * fore-body's friction drag on the same area. Source: Hoerner, Fluid-Dynamic Drag, 1965, ch. 3 (from memory).
 */
export function baseDrag(frictionOnBase: number): number {
  return 0.029 / Math.sqrt(Math.max(1e-3, frictionOnBase));
}

/**
 * The duct of a fan at axial velocity `axialVelocity` [m/s] (used for Reynolds numbers alone, so a rough value does).
 */
export function passageOf(
  fan: Fan,
  layout: FanLayout,
  air: Air,
  axialVelocity: number,
  tipGap: number,
): Passage {
  const { boreRadius, hubRadius, tipRadius, lipRadius, exitRadius, exitZ } = layout;
  const hub = Math.min(hubRadius, 0.99 * tipRadius);
  const disc = Math.PI * (tipRadius ** 2 - hub ** 2);
  const bore = Math.PI * (boreRadius ** 2 - hub ** 2);
  // A tip ring stands in the bore: behind it the stream widens in a step, at the loss of a sudden expansion (Borda-Carnot).
  const step = layout.ringHalfHeight > 0 ? bore / disc : 1;
  const speed = Math.max(0.5, Math.abs(axialVelocity));
  const reynolds = (length: number) => (air.density * speed * length) / air.viscosity;

  const coneLength = Math.max(1e-4, exitZ - layout.rotorZ - layout.bladeHalfDepth);
  const halfAngle = Math.atan((exitRadius - boreRadius) / coneLength);
  // Past the steepest angle the jet leaves the wall and keeps the area of the steepest cone.
  const filledRadius = Math.min(exitRadius, boreRadius + coneLength * Math.tan(STEEPEST_CONE));
  const coneRatio = Math.max(0.02, (Math.PI * (filledRadius ** 2 - hub ** 2)) / bore);
  const exitRatio = coneRatio * step;

  const wallLength = Math.max(1e-3, exitZ);
  const wetted =
    2 * Math.PI * boreRadius * wallLength + 2 * Math.PI * hub * Math.min(wallLength, layout.seatBottomZ);
  const wallFriction = (plateFriction(reynolds(wallLength)) * Math.max(0, wetted)) / disc;

  const baseArea = Math.PI * Math.min(layout.seatRadius, hub) ** 2;
  const bodyLength = Math.max(1e-3, layout.seatBottomZ - layout.hubTopZ);
  const foreFriction =
    (plateFriction(reynolds(bodyLength)) * 2 * bodyLength) / Math.max(1e-4, layout.seatRadius);
  // A tail cone of length twice its radius leaves about a tenth of the base loss (our estimate).
  const hubBase = (baseDrag(foreFriction) * baseArea * (fan.duct.tailCone ? 0.1 : 1)) / disc;

  const vaneChord = metresFromMillimetres(fan.stator.chord_mm);
  const thickness = fan.stator.thickness_mm / fan.stator.chord_mm;
  const bar = 2 * laminarPlateFriction(reynolds(vaneChord)) * (1 + 2 * thickness);
  const vaneDrag = bar + bluntEdgeDrag(Math.min(1, thickness), bar);
  const vaneArea = fan.stator.vaneCount * vaneChord * Math.max(0, boreRadius - layout.seatRadius);
  const meanRadius = Math.sqrt((tipRadius ** 2 + hub ** 2) / 2);

  let chordSum = 0;
  for (const station of fan.blade) chordSum += metresFromMillimetres(station.chord_mm);
  const height = tipRadius - hub;
  const hold = ductHold(tipGap / height);
  return {
    exitRatio: OPEN_EXIT_RATIO + (exitRatio - OPEN_EXIT_RATIO) * hold,
    losses: {
      inletLip: hold * inletLossFree(lipRadius / (2 * boreRadius)),
      wallFriction: hold * wallFriction,
      hubBase,
      struts: (vaneDrag * vaneArea) / disc,
      exitExpansion:
        hold *
        ((1 - 1 / step) ** 2 + exitLoss(coneRatio, Math.min(Math.abs(halfAngle), STEEPEST_CONE)) / step ** 2),
    },
    reversedExitRatio: 1,
    reversedLoss: REVERSED_INTAKE_LOSS,
    swirlRecovery: 0,
    vanes: fan.stator.curved
      ? {
          turn: radiansFromDegrees(fan.stator.turn_deg),
          pitchOverChord: (2 * Math.PI * meanRadius) / fan.stator.vaneCount / vaneChord,
        }
      : null,
    inflow: null,
    gapOverHeight: tipGap / height,
    bladeAspect: height / (chordSum / fan.blade.length),
  };
}
