import { runFan, type FanAir } from '../air/fan.ts';
import { loadingLimits } from '../air/limits.ts';
import { idealPower } from '../air/momentum.ts';
import type { DrivePoint } from '../drive/supply.ts';
import { driveAt, type Supply } from '../drive/supply.ts';
import { GRAVITY } from '../quantities/constants.ts';
import {
  degreesFromRadians,
  gramsFromKilograms,
  millimetresFromMetres,
  rpmFromAngularSpeed,
} from '../quantities/units.ts';
import type { Model } from './model.ts';
import type { FanPoint } from './types.ts';

/** The model's fan at `omega` [rad/s], at rest in its air. */
export const runAt = (model: Model, omega: number): FanAir =>
  runFan(model.rotor, model.passage, model.air, { omega, axialSpeed: 0, ...model.factors });

const NO_DRIVE: Omit<DrivePoint, 'throttle'> = {
  motorCurrent: 0,
  batteryCurrent: 0,
  batteryVoltage: 0,
  electricalPower: 0,
  efficiency: 0,
};

/** A running point with everything the faces show of it. `supply` finds the throttle that gives this speed. */
export function fanPoint(
  model: Model,
  supply: Supply,
  omega: number,
  run: FanAir = runAt(model, omega),
): FanPoint {
  const drive = omega > 0 ? driveAt(supply, run.torque, omega) : null;
  const { motorCurrent, batteryCurrent, batteryVoltage, electricalPower, efficiency } = drive ?? NO_DRIVE;
  const tipSpeed = omega * model.rotor.tipRadius;
  const openIdeal = idealPower(run.thrust, model.discArea, null, model.air.density, 0);
  const list = (pick: (state: FanAir['annuli'][number]) => number) => run.annuli.map(pick);
  return {
    throttle: omega > 0 ? (drive?.throttle ?? null) : 0,
    rpm: rpmFromAngularSpeed(omega),
    thrust_N: run.thrust,
    rotorThrust_N: run.rotorThrust,
    ductThrust_N: run.thrust - run.rotorThrust,
    torque_Nm: run.torque,
    shaftPower_W: run.shaftPower,
    electricalPower_W: electricalPower,
    motorCurrent_A: motorCurrent,
    batteryCurrent_A: batteryCurrent,
    batteryVoltage_V: batteryVoltage,
    motorEfficiency: efficiency,
    figureOfMerit: run.shaftPower > 0 ? run.idealPower / run.shaftPower : 0,
    figureOfMeritOpen: run.shaftPower > 0 ? openIdeal / run.shaftPower : 0,
    gramsPerWatt: electricalPower > 0 ? gramsFromKilograms(run.thrust / GRAVITY) / electricalPower : 0,
    axialVelocity_mps: run.axialVelocity,
    exitVelocity_mps: run.exitVelocity,
    massFlow_kgps: run.massFlow,
    tipSpeed_mps: tipSpeed,
    tipMach: tipSpeed / model.air.soundSpeed,
    losses_W: run.ledger,
    ledgerError_W: run.ledgerError,
    limits: loadingLimits(run, model.rotor, model.air).map(({ kind, radius, span, text }) => ({
      kind,
      radius_mm: millimetresFromMetres(radius),
      span,
      text,
    })),
    annuli: {
      radius_mm: Array.from(model.rotor.radius, millimetresFromMetres),
      axialVelocity_mps: list((s) => s.axialVelocity),
      swirlVelocity_mps: list((s) => s.swirlVelocity),
      exitVelocity_mps: Array.from(run.exitVelocities),
      angleOfAttack_deg: list((s) => degreesFromRadians(s.alpha)),
      liftCoefficient: list((s) => s.cl),
      dragCoefficient: list((s) => s.cd),
      reynolds: Array.from(run.reynolds),
      thrustPerRadius_Npm: run.annuli.map(
        (s, i) =>
          (model.air.density / 2) *
          s.relativeSpeed ** 2 *
          model.rotor.bladeCount *
          model.rotor.chord[i] *
          s.cx,
      ),
    },
  };
}
