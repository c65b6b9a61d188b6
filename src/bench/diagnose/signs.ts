import { degreesFromRadians, millimetresFromMetres } from '../../quantities/units.ts';
import { formatNumber as n, formatPercent } from '../../quantities/format.ts';
import type { CauseId } from './causes.ts';
import { testById } from './tests.ts';
import { UNKNOWN_IDS } from './unknowns.ts';
import type { Hypothesis, Weighed } from './weigh.ts';

/** What the readings say for and against one cause, in sentences. */
export interface Signs {
  readonly for: readonly string[];
  readonly against: readonly string[];
}

/** One thing the readings show: a mean over rows with weights, and how to say it. */
interface Feature {
  /** Smaller than this is not worth a word. */
  readonly least: number;
  readonly rows: readonly (readonly [row: number, weight: number])[];
  readonly say: (measured: number) => string;
  readonly expect: (told: number) => string;
}

/** Multiples of a feature's ordinary scatter past which it stands out. */
const STANDS_OUT = 1.8;

/** Smallest differences worth a word: of a mean, of a trend along the throttle. */
const LEAST = 0.015;
const LEAST_TREND = 0.03;

/** A feature is explained where no more than this share of it is left over. */
const LEFT_OVER = 0.5;

const COLUMNS = UNKNOWN_IDS.length;

/** The features of the readings held against what one cause alone foretells, beside the sound fan. */
export function signsOf(weighed: Weighed, cause: CauseId): Signs {
  const { sound, hypotheses } = weighed;
  const alone = hypotheses.filter((h) => h.causes.length === 1 && h.causes[0] === cause);
  const sum = alone.reduce((s, h) => s + h.chance, 0);
  const told = (f: Feature) =>
    sum > 0
      ? alone.reduce((s, h) => s + (h.chance / sum) * (valueOf(f, h) - valueOf(f, sound)), 0)
      : valueOf(f, alone[0]) - valueOf(f, sound);
  const out = { for: [] as string[], against: [] as string[] };
  for (const feature of featuresOf(weighed)) {
    const off = measuredOf(feature, weighed) - valueOf(feature, sound);
    const expected = told(feature);
    const scatter = scatterOf(feature, weighed, sound);
    const left = Math.abs(off - expected);
    const seen = Math.abs(off) > Math.max(feature.least, STANDS_OUT * scatter);
    if (seen && left < LEFT_OVER * Math.abs(off)) out.for.push(`${feature.say(off)}; this explains it.`);
    else if (left > Math.max(feature.least, STANDS_OUT * scatter) && left > 0.6 * Math.abs(off))
      out.against.push(
        seen && Math.abs(expected) < 0.3 * Math.abs(off)
          ? `${feature.say(off)}; this would not make it so.`
          : `${feature.say(off)}, where this would make it ${feature.expect(expected)}.`,
      );
  }
  return out;
}

const valueOf = ({ rows }: Feature, { told }: Hypothesis) =>
  rows.reduce((s, [k, w]) => s + w * told.value[k], 0);

const measuredOf = ({ rows }: Feature, weighed: Weighed) =>
  rows.reduce((s, [k, w]) => s + w * weighed.rows.rows[k].measured, 0);

/** Standard deviation of a feature by ordinary scatter and the errors of its readings. */
function scatterOf({ rows }: Feature, weighed: Weighed, sound: Hypothesis): number {
  let variance = rows.reduce((s, [k, w]) => s + (w * weighed.rows.rows[k].sd) ** 2, 0);
  for (let i = 0; i < COLUMNS; i++) {
    const slope = rows.reduce((s, [k, w]) => s + w * sound.told.slope[k * COLUMNS + i], 0);
    variance += (slope * sound.spread[UNKNOWN_IDS[i]]) ** 2;
  }
  return Math.sqrt(variance);
}

const size = (x: number, more: string, less: string, same: string) =>
  Math.abs(x) < 0.005 ? same : `${formatPercent(Math.abs(x))} ${x > 0 ? more : less}`;

const lowerFirst = (text: string) => text[0].toLowerCase() + text.slice(1);

const ln = (x: number) => Math.exp(x) - 1;

function featuresOf({ rows }: Weighed): Feature[] {
  const list = rows.rows.slice(0, rows.measuredCount);
  const of = (channel: string, test = false) =>
    list.flatMap((row, k) =>
      row.aim.kind === 'channel' && row.aim.channel === channel && (row.test !== null) === test
        ? [{ k, row, point: row.aim.point }]
        : [],
    );
  const features: Feature[] = [];
  const thrust = of('thrust');
  const rpm = of('rpm');
  const mean = (entries: readonly { k: number }[], weight = 1) =>
    entries.map(({ k }) => [k, weight / entries.length] as const);
  if (rpm.length > 0 && rpm.length === thrust.length) {
    // Thrust is held as a ratio near one, speed as a logarithm: to first order the difference is thrust for its speed.
    const level = thrust.reduce((s, t) => s + Math.abs(t.row.measured), 0) / thrust.length;
    features.push({
      least: LEAST,
      rows: [...mean(thrust), ...mean(rpm, -2 * Math.max(0.2, Math.min(1, level)))],
      say: (x) =>
        x < -1
          ? 'It pushes the wrong way'
          : `It pushes ${size(x, 'more', 'less', 'no more')} than it should for its speed`,
      expect: (x) => size(x, 'more', 'less', 'no more'),
    });
  } else if (thrust.length > 0)
    features.push({
      least: LEAST,
      rows: mean(thrust),
      say: (x) =>
        x < -1 ? 'It pushes the wrong way' : `It pushes ${size(x, 'more', 'less', 'no more')} than expected`,
      expect: (x) => size(x, 'more', 'less', 'no more'),
    });
  const relative = (channel: string, say: string, more: string, less: string, same: string) => {
    const entries = of(channel);
    if (entries.length > 0)
      features.push({
        least: LEAST,
        rows: mean(entries),
        say: (x) => `${say} ${size(ln(x), more, less, same)} than expected`,
        expect: (x) => size(ln(x), more, less, same),
      });
    // At low throttle the loss by ripple rules the current: its trend says nothing of a cause.
    if (entries.length < 3 || channel === 'exit' || channel === 'current') return;
    const [low, high] = [entries[0], entries[entries.length - 1]];
    features.push({
      least: LEAST_TREND,
      rows: [
        [high.k, 1],
        [low.k, -1],
      ],
      say: (x) =>
        `Toward full throttle ${lowerFirst(say)} ever ${x > 0 ? more : less} than expected (${formatPercent(Math.abs(ln(x)))} from the lowest reading to the highest)`,
      expect: (x) => `${formatPercent(ln(x))} there`,
    });
  };
  relative('rpm', 'It turns', 'faster', 'slower', 'no faster');
  relative('current', 'It draws', 'more current', 'less current', 'no more current');
  relative('voltage', 'The pack holds', 'more voltage', 'less voltage', 'no more voltage');
  relative('exit', 'The air leaves', 'faster', 'slower', 'no faster');
  const thread = of('thread');
  if (thread.length > 0)
    features.push({
      least: 0.02,
      rows: mean(thread),
      say: (x) =>
        `The thread leans ${n(Math.abs(degreesFromRadians(x)), 2)} degrees ${x > 0 ? 'more' : 'less'} than expected`,
      expect: (x) => `${n(Math.abs(degreesFromRadians(x)), 2)} degrees ${x > 0 ? 'more' : 'less'}`,
    });
  list.forEach((row, k) => {
    const spec = row.test && testById.get(row.test);
    if (!spec) return;
    const show = (x: number) => shown(row.aim, x);
    features.push({
      least: 0,
      rows: [[k, 1]],
      say: (x) => `You looked at ${spec.name}, and found ${show(x)}`,
      expect: show,
    });
  });
  return features;
}

/** A test's outcome beside what the sound fan would show. */
function shown(aim: Weighed['rows']['rows'][number]['aim'], x: number): string {
  if (aim.kind === 'turn') return Math.abs(x) > 0.5 ? 'it wrong' : 'it right';
  const ratio = (r: number) =>
    Math.abs(r) < 0.005 ? 'as expected' : `${r > 0 ? '+' : ''}${formatPercent(r)}`;
  if (aim.kind === 'channel') return ratio(aim.channel === 'thrust' ? x : ln(x));
  switch (aim.unknown) {
    case 'gap':
      return `${x < 0 ? '' : '+'}${n(millimetresFromMetres(x), 2)} mm`;
    case 'angle':
      return `${x < 0 ? '' : '+'}${n(degreesFromRadians(x), 2)} degrees`;
    case 'edge':
    case 'flat':
    case 'pan':
    case 'limit':
      return Math.abs(x) < 0.01 ? 'nothing missing' : `${formatPercent(x)} missing`;
    case 'blocked':
      return x > 0.4 ? 'it in the way' : 'it clear';
    default:
      return ratio(ln(x));
  }
}
