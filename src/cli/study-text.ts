import type { Project } from '../project/schema.ts';
import { formatMinutes, formatNumber as n, formatPercent } from '../quantities/format.ts';
import { signed, type Slope } from '../study/slopes.ts';
import { ANSWERS, type AnswerId, type Uncertainty } from '../study/uncertainty-types.ts';
import { odds } from '../study/uncertainty-words.ts';
import { bullet, columns, wrap } from './text.ts';

const NAMES: Readonly<Record<AnswerId, string>> = {
  thrustToWeight: 'thrust over weight',
  hoverThrottle: 'throttle in hover',
  hover_min: 'hover',
  mass_g: 'mass',
  speedMargin: 'failure speed over fastest',
};

const SHOWN: Readonly<Record<AnswerId, (value: number) => string>> = {
  thrustToWeight: (v) => n(v),
  hoverThrottle: (v) => formatPercent(v),
  hover_min: (v) => formatMinutes(v),
  mass_g: (v) => `${n(v)} g`,
  speedMargin: (v) => n(v),
};

/** Drivers shown of one answer. */
const DRIVERS = 5;

/** Intervals, chances and drivers. */
export function uncertaintyText(project: Project, u: Uncertainty): string {
  const head = `${project.name}: ${u.samples} draws of ${u.unknowns.length} unknowns\n\n`;
  const intervals = columns([
    ['', 'middle', '5 % below', '5 % above'],
    ...ANSWERS.map((id) => {
      const of = u.answers[id];
      return of
        ? [NAMES[id], SHOWN[id](of.value), SHOWN[id](of.low), SHOWN[id](of.high)]
        : [NAMES[id], 'too many draws have none', '', ''];
    }),
  ]);
  const chances = columns([
    ['lifts itself', odds(u.chances.lifts)],
    [`hovers ${project.brief.wanted_min} min`, odds(u.chances.minutes)],
    [`keeps safety factor ${project.fan.safetyFactor}`, odds(u.chances.strength)],
    ['hovers so long and holds', odds(u.chances.all)],
  ]);
  const drivers = (['thrustToWeight', 'hover_min', 'speedMargin'] as const)
    .filter((id) => u.answers[id] && u.drivers[id].some((d) => d.total >= 0.01))
    .map(
      (id) =>
        `\nWhat drives ${NAMES[id]}\n` +
        columns([
          ['', 'alone', 'with others', 'halved: narrower by'],
          ...u.drivers[id]
            .filter((d) => d.total >= 0.01)
            .slice(0, DRIVERS)
            .map((d) => [
              d.name,
              formatPercent(d.first),
              formatPercent(d.total),
              d.halved === null ? '' : formatPercent(d.halved),
            ]),
        ]),
    )
    .join('');
  return head + intervals + '\nChances\n' + chances + drivers + '\n' + u.words.map((w) => bullet(w)).join('');
}

/** One row a number. */
export function slopesText(project: Project, slopes: readonly Slope[]): string {
  const one = slopes.some((s) => s.sides === 1);
  return (
    `${project.name}: what one step of each number does\n\n` +
    columns(
      [
        ['step', 'number', 'thrust', 'over weight', 'mass', 'hover', 'sound'],
        ...slopes.map((s) => [
          s.step + (s.sides === 1 ? ' *' : ''),
          s.name,
          `${signed(s.thrust_ratio * 100, 1)} %`,
          `${signed(s.margin_ratio * 100, 1)} %`,
          `${signed(s.mass_g, 1)} g`,
          Number.isFinite(s.hover_min) ? `${signed(s.hover_min * 60, 0)} s` : '',
          Number.isFinite(s.level_dB) ? `${signed(s.level_dB, 1)} dB` : '',
        ]),
      ],
      [0, 1],
    ) +
    '\n' +
    wrap(
      'Thrust of a fan at full throttle; sound in hover at 3 m. Each figure is the mean of a step up and a step down, so a long step may come out otherwise.' +
        (one
          ? ' A star marks a number that can be moved one way only: the other way it could not be built.'
          : ''),
    )
  );
}
