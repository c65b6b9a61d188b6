import type { BenchComparison } from '../bench/compare-types.ts';
import type { ColumnTaken } from '../bench/import-take.ts';
import { KEPT_UNIT } from '../bench/import-units.ts';
import type { Reduced } from '../bench/types.ts';
import { formatNumber as n, formatPercent } from '../quantities/format.ts';
import type { Interval } from '../quantities/interval.ts';
import type { GivenRun } from './bench-run.ts';
import { bullet, columns, wrap } from './text.ts';

const UNIT_FROM: Readonly<Record<ColumnTaken['unitFrom'], string>> = {
  said: 'as you said',
  name: 'by its name',
  'line of units': 'by the line of units',
  cells: 'by its cells',
  values: 'by its range',
  usual: 'the usual unit: please check',
};

/** A bench run in words and tables, for a terminal. */
export function benchText(
  name: string,
  { run, imported }: GivenRun,
  reduced: Reduced,
  comparison: BenchComparison,
): string {
  const { hoverShare, rigEffects, remarks } = reduced;
  const rig = `${run.rig.kind}, ${run.rig.fansRunning === 1 ? 'one fan' : `${run.rig.fansRunning} fans`}`;
  return (
    `${name} at the bench: ${rig}\n` +
    (hoverShare ? wrap(hoverShare.words) : '') +
    (imported ? `\nHow the log was taken (change it with --map)\n${mapping(imported.columns)}` : '') +
    (imported?.notes.map((note) => bullet(note)).join('') ?? '') +
    (reduced.points.length > 0 ? `\nOne fan, with 9 of 10 intervals\n${pointTable(reduced)}` : '') +
    wrap(zeroWords(reduced), '  ') +
    '\nAgainst the prediction\n' +
    comparison.words.map((text) => bullet(text)).join('') +
    (rigEffects.length > 0
      ? `\nWhat the rig does to it (not taken out of the figures)\n${rigEffects.map(({ text }) => bullet(text)).join('')}`
      : '') +
    (remarks.length > 0
      ? `\nTo mind\n${[...remarks]
          .sort((a, b) => ORDER.indexOf(a.weight) - ORDER.indexOf(b.weight))
          .map(({ text }) => bullet(text))
          .join('')}`
      : '')
  );
}

const ORDER = ['stop', 'care', 'note'];

function mapping(taken: readonly ColumnTaken[]): string {
  return columns(
    [
      ['column', 'is', 'unit', 'told', 'first cell', 'read as'],
      ...taken.map((column) => {
        const { as, unit, unitFrom, cell, reads } = column;
        const first = cell.slice(0, 20);
        if (as === null) return [column.name.slice(0, 30), 'not taken', '', '', first, ''];
        return [
          column.name.slice(0, 30),
          as,
          unit,
          as === 'note' ? '' : UNIT_FROM[unitFrom],
          first,
          reads === null || as === 'note'
            ? ''
            : as === 'throttle'
              ? formatPercent(reads)
              : `${n(reads, 4)} ${KEPT_UNIT[as]}`,
        ];
      }),
    ],
    [0, 1, 2, 3, 4],
  );
}

function pointTable({ points }: Reduced): string {
  const has = (pick: (p: Reduced['points'][number]) => unknown) => points.some((p) => pick(p) !== null);
  const cell = (x: Interval | null, digits = 3) => (x === null ? '-' : n(x.value, digits));
  const ranged = (x: Interval | null) => (x === null ? '-' : `${n(x.value)} (${n(x.low)} to ${n(x.high)})`);
  const shown: [string, (p: Reduced['points'][number]) => string, unknown][] = [
    ['throttle', (p) => (p.throttle === null ? '-' : formatPercent(p.throttle)), has((p) => p.throttle)],
    ['rpm', (p) => cell(p.rpm, 4), has((p) => p.rpm)],
    ['thrust N', (p) => ranged(p.thrust_N), true],
    ['V', (p) => cell(p.voltage_V), has((p) => p.voltage_V)],
    ['A', (p) => cell(p.current_A), has((p) => p.current_A)],
    ['W', (p) => cell(p.electricalPower_W), has((p) => p.electricalPower_W)],
    ['torque mNm', (p) => (p.torque_Nm ? n(p.torque_Nm.value * 1000) : '-'), has((p) => p.torque_Nm)],
    ['ct', (p) => cell(p.ct), has((p) => p.ct)],
    ['cp', (p) => cell(p.cp), has((p) => p.cp)],
    ['merit', (p) => ranged(p.figureOfMerit), has((p) => p.figureOfMerit)],
    ['g/W', (p) => cell(p.gramsPerWatt), has((p) => p.gramsPerWatt)],
  ];
  // Two tables: one would be too wide for a terminal.
  const tableOf = (names: readonly string[]) => {
    const used = shown.filter(([name, , there]) => names.includes(name) && there);
    return columns([used.map(([name]) => name), ...points.map((p) => used.map(([, text]) => text(p)))], []);
  };
  const drive = ['V', 'A', 'W', 'torque mNm', 'g/W'];
  const readDrive = shown.some(([name, , there]) => drive.includes(name) && there);
  const table =
    tableOf(['throttle', 'rpm', 'thrust N', 'ct', 'cp', 'merit']) +
    (readDrive ? `\n${tableOf(['throttle', 'rpm', ...drive])}` : '');
  return points.some((p) => p.torqueFrom === 'motor')
    ? `${table}  Torque, cp and merit follow from volts, amps and speed by the constants of the motor.\n`
    : table;
}

const ZERO_FROM: Readonly<Record<Reduced['zero']['from'], string>> = {
  'readings at rest': 'from the readings at rest',
  'mass at rest': 'as given',
  'mass of the craft': 'the mass of the craft',
  'taken as zero': 'taken as 0',
};

function zeroWords({ zero, needed_N, neededFrom, air, unused }: Reduced): string {
  const moved = Math.abs(zero.last_g - zero.first_g) > 1e-9 ? ` to ${n(zero.last_g)}` : '';
  return (
    `Zero of the scale: ${n(zero.first_g)}${moved} g, ${ZERO_FROM[zero.from]}. ` +
    `Hover asks ${n(needed_N.value)} N of one fan (craft ${neededFrom === 'weighed' ? 'as weighed' : 'as the project adds it up'}). ` +
    `Air ${n(air.density, 4)} kg/m³.` +
    (unused > 0 ? ` ${unused} ${unused === 1 ? 'reading was' : 'readings were'} not used.` : '')
  );
}
