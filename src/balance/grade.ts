/**
 * Balance grades G [mm/s]: the speed of the centre of mass round the axis. ISO 21940-11 (formerly ISO 1940-1), table 1,
 * from memory.
 */
export const GRADES = [0.4, 1, 2.5, 6.3, 16, 40, 100, 250] as const;

/** What a grade is usual for, in words; null where it is not usual for a fan. ISO 14694 for fans, from memory. */
export function gradeUse(grade_mmps: number): string | null {
  if (grade_mmps === 6.3) return 'usual for fans';
  if (grade_mmps === 16) return 'usual for small fans';
  if (grade_mmps === 2.5) return 'for quiet fans, hard to reach by hand';
  return null;
}

/**
 * Permissible eccentricity of the centre of mass e_per = G / omega [m], of a grade G [mm/s] at omega [rad/s].
 * Source: ISO 21940-11. Throws where omega is not above 0.
 */
export function permissibleEccentricity(grade_mmps: number, omega: number): number {
  if (!(omega > 0)) throw new Error(`permissibleEccentricity needs a speed above 0; it was ${omega} rad/s`);
  return (grade_mmps * 1e-3) / omega;
}

/** Permissible residual unbalance U_per = m e_per [kg m] of a rotor of mass m [kg]. Source: ISO 21940-11. */
export const permissibleUnbalance = (mass: number, grade_mmps: number, omega: number): number =>
  mass * permissibleEccentricity(grade_mmps, omega);

/** Force that an unbalance U [kg m] turns round with the rotor, F = U omega^2 [N]. */
export const shakingForce = (unbalance: number, omega: number): number => unbalance * omega ** 2;

/** An unbalance in the bench's unit: 1 kg m is 1e6 g mm. */
export const gmmFromKilogramMetres = (unbalance: number): number => unbalance * 1e6;
export const kilogramMetresFromGmm = (unbalance_gmm: number): number => unbalance_gmm * 1e-6;
