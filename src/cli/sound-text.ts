import type { Project } from '../project/schema.ts';
import { formatNumber as n } from '../quantities/format.ts';
import type { Interval } from '../quantities/interval.ts';
import { PARTS, type Sound, type SoundAt } from '../sound/types.ts';
import { PART_NAMES } from '../sound/words.ts';
import type { CountStudy } from '../study/blade-vane-count.ts';
import type { SoundComparison } from '../study/sound-compare.ts';
import { bullet, columns, wrap } from './text.ts';

interface Besides {
  readonly comparison: SoundComparison | null;
  readonly counts: CountStudy | null;
  readonly wav: { readonly file: string; readonly note: string } | null;
}

/** Tones and counts told; the rest is in the JSON. */
const TOLD_TONES = 8;
const TOLD_COUNTS = 10;

/** A tone or part this far below the whole is not told [dB]. */
const FAR_BELOW_DB = 40;

const level = (value: number): string => String(Math.round(value)).replace('-', '−');
const range = ({ low, high }: Interval): string => `${level(low)} to ${level(high)}`;

/** The sound of a project for a terminal. */
export function soundText(project: Project, s: Sound, { comparison, counts, wav }: Besides): string {
  const at = s.hover ?? s.full;
  const [first, ...rest] = s.words;
  return (
    `${project.name}: sound ${s.hover ? 'in hover' : 'at full throttle'}\n` +
    wrap(first) +
    rest.map((text) => bullet(text)).join('') +
    '\nWhat makes it, each part alone\n' +
    partTable(at) +
    '\nStrongest tones\n' +
    toneTable(at) +
    '\nOctaves\n' +
    octaveTable(at) +
    (s.modes.length > 0
      ? '\nPatterns that spin in the duct\n' + s.modes.map(({ words }) => bullet(words)).join('')
      : '') +
    (comparison ? '\nAt equal thrust\n' + comparison.words.map((text) => bullet(text)).join('') : '') +
    (counts ? '\nCounts of blades and vanes, best first\n' + countText(counts) : '') +
    (wav ? `\nWrote ${wav.file}.\n${wrap(wav.note)}` : '') +
    '\nFor the ears\n' +
    s.cautions.map((text) => bullet(text)).join('')
  );
}

const partTable = (at: SoundAt): string =>
  columns([
    ['', 'dB(A)'],
    ...PARTS.filter((part) => at.parts_dBA[part] > at.overall_dBA.value - FAR_BELOW_DB)
      .toSorted((a, b) => at.parts_dBA[b] - at.parts_dBA[a])
      .map((part) => [PART_NAMES[part], level(at.parts_dBA[part])]),
    ['all together', `${level(at.overall_dBA.value)} (${range(at.overall_dBA)})`],
  ]);

function toneTable(at: SoundAt): string {
  const told = at.tones
    .filter((t) => t.weighted_dBA > at.overall_dBA.value - FAR_BELOW_DB)
    .toSorted((a, b) => b.weighted_dBA - a.weighted_dBA)
    .slice(0, TOLD_TONES)
    .sort((a, b) => a.order - b.order);
  if (told.length === 0) return '  none stands out of the hiss\n';
  return columns([
    ['Hz', 'turns', 'dB', 'interval', 'mostly'],
    ...told.map((t) => [
      n(t.frequency_Hz, 3),
      t.harmonic === null ? String(t.order) : `${t.order} (${t.harmonic} × blades)`,
      level(t.level.value),
      range(t.level),
      PART_NAMES[t.mostly],
    ]),
  ]);
}

const octaveTable = (at: SoundAt): string =>
  columns([
    ['Hz', 'dB', 'interval', 'tones', 'hiss', 'dB(A)'],
    ...at.octaves
      .filter((o) => o.level.value > 0)
      .map((o) => [
        String(o.band_Hz),
        level(o.level.value),
        range(o.level),
        level(Math.max(0, o.tones_dB)),
        level(Math.max(0, o.broadband_dB)),
        level(o.weighted_dBA),
      ]),
  ]);

function countText({ choices, words }: CountStudy): string {
  const told = choices.slice(0, TOLD_COUNTS);
  const present = choices.find((c) => c.present);
  if (present && !told.includes(present)) told.push(present);
  return (
    told.map((c, i) => bullet(c.words, `${i + 1}. `)).join('') +
    '\n' +
    words
      .slice(1)
      .map((w) => bullet(w))
      .join('')
  );
}
