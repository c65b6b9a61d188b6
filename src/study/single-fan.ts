import type { Air } from '../air/atmosphere.ts';
import { runFan, type FanAir } from '../air/fan.ts';
import { loadingLimits, type LoadingLimit } from '../air/limits.ts';
import type { Passage } from '../air/passage.ts';
import type { RotorAir } from '../air/rotor.ts';
import { modelOf } from '../assess/model.ts';
import type { FanPoint } from '../assess/types.ts';
import type { Project } from '../project/schema.ts';
import { angularSpeedFromRpm, degreesFromRadians, millimetresFromMetres } from '../quantities/units.ts';

/** One fan at one speed, without motor or craft. Coefficients are null where the fan stands still. */
export interface SingleFan {
  readonly kind: 'ducted' | 'open';
  readonly rpm: number;
  readonly axialSpeed_mps: number;
  readonly tipDiameter_mm: number;
  readonly hubDiameter_mm: number;
  readonly bladeCount: number;
  readonly density_kgpm3: number;
  readonly viscosity_Pas: number;
  readonly thrust_N: number;
  readonly rotorThrust_N: number;
  readonly torque_Nm: number;
  readonly power_W: number;
  /** T / (rho n^2 D^4) and P / (rho n^3 D^5), n in turns a second, D over the tips. */
  readonly ct: number | null;
  readonly cp: number | null;
  /** T / (rho A (Omega R)^2) and P / (rho A (Omega R)^3), A = pi R^2. */
  readonly ctRotor: number | null;
  readonly cpRotor: number | null;
  /** Ideal power over shaft power, on the reference of its own kind; null where the fan takes no power. */
  readonly figureOfMerit: number | null;
  readonly axialVelocity_mps: number;
  readonly exitVelocity_mps: number;
  readonly massFlow_kgps: number;
  readonly losses_W: FanAir['ledger'];
  readonly ledgerError_W: number;
  /** Loading limits passed, the worst place of each; empty at a standstill. */
  readonly limits: readonly FanLimit[];
  /** Along the blade as in an assessment, with the blade's own chord and angle there. */
  readonly annuli: Omit<FanPoint['annuli'], 'thrustPerRadius_Npm'> & {
    readonly chord_mm: readonly number[];
    readonly angle_deg: readonly number[];
  };
}

/** A loading limit with its place on the blade; shares of the span run from hub (0) to tip (1). */
export interface FanLimit {
  readonly kind: LoadingLimit['kind'];
  readonly radius_mm: number;
  readonly span_ratio: number;
  readonly spanPast_ratio: number;
  readonly value: number;
  readonly limit: number;
  readonly text: string;
}

/** What a fan runs with: its rotor, its duct's passage (`null`: open) and the air. */
export interface FanParts {
  readonly rotor: RotorAir;
  readonly passage: Passage | null;
  readonly air: Air;
}

/** The parts of a project's fan, in the project's own air or another: what `assess` runs. */
export function fanParts(project: Project, air?: Partial<Air>): FanParts {
  const model = modelOf(project);
  return { rotor: model.rotor, passage: model.passage, air: { ...model.air, ...air } };
}

/**
 * A project's fan at one speed [rpm], in its duct or open as its kind says, in the model's own air or another. It is the
 * fan `assess` runs: at hover speed both give the same thrust. Air toward the fan moves at `axialSpeed` [m/s].
 */
export function runProjectFan(project: Project, rpm: number, axialSpeed = 0, air?: Partial<Air>): SingleFan {
  const parts = fanParts(project, air);
  return runRotor(parts.rotor, parts.passage, parts.air, rpm, axialSpeed);
}

/** A rotor at one speed, in a duct's passage or open (`null`). */
export function runRotor(
  rotor: RotorAir,
  passage: Passage | null,
  air: Air,
  rpm: number,
  axialSpeed = 0,
): SingleFan {
  const omega = angularSpeedFromRpm(rpm);
  const run = runFan(rotor, passage, air, { omega, axialSpeed });
  const turns = Math.abs(rpm) / 60;
  const diameter = 2 * rotor.tipRadius;
  const disc = Math.PI * rotor.tipRadius ** 2;
  const tipSpeed = Math.abs(omega) * rotor.tipRadius;
  const over = (value: number, reference: number) => (reference > 0 ? value / reference : null);
  const { annuli } = run;
  return {
    kind: passage ? 'ducted' : 'open',
    rpm,
    axialSpeed_mps: axialSpeed,
    tipDiameter_mm: millimetresFromMetres(diameter),
    hubDiameter_mm: millimetresFromMetres(2 * rotor.hubRadius),
    bladeCount: rotor.bladeCount,
    density_kgpm3: air.density,
    viscosity_Pas: air.viscosity,
    thrust_N: run.thrust,
    rotorThrust_N: run.rotorThrust,
    torque_Nm: run.torque,
    power_W: run.shaftPower,
    ct: over(run.thrust, air.density * turns ** 2 * diameter ** 4),
    cp: over(run.shaftPower, air.density * turns ** 3 * diameter ** 5),
    ctRotor: over(run.thrust, air.density * disc * tipSpeed ** 2),
    cpRotor: over(run.shaftPower, air.density * disc * tipSpeed ** 3),
    figureOfMerit: over(run.idealPower, run.shaftPower),
    axialVelocity_mps: run.axialVelocity,
    exitVelocity_mps: run.exitVelocity,
    massFlow_kgps: run.massFlow,
    losses_W: run.ledger,
    ledgerError_W: run.ledgerError,
    limits: omega > 0 ? loadingLimits(run, rotor, air).map(fanLimit) : [],
    annuli: {
      radius_mm: Array.from(rotor.radius, millimetresFromMetres),
      chord_mm: Array.from(rotor.chord, millimetresFromMetres),
      angle_deg: Array.from(rotor.angle, degreesFromRadians),
      axialVelocity_mps: annuli.map((a) => a.axialVelocity),
      swirlVelocity_mps: annuli.map((a) => a.swirlVelocity),
      exitVelocity_mps: Array.from(run.exitVelocities),
      angleOfAttack_deg: annuli.map((a) => degreesFromRadians(a.alpha)),
      liftCoefficient: annuli.map((a) => a.cl),
      dragCoefficient: annuli.map((a) => a.cd),
      reynolds: Array.from(run.reynolds),
    },
  };
}

const fanLimit = ({ kind, radius, span, spanPast, value, limit, text }: LoadingLimit): FanLimit => ({
  kind,
  radius_mm: millimetresFromMetres(radius),
  span_ratio: span,
  spanPast_ratio: spanPast,
  value,
  limit,
  text,
});
