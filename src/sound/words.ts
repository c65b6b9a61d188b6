import type { Interval } from '../quantities/interval.ts';
import { formatNumber as n } from '../quantities/format.ts';
import type { Part, Sound, SoundAt } from './types.ts';
import { PARTS } from './types.ts';

/** What each part is called in a sentence. */
export const PART_NAMES: Readonly<Record<Part, string>> = {
  loading: 'the steady load of the blades',
  thickness: 'the thickness of the blades',
  'unequal blades': 'blades that came out unlike',
  'uneven air': 'uneven air and an uneven gap',
  'rotor and vanes': 'blades passing the vanes',
  broadband: 'the rush of air at the back edges',
};

/** A number that was asked for, without digits nobody typed. */
const asked = (value: number): string => String(Number(value.toPrecision(4)));

const dB = (level: number): string => n(Math.round(level), 3).replace(/\.0+$/, '');

/** "64 dB(A), 54 to 75". */
export const levelWords = ({ value, low, high }: Interval, unit = 'dB(A)'): string =>
  `${dB(value)} ${unit} (${dB(low)} to ${dB(high)})`;

/** The part that gives most of the A-weighted level. */
export const loudestPart = ({ parts_dBA }: SoundAt): Part =>
  PARTS.reduce((a, b) => (parts_dBA[b] > parts_dBA[a] ? b : a));

const COUNTS = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
];

/** What a craft sounds like, in sentences. */
export function soundWords(
  {
    hover,
    hovers,
    full,
    modes,
    distance_m,
    reflectingPlane,
  }: Pick<Sound, 'hover' | 'hovers' | 'full' | 'modes' | 'distance_m' | 'reflectingPlane'>,
  fans: number,
): string[] {
  const words: string[] = [];
  const place = `at ${asked(distance_m)} m ${reflectingPlane ? 'over hard ground' : 'in free field'}`;
  const together = fans === 1 ? 'one fan' : `${COUNTS[fans] ?? fans} fans together`;
  words.push(
    hover
      ? `${hovers ? 'In hover' : 'At the thrust of hover, which the drive does not reach,'} about ${levelWords(hover.overall_dBA)} ${place}, ${together}; at full throttle ${levelWords(full.overall_dBA)}.`
      : `It does not hover; at full throttle about ${levelWords(full.overall_dBA)} ${place}, ${together}.`,
  );
  const at = hover ?? full;
  words.push(mostWords(at));
  const blade = modes.filter((m) => m.vaneTurns === null);
  const vanes = modes.filter((m) => m.vaneTurns !== null && m.cutOn);
  if (modes.length > 0) {
    const held = blade[0].cutOn
      ? 'lets the blades’ own tone through'
      : `holds back ${dB(blade[0].lost_dB)} dB of the blades’ own tone`;
    words.push(
      vanes.length > 0
        ? `The duct ${held}, but patterns of blades and vanes travel out of it from ${vanes[0].harmonic} × blade passing on: other counts, or vanes farther behind the blades, would change that.`
        : `The duct ${held}, and no low pattern of blades and vanes travels out of it up to three times blade passing.`,
    );
  }
  words.push(
    'These levels are estimates for any direction around it; the difference between two designs is surer than either level, since most errors are common to both.',
  );
  if (fans > 1)
    words.push(
      `Fans are taken as out of step. Held at exactly one speed their tones could be ${n(at.lockedMore_dB, 2)} dB louder at some places and vanish at others; unlike speeds beat.`,
    );
  return words;
}

function mostWords(at: SoundAt): string {
  const part = loudestPart(at);
  if (part === 'broadband') {
    const peak = at.thirdOctaves.reduce((a, b) => (b.weighted_dBA > a.weighted_dBA ? b : a));
    return `Most of it is ${PART_NAMES.broadband}, a hiss strongest near ${n(peak.band_Hz, 2)} Hz.`;
  }
  if (at.tones.length === 0) return 'It stands still and makes no sound.';
  const tone = at.tones.reduce((a, b) => (b.weighted_dBA > a.weighted_dBA ? b : a), at.tones[0]);
  const order =
    tone.harmonic === null ? `${tone.order} × the turn of the shaft` : `${tone.harmonic} × blade passing`;
  return `Most of it is ${PART_NAMES[part]}; the strongest tone lies at ${n(tone.frequency_Hz, 3)} Hz, ${order}.`;
}

/** The answer to the loudest level the brief accepts. */
export function wishAnswer(level: Interval, wish: number, distance_m: number): NonNullable<Sound['wish']> {
  const { value, low, high } = level;
  const holds = high <= wish ? 'yes' : low > wish ? 'no' : value <= wish ? 'likely' : 'unsure';
  const verdict = {
    yes: 'it stays below, even at the loud end',
    likely: 'it likely stays below, which the interval leaves open',
    unsure: 'it is more likely louder, which the interval leaves open',
    no: 'it is louder, even at the quiet end',
  }[holds];
  return {
    wish_dBA: wish,
    holds,
    text: `You accept ${asked(wish)} dB(A) at ${asked(distance_m)} m; hover gives about ${levelWords(level)}: ${verdict}.`,
  };
}

/** Level from which ears need care: the lower action value of Directive 2003/10/EC for a working day; elsewhere it differs. */
export const CARE_DBA = 80;

/** How near the bench one stands [m]. */
export const BENCH_DISTANCE_M = 0.5;

/** What to mind about hearing; `bench`: at full throttle on the bench, nearby. */
export function soundCautions(bench: Interval): string[] {
  const near = `Half a metre from it at full throttle expect up to ${dB(bench.high)} dB(A)`;
  return [
    bench.high >= CARE_DBA
      ? `${near}: wear hearing protection at the bench and keep others away; from about ${CARE_DBA} dB(A) hours of it can harm.`
      : `${near}, which is short of what is held to harm over hours; mind that the whine of small fans tires sooner than the number tells.`,
    'Limits for exposure, for aircraft noise and for quiet hours differ from country to country and from place to place: the local ones hold. An estimate is no measurement.',
  ];
}
