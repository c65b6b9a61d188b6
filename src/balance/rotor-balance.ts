import type { Project } from '../project/schema.ts';
import { GRAVITY } from '../quantities/constants.ts';
import type { Interval } from '../quantities/interval.ts';
import { angularSpeedFromRpm, gramsFromKilograms, millimetresFromMetres } from '../quantities/units.ts';
import type { PrintedVolumes } from '../shape/volumes.ts';
import { GRADES, gmmFromKilogramMetres, permissibleUnbalance, shakingForce } from './grade.ts';
import { bladeMassScatter, rotorScatter, unbalanceSources, type RotorScatter } from './scatter.ts';
import { addSpreads, chanceWithin, meanSize, sizeQuantile } from './spread.ts';
import { balanceWords } from './words.ts';

/** Speeds and weight of the craft that turns the rotor. */
export interface RotorAtWork {
  /** null where the craft does not hover. */
  readonly hover_rpm: number | null;
  readonly full_rpm: number;
  /** Of the whole craft [g]. */
  readonly craftMass_g: number;
}

/** The balance of the rotor as it leaves the printer. Intervals hold nine rotors of ten. */
export interface BalanceAnswer {
  readonly grade_mmps: number;
  readonly rotorMass_g: number;
  readonly blades: number;
  readonly apart: boolean;
  readonly bladeMass_g: number;
  /** Radius of a blade's centre of mass. */
  readonly bladeRadius_mm: number;
  /** Standard deviation of a blade's mass over its mass. */
  readonly bladeMassScatter: number;
  readonly full_rpm: number;
  readonly hover_rpm: number | null;
  /** Permissible residual unbalance at full throttle, the speed the grade is judged at, and at hover. */
  readonly permissible_gmm: number;
  readonly permissibleAtHover_gmm: number | null;
  /** Mean over many prints. */
  readonly expected_gmm: Interval;
  /** Of the mean unbalance, cause by cause, the largest first. */
  readonly sources: readonly { readonly name: string; readonly size_gmm: number }[];
  /** Chance that a rotor meets the grade untouched. */
  readonly passChance: number;
  readonly grades: readonly {
    readonly grade_mmps: number;
    readonly permissible_gmm: number;
    readonly passChance: number;
  }[];
  /** Force that turns with the rotor at hover, as grams of weight; null without hover. */
  readonly shakingAtHover_g: Interval | null;
  /** That of one rotor over the weight of the craft. */
  readonly shakingShare: number | null;
  readonly words: readonly string[];
}

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
