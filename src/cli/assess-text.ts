import type { DuctFlowResult } from '../assess/lip-flow.ts';
import type { Assessment, FanPoint } from '../assess/types.ts';
import type { Project } from '../project/schema.ts';
import { formatMinutes, formatNumber, formatPercent } from '../quantities/format.ts';
import type { Interval } from '../quantities/interval.ts';
import { bullet, columns, wrap } from './text.ts';

const LOSS_NAMES: Readonly<Record<keyof FanPoint['losses_W'], string>> = {
  ideal: 'least for this thrust',
  unevenJet: 'uneven jet',
  profileDrag: 'blade drag',
  tipGap: 'tip gap',
  swirl: 'swirl',
  inletLip: 'inlet lip',
  wallFriction: 'wall friction',
  hubBase: 'hub end',
  struts: 'struts',
  exitExpansion: 'exit',
};

/** An assessment in words and tables, for a terminal. */
export function assessmentText(project: Project, a: Assessment, entry: DuctFlowResult | null = null): string {
  return (
    `${project.name}: ${a.verdict.headline}\n` +
    wrap(a.verdict.summary) +
    '\nWhy\n' +
    a.verdict.reasons.map(({ text }, i) => bullet(text, `${i + 1}. `)).join('') +
    '\n' +
    craftTable(a) +
    '\nOne fan\n' +
    pointTable(a) +
    (a.fan.compare ? `\nOpen against ducted, in hover\n${wrap(a.fan.compare.words, '  ')}` : '') +
    (a.print ? `\nThe blades as printed\n${wrap(a.print.words, '  ')}` : '') +
    (entry ? `\nHow the air enters\n${airEntry(entry)}` : '') +
    '\nMass\n' +
    massTable(a) +
    remarks(a)
  );
}

/** A level and its interval as two cells. */
const levelParts = ({ value, low, high }: Interval): [string, string] => [
  `${Math.round(value)} dB(A)`,
  `(${Math.round(low)} to ${Math.round(high)})`,
];

function craftTable({ craft, sound }: Assessment): string {
  const {
    thrustToWeightInterval: lift,
    hoverThrottleInterval: throttle,
    hoverMinutesInterval: minutes,
  } = craft;
  const hovers = craft.hoverThrottle !== null;
  return columns(
    [
      ['All-up mass', `${formatNumber(craft.mass_g)} g`, ''],
      [
        'Thrust over weight',
        formatNumber(craft.thrustToWeight),
        `(${formatNumber(lift.low, 2)} to ${formatNumber(lift.high, 2)})`,
      ],
      [
        'Hover throttle',
        hovers ? formatPercent(craft.hoverThrottle!) : 'none',
        throttle ? `(${formatPercent(throttle.low)} to ${formatPercent(throttle.high)})` : '',
      ],
      [
        'Hover time',
        hovers ? formatMinutes(craft.hover_min) : 'none',
        hovers ? `(${formatMinutes(minutes.low)} to ${formatMinutes(minutes.high)})` : '',
      ],
      ['Power from the battery in hover', hovers ? `${formatNumber(craft.hoverPower_W)} W` : 'none', ''],
      ['Weight on the discs', `${formatNumber(craft.discLoading_Npm2)} N/m²`, ''],
      [
        `Sound ${sound.hover ? 'in hover' : 'at full throttle'}, ${sound.distance_m} m away`,
        ...levelParts((sound.hover ?? sound.full).overall_dBA),
      ],
    ],
    [0, 1, 2],
  );
}

function pointTable({ fan }: Assessment): string {
  const points: [string, FanPoint][] = [];
  if (fan.hover) points.push(['hover', fan.hover]);
  if (fan.atThrottle) points.push([`at ${formatPercent(fan.atThrottle.throttle ?? 0)}`, fan.atThrottle]);
  points.push(['full', fan.full]);
  const row = (name: string, value: (p: FanPoint) => number, unit: string, digits = 3) => [
    name,
    ...points.map(([, p]) => formatNumber(value(p), digits)),
    unit,
  ];
  const watts = (Object.keys(LOSS_NAMES) as (keyof FanPoint['losses_W'])[]).map((key) =>
    row(`  ${LOSS_NAMES[key]}`, (p) => p.losses_W[key], 'W', 2),
  );
  return columns(
    [
      ['', ...points.map(([name]) => name), ''],
      row('Speed', (p) => p.rpm, 'rpm'),
      row('Thrust', (p) => p.thrust_N, 'N'),
      row('  of it the rotor', (p) => p.rotorThrust_N, 'N'),
      row('Torque', (p) => p.torque_Nm * 1000, 'mN m'),
      row('Power at the shaft', (p) => p.shaftPower_W, 'W'),
      ...watts,
      row('Power from the battery', (p) => p.electricalPower_W, 'W'),
      row('Motor current', (p) => p.motorCurrent_A, 'A'),
      row('Battery voltage', (p) => p.batteryVoltage_V, 'V'),
      row('Figure of merit', (p) => p.figureOfMerit, ''),
      row('Thrust for a watt', (p) => p.gramsPerWatt, 'g/W'),
      row('Air at the rotor', (p) => p.axialVelocity_mps, 'm/s'),
      row('Air at the exit', (p) => p.exitVelocity_mps, 'm/s'),
      row('Tip speed', (p) => p.tipSpeed_mps, 'm/s'),
    ],
    [0, points.length + 1],
  );
}

function massTable({ craft }: Assessment): string {
  const items = craft.items.map(({ name, count, each_g, total_g }) => [
    name,
    count === 1 ? '' : `${count} × ${formatNumber(each_g)} g`,
    `${formatNumber(total_g)} g`,
  ]);
  return columns([...items, ['all up', '', `${formatNumber(craft.mass_g)} g`]]);
}

const airEntry = (entry: DuctFlowResult): string =>
  entry.ok ? entry.answer.sentences.map((text) => bullet(text)).join('') : wrap(entry.why, '  ');

function remarks({ remarks, helps, fan }: Assessment): string {
  const words = { stop: 'Stop: ', care: 'Mind: ', note: '' };
  const there = fan.atThrottle?.limits.map(
    ({ text }) => `${words.care}At ${formatPercent(fan.atThrottle?.throttle ?? 0)}: ${text}`,
  );
  const said = remarks
    .map(({ weight, text }) => words[weight] + text)
    .concat(there ?? [])
    .map((text) => bullet(text))
    .join('');
  const helped = helps.map(({ text }) => bullet(text)).join('');
  return (said && `\nTo mind\n${said}`) + (helped && `\nWhat would help\n${helped}`);
}
