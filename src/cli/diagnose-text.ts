import type { CauseFinding, Diagnosis } from '../bench/diagnose/types.ts';
import { formatPercent } from '../quantities/format.ts';
import type { Interval } from '../quantities/interval.ts';
import { bullet, wrap } from './text.ts';

/** A diagnosis for a terminal. */
export function diagnoseText(name: string, d: Diagnosis): string {
  const causes = d.causes.map(causeText).join('');
  return (
    `${name}: why it gives what it gives\n` +
    d.sentences.map((text) => wrap(text)).join('') +
    (causes === ''
      ? ''
      : `\nCauses, likeliest first${d.unexplained.flagged ? ' (none of them fits well)' : ''}\n${causes}`) +
    `\n  Nothing amiss beyond ordinary scatter: ${chance(d.nothingAmiss)}. Something not known here: ${chance(d.unexplained.chance)}.\n` +
    (d.next.length > 0
      ? `\nWhat to measure next\n${d.next.map((m) => bullet(`${m.words} ${m.how}${m.caution ? ` ${m.caution}` : ''}`)).join('')}`
      : '') +
    `\nMind\n${d.cautions.map((text) => bullet(text)).join('')}`
  );
}

function causeText(c: CauseFinding): string {
  const size = c.size && c.size.words !== '' ? `: ${c.size.words}` : '';
  return (
    bullet(`${c.name}${size}. Chance ${chance(c.chance)}, odds ${c.odds}.${shareText(c.share)}`) +
    c.for.map((text) => bullet(text, '  + ')).join('') +
    c.against.map((text) => bullet(text, '  − ')).join('') +
    bullet(c.fix, '  > ')
  );
}

const shareText = (share: Interval | null): string =>
  share === null
    ? ''
    : ` Explains ${formatPercent(share.value)} of the shortfall (${formatPercent(share.low)} to ${formatPercent(share.high)}).`;

const chance = (p: number): string => (p < 0.005 ? 'under 1 %' : p > 0.995 ? 'over 99 %' : formatPercent(p));
