import type { Project } from '../project/schema.ts';
import { formatNumber as n, formatPercent } from '../quantities/format.ts';
import type { Strength } from '../strength/types.ts';
import { ROTOR_CAUTIONS, roundedDown, short } from '../strength/words.ts';
import { bullet, columns, wrap } from './text.ts';

/** The strength of a rotor for a terminal; `asked`: at a speed that was asked for instead of full throttle. */
export function strengthText(project: Project, s: Strength, asked: boolean): string {
  const [first, ...rest] = asked ? askedWords(s) : s.words;
  return (
    `${project.name}: strength of the rotor ${asked ? `at ${n(s.fullRpm)} rpm` : 'at full throttle on a full battery'}\n` +
    wrap(first) +
    '\nAlong the blade\n' +
    stationTable(s) +
    '\nWhat gives way, weakest first\n' +
    modeTable(s) +
    '\nIn words\n' +
    rest.map((text) => bullet(text)).join('') +
    '\nNear a turning rotor\n' +
    ROTOR_CAUTIONS.map((text) => bullet(text)).join('')
  );
}

/** The sentences of a speed that was asked for: what says "full throttle" says the speed instead. */
function askedWords(s: Strength): string[] {
  const first = s.holds
    ? `At ${n(s.fullRpm)} rpm the rotor keeps its factor of ${short(s.safetyFactor)} on strength; it fails near ${n(s.failureRpm, 2)} rpm, ${n(s.speedMargin, 2)} times that.`
    : `At ${n(s.fullRpm)} rpm the rotor does not keep its factor of ${short(s.safetyFactor)} on strength: do not run it above ${roundedDown(s.safeRpm)} rpm (it fails near ${n(s.failureRpm, 2)} rpm).`;
  const speed = `${n(s.fullRpm)} rpm`;
  return [first, ...s.words.slice(1).map((text) => text.replace(/full throttle/g, speed))];
}

function stationTable({ stations: a }: Strength): string {
  const hollow = a.carrying.some((share) => share < 0.995);
  return columns([
    ['radius', 'pull', 'bending', 'peak', 'allowed', ...(hollow ? ['carries'] : [])],
    ['mm', 'MPa', 'MPa', 'MPa', 'MPa', ...(hollow ? [''] : [])],
    ...a.radius_mm.map((radius, i) => [
      n(radius),
      n(a.centrifugal_MPa[i], 2),
      n(a.bending_MPa[i], 2),
      n(a.peak_MPa[i], 2),
      n(a.allowed_MPa[i], 2),
      ...(hollow ? [formatPercent(a.carrying[i])] : []),
    ]),
  ]);
}

const modeTable = ({ modes }: Strength): string =>
  columns([
    ['', 'stress', 'strength', 'fails at'],
    ['', 'MPa', 'MPa', 'rpm'],
    ...modes.map((m) => [
      m.name + (m.radius_mm === null ? '' : `, radius ${n(m.radius_mm)} mm`),
      n(m.stress_MPa, 2),
      n(m.strength_MPa, 2),
      n(m.failureRpm, 2),
    ]),
  ]);
