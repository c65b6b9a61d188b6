import { Command } from 'commander';
import { readShakeCsv, type ShakeLog, type ShakeUnit } from '../bench/tach/shake-csv.ts';
import { shakeLevel, type ShakeAnswer } from '../bench/tach/shake.ts';
import { rpmWords } from '../bench/tach/words.ts';
import { textFromBytes } from '../project/table.ts';
import { formatNumber as n } from '../quantities/format.ts';
import { BadInput } from './fault.ts';
import { readBytes } from './files.ts';
import { asJson, type Io } from './io.ts';
import { numberFrom } from './numbers.ts';
import { bullet } from './text.ts';

interface ShakeOptions {
  readonly rpm: number;
  readonly time?: string;
  readonly axes?: string;
  readonly mark?: string;
  readonly unit?: string;
  readonly json?: boolean;
}

const UNITS: readonly ShakeUnit[] = ['m/s2', 'g', 'deg/s', 'rad/s', 'other'];
const UNIT_WORDS: Readonly<Record<ShakeUnit, string>> = {
  'm/s2': 'm/s²',
  g: 'g',
  'deg/s': '°/s',
  'rad/s': 'rad/s',
  other: 'units of the log',
};

/** `fanwright shake FILE.csv`: the level once a turn, for the runs of the balance. */
export function shakeCommand(io: Io): Command {
  return new Command('shake')
    .description(
      'Tell how much a rotor shakes once a turn, from a log of a phone or a flight controller (CSV).',
    )
    .argument('<FILE.csv>', 'table with a column of time and one to three directions')
    .requiredOption('--rpm <N>', 'speed of the rotor, rpm', numberFrom('--rpm', 10, 500_000, 'rpm'))
    .option('--time <COLUMN>', 'column of time, if its name does not tell')
    .option('--axes <A,B,C>', 'columns of the directions, if their names do not tell')
    .option('--mark <COLUMN>', 'column that rises once a turn at the mark on the rotor')
    .option('--unit <U>', `unit of the directions: ${UNITS.join(', ')}`)
    .option('--json', 'print every figure as JSON')
    .addHelpText('after', SHAKE_NOTES)
    .action((file: string, options: ShakeOptions) => {
      const { time, mark } = options;
      const text = textFromBytes(readBytes(file));
      if (!text.ok) throw new BadInput(`${file}: ${text.message}`);
      const read = readShakeCsv(text.text, {
        time,
        mark,
        axes: options.axes?.split(',').map((name) => name.trim()),
        unit: unitFrom(options.unit),
      });
      if (!read.ok) throw new BadInput(`${file}: ${read.message}`);
      const answer = shakeLevel(read.log, options.rpm);
      if (!answer.ok) throw new BadInput(`${file}: ${answer.message}`);
      const { columns, notes } = read.log;
      io.out(options.json ? asJson({ ...answer, columns, notes }) : shakeText(file, read.log, answer));
    });
}

function unitFrom(text: string | undefined): ShakeUnit | undefined {
  const unit = UNITS.find((one) => one === text);
  if (text !== undefined && !unit)
    throw new BadInput(`--unit is "${text.slice(0, 40)}"; it must be one of ${UNITS.join(', ')}.`);
  return unit;
}

function shakeText(file: string, log: ShakeLog, answer: ShakeAnswer & { readonly ok: true }): string {
  const { level, perAxis, rpm, standsOut, phase_deg, rate_Hz } = answer;
  const unit = UNIT_WORDS[answer.unit];
  const words = [
    standsOut
      ? `${n(level.value)} ${unit} once a turn at ${rpmWords(rpm)} rpm (9 in 10: ${n(level.low)} to ${n(level.high)}).`
      : `Nothing stands out once a turn near ${rpmWords(rpm)} rpm; it is below ${n(level.high)} ${unit}.`,
    `By direction: ${perAxis.map(({ name, amplitude }) => `${name} ${n(amplitude)}`).join(', ')}.`,
    ...(phase_deg === null ? [] : [`The strongest direction peaks ${n(phase_deg)}° after the mark.`]),
    ...(standsOut
      ? [
          `As a run of the balance: --run ${Number(level.value.toPrecision(3))}${phase_deg === null ? '' : `:0:0:0:${Math.round(phase_deg)}`} for the rotor as it came; with a trial mass write its mass, radius and place behind.`,
        ]
      : []),
    `${log.t_s.length} readings, ${n(rate_Hz)} a second. Columns: ${log.columns.map((c) => `${c.column} as ${c.as}${c.unit ? `, ${c.unit}` : ''}`).join('; ')}.`,
    ...log.notes,
  ];
  return `${file}\n${words.map((text) => bullet(text)).join('')}`;
}

const SHAKE_NOTES = `
Nothing is written. Fix the phone or the controller to the rig, not to the rotor; log ten seconds
at one speed, the same speed for every run of a balance. The rotor turns while you log: clamp the
rig, wear eye protection, stand clear of the plane of the rotor, and pull the battery before every
touch. A log must hold more than twice as many readings a second as the rotor turns; many phones
manage 100 to 400 a second, which is 2700 to 10 800 rpm.

The level is half of peak to peak, all directions together, with the noise beside it taken out.
Columns are told by name and unit (time (ms), acc_x [m/s2], gyro_x_deg/s); the printout says how
they were taken. Levels in any unit will do for "fanwright balance".

Keys of --json: rpm, level (value, low, high), unit, perAxis, standsOut, phase_deg, rate_Hz,
columns, notes.

Examples:
  fanwright shake run1.csv --rpm 6000
  fanwright shake log.csv --rpm 6000 --time t --axes ax,ay,az --unit m/s2 --json`;
