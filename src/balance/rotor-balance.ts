import type { Project } from '../project/schema.ts';
import { GRAVITY } from '../quantities/constants.ts';
import type { Interval } from '../quantities/interval.ts';
import { angularSpeedFromRpm, gramsFromKilograms, millimetresFromMetres } from '../quantities/units.ts';
import type { PrintedVolumes } from '../shape/volumes.ts';
import { GRADES, gmmFromKilogramMetres, permissibleUnbalance, shakingForce } from './grade.ts';
import { bladeMassScatter, rotorScatter, unbalanceSources, type RotorScatter } from './scatter.ts';
import { addSpreads, chanceWithin, meanSize, sizeQuantile } from './spread.ts';
import type { BalanceAnswer, RotorAtWork } from './types.ts';
import { balanceWords } from './words.ts';

/** What is known of the scatter of a project's rotor. */
export const rotorScatterOf = (
  { fan, printer, material }: Pick<Project, 'fan' | 'printer' | 'material'>,
  volumes: Pick<PrintedVolumes, 'rotor' | 'blades'>,
): RotorScatter => rotorScatter(fan, printer, material, volumes);

/**
 * Expected unbalance, what the grade permits, and the force it shakes with. Closed form, some tenths of a millisecond.
 * The motor's own unbalance and the run-out of its shaft are not in it: nobody but the motor knows them.
 */
export function rotorBalance(
  project: Pick<Project, 'fan' | 'printer' | 'material' | 'balance'>,
  volumes: Pick<PrintedVolumes, 'rotor' | 'blades'>,
  { hover_rpm, full_rpm, craftMass_g }: RotorAtWork,
): BalanceAnswer {
  const rotor = rotorScatterOf(project, volumes);
  const sources = unbalanceSources(rotor);
  const spread = addSpreads(sources.map((source) => source.spread));
  const { grade_mmps } = project.balance;
  const full = angularSpeedFromRpm(full_rpm);
  // A rotor that never turns shakes nobody: every unbalance is permitted.
  const permitted = (grade: number, omega: number) =>
    omega > 0 ? permissibleUnbalance(rotor.rotorMass, grade, omega) : Infinity;
  const chance = (grade: number) => chanceWithin(spread, permitted(grade, full));
  const expected = {
    value: meanSize(spread),
    low: sizeQuantile(spread, 0.05),
    high: sizeQuantile(spread, 0.95),
  };
  const hover = hover_rpm === null ? null : angularSpeedFromRpm(hover_rpm);
  const scaled = (by: number): Interval => ({
    value: expected.value * by,
    low: expected.low * by,
    high: expected.high * by,
  });
  const shaking = hover === null ? null : scaled((shakingForce(1, hover) / GRAVITY) * 1000);
  const answer: Omit<BalanceAnswer, 'words'> = {
    grade_mmps,
    rotorMass_g: gramsFromKilograms(rotor.rotorMass),
    blades: rotor.blades,
    apart: rotor.apart,
    bladeMass_g: gramsFromKilograms(rotor.bladeMass),
    bladeRadius_mm: millimetresFromMetres(rotor.bladeRadius),
    bladeMassScatter: bladeMassScatter(rotor),
    full_rpm,
    hover_rpm,
    permissible_gmm: gmmFromKilogramMetres(permitted(grade_mmps, full)),
    permissibleAtHover_gmm: hover === null ? null : gmmFromKilogramMetres(permitted(grade_mmps, hover)),
    expected_gmm: scaled(gmmFromKilogramMetres(1)),
    sources: sources
      .map((source) => ({ name: source.name, size_gmm: gmmFromKilogramMetres(meanSize(source.spread)) }))
      .sort((a, b) => b.size_gmm - a.size_gmm),
    passChance: chance(grade_mmps),
    grades: GRADES.map((grade) => ({
      grade_mmps: grade,
      permissible_gmm: gmmFromKilogramMetres(permitted(grade, full)),
      passChance: chance(grade),
    })),
    shakingAtHover_g: shaking,
    shakingShare: shaking && craftMass_g > 0 ? shaking.value / craftMass_g : null,
  };
  return { ...answer, words: balanceWords(answer) };
}
