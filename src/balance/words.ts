import { formatNumber as n, formatPercent } from '../quantities/format.ts';
import { gradeUse } from './grade.ts';
import type { BalanceAnswer } from './types.ts';

/** A chance in words: "about 3 in 100", "less than 1 in 1000". */
export function chanceInWords(chance: number): string {
  if (chance >= 0.999) return 'practically all';
  if (chance < 0.001) return 'fewer than 1 in 1000';
  if (chance < 0.01) return `about ${Math.round(chance * 1000)} in 1000`;
  return `about ${Math.round(chance * 100)} in 100`;
}

/** The balance of a rotor as printed, in sentences. */
export function balanceWords(a: Omit<BalanceAnswer, 'words'>): string[] {
  const use = gradeUse(a.grade_mmps);
  const words: string[] = [];
  if (Number.isFinite(a.permissible_gmm))
    words.push(
      `Grade G ${a.grade_mmps}${use ? ` (${use})` : ''} permits ${n(a.permissible_gmm)} g mm at the ${n(a.full_rpm)} rpm of full throttle: the centre of mass of this ${n(a.rotorMass_g)} g rotor within ${n((a.permissible_gmm / a.rotorMass_g) * 1000, 2)} µm of the axis.`,
    );
  const { value, low, high } = a.expected_gmm;
  words.push(
    value > 0
      ? `As printed, expect about ${n(value, 2)} g mm (${n(low, 2)} to ${n(high, 2)} in 9 rotors of 10), most of it from ${a.sources[0].name}. ${sentence(chanceInWords(a.passChance))} rotors meet the grade untouched.`
      : 'The printer is said not to scatter at all, so nothing is expected; enter its scatter to get an answer.',
  );
  if (a.shakingAtHover_g && a.shakingShare !== null && a.hover_rpm !== null && value > 0)
    words.push(
      `At hover one such rotor pulls with ${n(a.shakingAtHover_g.value, 2)} g (${n(a.shakingAtHover_g.low, 2)} to ${n(a.shakingAtHover_g.high, 2)} g), ${share(a.shakingShare)} of the craft's weight, once round in every turn, ${n(a.hover_rpm / 60, 2)} times a second.`,
    );
  if (a.apart && a.blades > 1)
    words.push(
      `Blades printed apart scatter by some ${formatPercent(a.bladeMassScatter, 1)} in mass; weighing them and choosing their order takes most of that away.`,
    );
  if (a.blades === 1)
    words.push('A single blade needs its counterweight first; these figures take it as in place and exact.');
  words.push(
    "Not in it: the motor's own unbalance and the run-out of its shaft. How far the blades of one print scatter in density and from layer to layer is an estimate.",
  );
  return words;
}

const sentence = (text: string): string => text[0].toUpperCase() + text.slice(1);
const share = (ratio: number): string =>
  ratio < 0.001 ? 'less than 0.1 %' : formatPercent(ratio, ratio < 0.1 ? 1 : 0);
