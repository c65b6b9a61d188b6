import type { FanPoint } from '../../assess/types.ts';
import { interpolateLinear } from '../../numerics/interpolate.ts';
import { angularSpeedFromRpm, degreesFromRadians, metresFromMillimetres } from '../../quantities/units.ts';

/** The air at one radius of the blade, read between the annuli of a running point. */
export interface Triangle {
  /** Speed of the blade U = Omega r. */
  readonly blade_mps: number;
  /** Through the disc V_x, and turning behind it V_t. */
  readonly axial_mps: number;
  readonly swirl_mps: number;
  /** What the blade meets: W = hypot(V_x, U - V_t / 2), at phi to the disc. */
  readonly relative_mps: number;
  readonly inflow_deg: number;
  readonly attack_deg: number;
  readonly lift: number;
  readonly drag: number;
  readonly reynolds: number;
}

/**
 * Velocities at `radius_mm`. Between two annuli all runs straight; beyond the outermost it stays as there. At the blade half
 * of the swirl is there (Glauert, The Elements of Aerofoil and Airscrew Theory, 1926), as in the annulus calculation.
 */
export function triangleAt({ rpm, annuli }: Pick<FanPoint, 'rpm' | 'annuli'>, radius_mm: number): Triangle {
  const at = (values: readonly number[]) => interpolateLinear(annuli.radius_mm, values, radius_mm);
  const blade = angularSpeedFromRpm(rpm) * metresFromMillimetres(radius_mm);
  const axial = at(annuli.axialVelocity_mps);
  const swirl = at(annuli.swirlVelocity_mps);
  return {
    blade_mps: blade,
    axial_mps: axial,
    swirl_mps: swirl,
    relative_mps: Math.hypot(axial, blade - swirl / 2),
    inflow_deg: degreesFromRadians(Math.atan2(axial, blade - swirl / 2)),
    attack_deg: at(annuli.angleOfAttack_deg),
    lift: at(annuli.liftCoefficient),
    drag: at(annuli.dragCoefficient),
    reynolds: at(annuli.reynolds),
  };
}
