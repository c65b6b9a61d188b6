import type { RotorAir } from '../air/rotor.ts';
import type { Air } from '../air/atmosphere.ts';
import type { Fan, Printer } from '../project/schema.ts';
import { metresFromMillimetres, radiansFromDegrees } from '../quantities/units.ts';
import type { FanLayout } from '../shape/layout.ts';
import { airLoadSeen, type AnnuliSeen } from '../strength/air-load.ts';
import type { DuctForSound } from './duct-modes.ts';

/** A stretch of all blades together. SI. */
export interface Strip {
  readonly radius: number;
  readonly width: number;
  readonly chord: number;
  /** Chord along the way round, c cos(angle). */
  readonly chordAround: number;
  /** Thrust and torque of all blades on this stretch. */
  readonly thrust: number;
  readonly torque: number;
  /** Cross-section of one blade. */
  readonly area: number;
  readonly relativeSpeed: number;
  /** [rad] */
  readonly alpha: number;
  readonly cl: number;
  readonly cd: number;
  /** Thickness of the back edge. */
  readonly edge: number;
}

/** The vanes or struts behind the rotor. SI. */
export interface VanesForSound {
  readonly count: number;
  readonly chord: number;
  readonly thickness: number;
  /** Along the axis from the back edges of the blades to the front edges of the vanes. */
  readonly gap: number;
}

/** One fan at one running point as a source of sound. SI. */
export interface SoundSource {
  readonly blades: number;
  readonly omega: number;
  readonly tipRadius: number;
  readonly strips: readonly Strip[];
  readonly thrust: number;
  readonly torque: number;
  readonly axialSpeed: number;
  readonly soundSpeed: number;
  readonly density: number;
  readonly viscosity: number;
  /** Turn of the back edge's two sides to each other [deg]: 14 for the four-digit form, 0 for plates. */
  readonly edgeAngle_deg: number;
  readonly duct: DuctForSound | null;
  readonly vanes: VanesForSound | null;
  /** Share by which the load of one blade departs from the mean of all (one standard deviation). */
  readonly bladeScatter: number;
  /** Angle by which a blade stands off its even place [rad]. */
  readonly placeScatter: number;
  /** Share of the load that swings once a turn. */
  readonly unevenAir: number;
}

/** Annuli put together into one strip. */
const ANNULI_A_STRIP = 3;

/** Area of a four-digit section over chord times thickness. Source: Abbott and Doenhoff, the thickness form integrated. */
const SECTION_FULLNESS = 0.685;

/** Lift slope over angle, for what a blade's angle error does to its load [1/rad]; thin sections, small Re. */
const LIFT_SLOPE = 5.5;

/**
 * Share of the load that swings once a turn in air at rest: eddies the fan draws in, its own wake, the frame beside it. And
 * how many shares of thrust one blade height of gap costs, which turns an off-centre duct into a swing. Estimates, no source;
 * the gap's from the size of gap losses at 1 to 5 % (docs/checks.md, ducts).
 */
const UNEVEN_INFLOW = 0.03;
const THRUST_A_GAP = 2;

/** What a running point must say of itself. */
export interface PointForSound {
  readonly omega: number;
  readonly axialVelocity: number;
  readonly annuli: AnnuliSeen & { readonly angleOfAttack_deg: readonly number[] };
}

/** The sound source that a fan is at a running point. */
export function soundSource(
  fan: Fan,
  printer: Pick<Printer, 'xyScatter_mm'>,
  layout: FanLayout,
  rotor: RotorAir,
  air: Air,
  point: PointForSound,
): SoundSource {
  const { omega, annuli } = point;
  const load = airLoadSeen(rotor, air.density, omega, annuli);
  const strips: Strip[] = [];
  const n = rotor.radius.length;
  for (let from = 0; from < n; from += ANNULI_A_STRIP) {
    const to = Math.min(n, from + ANNULI_A_STRIP);
    let [width, thrust, torque] = [0, 0, 0];
    for (let i = from; i < to; i++) {
      width += rotor.width[i];
      thrust += load.thrustPerRadius[i] * rotor.width[i];
      torque += load.torquePerRadius[i] * rotor.width[i];
    }
    const mean = (pick: (i: number) => number) => {
      let sum = 0;
      for (let i = from; i < to; i++) sum += pick(i) * rotor.width[i];
      return sum / width;
    };
    const chord = mean((i) => rotor.chord[i]);
    const thickness = mean((i) => rotor.sections[i].thickness);
    strips.push({
      radius: mean((i) => rotor.radius[i]),
      width,
      chord,
      chordAround: chord * Math.cos(mean((i) => rotor.angle[i])),
      thrust,
      torque,
      area: SECTION_FULLNESS * thickness * chord * chord,
      relativeSpeed: mean((i) => load.relativeSpeed[i]),
      alpha: radiansFromDegrees(mean((i) => annuli.angleOfAttack_deg[i])),
      cl: mean((i) => annuli.liftCoefficient[i]),
      cd: mean((i) => annuli.dragCoefficient[i]),
      edge: chord * mean((i) => rotor.sections[i].trailingEdge ?? 0),
    });
  }
  const sum = (pick: (s: Strip) => number) => strips.reduce((total, s) => total + pick(s), 0);
  const outer = strips[Math.floor(0.75 * strips.length)];
  const scatter = metresFromMillimetres(printer.xyScatter_mm);
  const ducted = fan.kind === 'ducted';
  const height = Math.max(1e-4, layout.tipRadius - layout.hubRadius);
  return {
    blades: rotor.bladeCount,
    omega,
    tipRadius: rotor.tipRadius,
    strips,
    thrust: sum((s) => s.thrust),
    torque: sum((s) => s.torque),
    axialSpeed: point.axialVelocity,
    soundSpeed: air.soundSpeed,
    density: air.density,
    viscosity: air.viscosity,
    edgeAngle_deg: fan.section.family === 'four-digit' ? 14 : 0,
    duct: ducted
      ? {
          boreRadius: layout.boreRadius,
          hubRadius: Math.min(layout.hubRadius, 0.94 * layout.boreRadius),
          fromRotor: [Math.max(0, layout.rotorZ - layout.topZ), Math.max(0, layout.exitZ - layout.rotorZ)],
          fromVanes: [
            Math.max(0, layout.vaneTopZ - layout.topZ),
            Math.max(0, layout.exitZ - layout.vaneTopZ),
          ],
        }
      : null,
    vanes: ducted
      ? {
          count: fan.stator.vaneCount,
          chord: metresFromMillimetres(fan.stator.chord_mm),
          thickness: metresFromMillimetres(fan.stator.thickness_mm),
          gap: Math.max(5e-4, layout.vaneTopZ - layout.rotorZ - layout.bladeHalfDepth),
        }
      : null,
    ...scatterOf(scatter, outer, rotor.tipRadius),
    unevenAir: UNEVEN_INFLOW + (ducted ? (THRUST_A_GAP * scatter) / height : 0),
  };
}

/**
 * How unequal printed blades are. The two edges of a section each lie off by the printer's scatter s over the four or so
 * stretches of a blade that err by themselves: the angle by s / (2 c) sqrt2, the chord as much, the place round by s / R.
 * An estimate, no source.
 */
function scatterOf(scatter: number, outer: Strip, tipRadius: number) {
  const ends = scatter / 2;
  const turned = (LIFT_SLOPE * Math.SQRT2 * ends) / outer.chord / Math.max(0.3, Math.abs(outer.cl));
  const wider = (Math.SQRT2 * ends) / outer.chord;
  return { bladeScatter: Math.min(0.5, Math.hypot(turned, wider)), placeScatter: ends / (0.75 * tipRadius) };
}
