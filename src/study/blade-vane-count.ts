import { mapSpeedFor, mapTorque } from '../air/map.ts';
import { mapOf, modelOf, quotedSupply } from '../assess/model.ts';
import { fanPoint } from '../assess/point.ts';
import { sourceAt } from '../assess/sound.ts';
import type { Project } from '../project/schema.ts';
import { formatNumber as n } from '../quantities/format.ts';
import type { Interval } from '../quantities/interval.ts';
import { geometryFaults } from '../shape/faults.ts';
import { craftSound } from '../sound/craft-sound.ts';
import { levelDifference } from '../sound/difference.ts';
import { modeRows } from '../sound/mode-rows.ts';
import { WISHED_PLACE } from '../sound/sound.ts';
import type { SoundAt } from '../sound/types.ts';

/** One pair of counts, its blades as wide as keeps the blade area of the drawing. */
export interface CountChoice {
  readonly bladeCount: number;
  readonly vaneCount: number;
  readonly present: boolean;
  /** At the hover thrust of the drawing; null where the fan can't give it. */
  readonly level_dBA: Interval | null;
  /** Against the present counts [dB]. */
  readonly change_dB: Interval | null;
  /** Shaft power at that thrust over the present one's. */
  readonly power_ratio: number | null;
  /** Fewest lobes with the vanes that travel, up to three times blade passing, and at which harmonic; null: all are cut off. */
  readonly travels: { readonly harmonic: number; readonly lobes: number } | null;
  /** What keeps it from being built or printed; empty: nothing. */
  readonly faults: readonly string[];
  /** Lower is better: dB against the present, 0.3 dB charged for each per cent of power (our choice). */
  readonly score: number;
  readonly words: string;
}

export interface CountStudy {
  /** Best first; those that can't be built last. */
  readonly choices: readonly CountChoice[];
  readonly words: readonly string[];
}

/** Counts looked at about the present ones. */
const BLADES = [2, 3, 4, 5, 6, 7, 8, 9];
const VANES = [3, 4, 5, 6, 7, 8, 9, 11];

/** dB that one per cent of shaft power is worth in the ranking. Our choice. */
const DB_A_PER_CENT = 0.3;

/**
 * Ranks counts of blades and vanes by how loud the craft is at hover thrust, what power that takes, and whether it can be made.
 * Blades of another count keep the area: chords go with 1 / count; the vanes' chord with 1 / their count, so that friction
 * stays about the same. Both within what still prints. 40 pairs in 0.3 to 0.9 s.
 */
export function countStudy(project: Project): CountStudy {
  const present = heard(project);
  const { bladeCount } = project.fan;
  const { vaneCount } = project.fan.stator;
  const vanes = project.fan.kind === 'ducted' ? VANES : [vaneCount];
  const pairs = new Map<string, readonly [number, number]>();
  for (const b of [...BLADES.filter((b) => Math.abs(b - bladeCount) <= 2), bladeCount])
    for (const v of [...vanes, vaneCount]) pairs.set(`${b}/${v}`, [b, v]);
  const choices = [...pairs.values()]
    .map(([b, v]) => choiceOf(project, present, b, v))
    .sort((x, y) => Number(x.faults.length > 0) - Number(y.faults.length > 0) || x.score - y.score);
  return { choices, words: studyWords(choices, project) };
}

interface HeardFan {
  readonly sound: SoundAt | null;
  readonly power: number;
  readonly travels: CountChoice['travels'];
  readonly faults: readonly string[];
}

function heard(project: Project, needed?: number): HeardFan {
  const model = modelOf(project);
  const map = mapOf(model);
  const thrust = needed ?? model.needed;
  const omega = mapSpeedFor(map, thrust);
  const faults = [
    ...geometryFaults(project.fan, project.motor).map(({ text }) => text),
    ...printFaults(model.printed?.stations ?? []),
  ];
  if (omega === null || !(omega > 0)) return { sound: null, power: Infinity, travels: null, faults };
  const source = sourceAt(model, fanPoint(model, quotedSupply(project), omega));
  const travelling = modeRows(source).filter((m) => m.vaneTurns !== null && m.cutOn);
  return {
    sound: craftSound(source, project.craft.fanCount, WISHED_PLACE),
    power: omega * mapTorque(map, omega),
    travels: travelling.length > 0 ? { harmonic: travelling[0].harmonic, lobes: travelling[0].lobes } : null,
    faults,
  };
}

/** What of the blade does not come out of the printer. */
function printFaults(stations: readonly { readonly lost: boolean; readonly weak: boolean }[]): string[] {
  if (stations.some((s) => s.lost)) return ['Part of the blade does not come out of this printer.'];
  if (stations.some((s) => s.weak)) return ['The blade prints thinner than this printer makes walls whole.'];
  return [];
}

/** The drawing with other counts, areas kept. */
export function withCounts(project: Project, bladeCount: number, vaneCount: number): Project {
  const { fan } = project;
  const wider = fan.bladeCount / bladeCount;
  const longer = fan.stator.vaneCount / vaneCount;
  return {
    ...project,
    fan: {
      ...fan,
      bladeCount,
      blade: fan.blade.map((s) => ({ ...s, chord_mm: s.chord_mm * wider })),
      stator: { ...fan.stator, vaneCount, chord_mm: fan.stator.chord_mm * Math.min(1.3, longer) },
    },
  };
}

function choiceOf(project: Project, present: HeardFan, bladeCount: number, vaneCount: number): CountChoice {
  const same = bladeCount === project.fan.bladeCount && vaneCount === project.fan.stator.vaneCount;
  const { needed } = modelOf(project);
  const other = same ? present : heard(withCounts(project, bladeCount, vaneCount), needed);
  const ducted = project.fan.kind === 'ducted';
  const fans = project.craft.fanCount;
  const change_dB =
    other.sound && present.sound
      ? same
        ? { value: 0, low: 0, high: 0 }
        : levelDifference({ at: present.sound, fans, ducted }, { at: other.sound, fans, ducted })
      : null;
  const power_ratio = Number.isFinite(other.power / present.power) ? other.power / present.power : null;
  // Faults the drawing has already are no reason between counts.
  const faults = other.faults.filter((text) => !present.faults.includes(text));
  const choice = {
    bladeCount,
    vaneCount,
    present: same,
    level_dBA: other.sound?.overall_dBA ?? null,
    change_dB,
    power_ratio,
    travels: other.travels,
    faults,
    score:
      change_dB && power_ratio !== null
        ? change_dB.value + DB_A_PER_CENT * 100 * (power_ratio - 1)
        : Infinity,
  };
  return { ...choice, words: choiceWords(choice, ducted) };
}

function choiceWords(choice: Omit<CountChoice, 'words'>, ducted: boolean): string {
  const { bladeCount, vaneCount, travels, faults, power_ratio, change_dB } = choice;
  const who = `${bladeCount} blades${ducted ? ` and ${vaneCount} vanes` : ''}`;
  if (faults.length > 0) return `${who}: can’t be built so. ${faults[0]}`;
  if (!change_dB || power_ratio === null) return `${who}: can’t give the thrust of hover.`;
  const lobes = Math.abs(travels?.lobes ?? 0);
  const duct = !ducted
    ? ''
    : !travels
      ? ' No pattern of blades and vanes travels up to three times blade passing.'
      : lobes === 0
        ? ` From ${travels.harmonic} × blade passing a plane wave travels, for ${travels.harmonic === 1 ? '' : `${travels.harmonic} × `}${bladeCount} is a multiple of ${vaneCount}.`
        : ` From ${travels.harmonic} × blade passing a pattern of ${lobes} lobe${lobes === 1 ? '' : 's'} travels.`;
  const power = 100 * (power_ratio - 1);
  const price =
    Math.abs(power) < 0.5
      ? 'for the same power'
      : `for ${n(Math.abs(power), 2)} % ${power > 0 ? 'more' : 'less'} power`;
  if (choice.present) return `${who}, as drawn.${duct}`;
  const louder = `${n(Math.abs(change_dB.value), 2)} dB ${change_dB.value < 0 ? 'quieter' : 'louder'} (${n(change_dB.low, 2)} to ${n(change_dB.high, 2)})`;
  return `${who}: ${louder} ${price}.${duct}`;
}

function studyWords(choices: readonly CountChoice[], { fan }: Project): string[] {
  const best = choices[0];
  const words: string[] = [];
  if (best && best.faults.length === 0 && Number.isFinite(best.score))
    words.push(
      best.present ? `The counts as drawn rank first. ${best.words}` : `Ranked first: ${best.words}`,
    );
  else words.push('None of these counts gives the thrust of hover.');
  words.push(
    'Other counts keep the blade area: more blades are narrower, and a narrower blade must still print. One per cent of power weighs as 0.3 dB here, a choice of ours.',
  );
  if (fan.kind === 'ducted')
    words.push(
      'Where a multiple of the blades is one of the vanes, plane waves leave at full strength; the more lobes the lowest pattern has, the better the duct holds it.',
    );
  return words;
}
