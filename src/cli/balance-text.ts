import type { BenchCard } from '../balance/card.ts';
import type { BalanceAnswer, BenchAnswer } from '../balance/types.ts';
import { chanceInWords } from '../balance/words.ts';
import { formatNumber as n } from '../quantities/format.ts';
import { bullet, columns, wrap } from './text.ts';

/** What --draws counted. */
interface Drawn {
  readonly count: number;
  readonly mean_gmm: number;
  readonly low_gmm: number;
  readonly high_gmm: number;
  readonly passShare: number;
}

const heading = (text: string): string => `\n${text}\n`;
const list = (words: readonly string[]): string => words.map((text) => bullet(text)).join('');

/** The balance of a project as text. */
export function balanceText(
  name: string,
  balance: BalanceAnswer,
  bench: BenchAnswer,
  drawn: Drawn | null,
): string {
  const { order, orderFault, trial, trialWords } = bench;
  return (
    `${name}: balance of a rotor\n` +
    heading('As printed') +
    list(balance.words) +
    heading('Where it comes from') +
    columns([
      ['cause', 'mean g mm'],
      ...balance.sources.map(({ name: cause, size_gmm }) => [cause, n(size_gmm, 2)]),
    ]) +
    heading('Grades at full throttle') +
    columns([
      ['grade', 'permits g mm', 'rotors that meet it untouched'],
      ...balance.grades.map((g) => [
        `G ${g.grade_mmps}`,
        n(g.permissible_gmm, 2),
        chanceInWords(g.passChance),
      ]),
    ]) +
    (drawn
      ? heading(`${n(drawn.count)} rotors printed in mind`) +
        list([
          `Mean ${n(drawn.mean_gmm, 3)} g mm, 9 of 10 from ${n(drawn.low_gmm, 2)} to ${n(drawn.high_gmm, 2)} g mm; ${chanceInWords(drawn.passShare)} meet the grade. In closed form: mean ${n(balance.expected_gmm.value, 3)}, ${n(balance.expected_gmm.low, 2)} to ${n(balance.expected_gmm.high, 2)}, ${chanceInWords(balance.passChance)}.`,
        ])
      : '') +
    (order || orderFault
      ? heading('Weighed blades') + list([...(order?.words ?? []), ...(orderFault ? [orderFault] : [])])
      : '') +
    (trial ? heading('Trial runs') + list(trial.ok ? trialWords : [trial.message]) : '') +
    (order || trial
      ? ''
      : heading('At the bench') +
        list([
          'Enter --blades or --run for an order of blades or a correction; --card prints what to do, in order.',
        ]))
  );
}

/** The card as plain text, to print and write on. */
export function cardText({ title, cautions, steps }: BenchCard): string {
  return (
    `${title}\n` +
    heading('Before you start') +
    list(cautions) +
    heading('The work') +
    steps
      .map(
        ({ text, blanks }, i) =>
          bullet(text, `${i + 1}. `.padEnd(4)) + (blanks.length > 0 ? lineOfBlanks(blanks) : ''),
      )
      .join('')
  );
}

/** Blanks side by side, each kept whole with its unit. */
const lineOfBlanks = (blanks: readonly string[]): string =>
  wrap(blanks.map((blank) => blank.replaceAll(' ', '\u00a0')).join('   '), '      ').replaceAll(
    '\u00a0',
    ' ',
  );
