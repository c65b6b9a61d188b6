import { formatNumber, formatPercent } from '../src/quantities/format.ts';
import { topics } from './all.ts';
import { judge, type Outcome, type Picture, type Summary, type Topic } from './check.ts';
import { plotOutcome, plotPicture } from './plot.ts';

const HEADER = `<!-- Written by \`npm run docs\` from the files in checks/. Do not edit by hand. -->

# Held against the outside world

What others measured, tabulated or derived, beside what Fanwright computes today. \`npm test\` runs every line.

How to read it. *Read*: the number was read in the source. *From memory*: recalled, so the bound is wide.
*Computed*: arithmetic on numbers that were read. *Target*: how close we want to be, fixed before the result is known
where that is possible. A **missed** target is printed as such with its reason, and a ceiling in the tests keeps
it from getting worse unseen.
`;

/** Every generated file, by path from the top of the repository. */
export function renderChecks(): ReadonlyMap<string, string> {
  const files = new Map<string, string>();
  const judged = topics.map((topic) => ({ topic, outcomes: topic.checks.map(judge) }));
  const parts = judged.map(({ topic, outcomes }) => {
    for (const outcome of outcomes.filter(hasOwnPlot)) files.set(plotPath(outcome), plotOutcome(outcome));
    const pictures = topic.pictures?.() ?? [];
    for (const picture of pictures) files.set(`docs/plots/${picture.id}.svg`, plotPicture(picture));
    return renderTopic(topic, outcomes, pictures);
  });
  files.set('docs/checks.md', [HEADER, renderSum(judged.flatMap((j) => j.outcomes)), ...parts].join('\n'));
  return files;
}

const hasOwnPlot = ({ check }: Outcome): boolean => check.axis !== undefined && !check.inPicture;

const plotPath = ({ check }: Outcome): string => `docs/plots/${check.id}.svg`;

function renderSum(outcomes: readonly Outcome[]): string {
  const points = outcomes.reduce((sum, o) => sum + o.points.length, 0);
  const missed = outcomes.filter((o) => o.verdict !== 'met');
  const byReason = new Map<string, string[]>();
  for (const o of missed) {
    const words = `${o.check.title}: ${size(o, o.judged)} against ${size(o, o.target)}`;
    byReason.set(why(o), [...(byReason.get(why(o)) ?? []), words]);
  }
  const list = [...byReason].map(([reason, words]) => `- ${words.join('; ')}. ${reason}`);
  return [
    `${outcomes.length} checks with ${points} points; ${outcomes.length - missed.length} meet their target, ${missed.length} miss it.`,
    ...(list.length ? ['', 'Missed:', '', ...list] : []),
    '',
  ].join('\n');
}

function renderTopic(topic: Topic, outcomes: readonly Outcome[], pictures: readonly Picture[]): string {
  const sources = [...new Set(topic.checks.map((check) => check.source))];
  const lines = [
    `## ${topic.title}`,
    '',
    topic.intro,
    '',
    '| what | at | ours | theirs | error | target | result | source |',
    '| --- | --- | ---: | ---: | ---: | ---: | --- | --- |',
    ...outcomes.flatMap((outcome) => renderRows(outcome, sources.indexOf(outcome.check.source) + 1)),
    '',
    ...outcomes.filter((o) => o.check.note).flatMap((o) => [`${o.check.title}: ${o.check.note}`, '']),
    ...(topic.summaries?.() ?? []).flatMap(renderSummary),
    ...outcomes
      .filter(hasOwnPlot)
      .flatMap((o) => [`![${o.check.title}, computed and measured](plots/${o.check.id}.svg)`, '']),
    ...pictures.flatMap((p) => [`![${p.title}](plots/${p.id}.svg)`, '']),
    ...sources.map((source, i) => `${i + 1}. ${source}`),
    '',
  ];
  return lines.join('\n');
}

const renderSummary = ({ title, head, rows }: Summary): string[] => [
  title,
  '',
  row(head),
  row(head.map((_, i) => (i === 0 ? '---' : '---:'))),
  ...rows.map(row),
  '',
];

function renderRows(outcome: Outcome, source: number): string[] {
  const { check, points } = outcome;
  const target = [size(outcome, outcome.target), check.judged].filter(Boolean).join(' ');
  const title = check.unit ? `${check.title} [${check.unit}]` : check.title;
  const result = outcome.verdict === 'met' ? 'met' : `**${outcome.verdict}**`;
  const cite = `[${source}] ${check.status}`;
  if (check.axis) {
    const at = `${points.length} points, ${points[0].at} to ${points[points.length - 1].at}`;
    const middle = check.judged === 'median' ? 'median' : 'mean';
    const error = `${middle} ${size(outcome, outcome[middle])}, worst ${size(outcome, outcome.worst)}`;
    return [row([title, at, 'plot', 'plot', error, target, result, cite])];
  }
  return points.map((p, i) =>
    row([
      title,
      p.at,
      formatNumber(p.ours, 5),
      typeof p.theirs === 'number'
        ? formatNumber(p.theirs, 5)
        : p.theirs.map((t) => formatNumber(t, 5)).join(' to '),
      signed(outcome, p.error),
      typeof p.theirs === 'number' ? target : 'inside',
      i === 0 ? result : '',
      cite,
    ]),
  );
}

const row = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;

const why = ({ check }: Outcome): string => check.missed?.why ?? 'Not explained yet.';

/** A size of error in the way the target is stated. */
function size({ relative, check }: Outcome, value: number): string {
  if (relative)
    return value !== 0 && value < 0.0005 ? `${formatNumber(value * 100, 2)} %` : formatPercent(value, 1);
  return `${formatNumber(value, 2)} ${check.unit}`.trim();
}

/** Below this an error is rounding of the arithmetic, and differs from machine to machine. */
const ROUNDING = 1e-12;

const signed = (outcome: Outcome, error: number): string =>
  Math.abs(error) < ROUNDING ? '0' : `${error < 0 ? '−' : '+'}${size(outcome, Math.abs(error))}`;
