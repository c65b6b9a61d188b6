import { Command } from 'commander';
import { motorFromReadings, type MotorFromReadings, type NoLoadReading } from '../drive/motor-readings.ts';
import { typicalMotor, typicalMotorKeys, type TypicalMotor } from '../drive/typical-motor.ts';
import type { Motor } from '../project/schema.ts';
import { formatNumber as n } from '../quantities/format.ts';
import { largerFan, projectLimits } from '../study/larger-fan.ts';
import { collect } from './assess.ts';
import { BadInput } from './fault.ts';
import { asJson, type Io } from './io.ts';
import { measuredTable, sizeTable, typicalTable } from './motor-text.ts';
import { numberFrom } from './numbers.ts';
import { openProject } from './open.ts';
import { bullet, wrap } from './text.ts';

interface MotorOptions {
  readonly resistance?: number;
  readonly temperature: number;
  /** From --no-load, which the option reader takes for the denial of --load: true where it was left out. */
  readonly load: readonly string[] | true;
  readonly stator?: string;
  readonly velocityConstant?: number;
  readonly build?: string;
  readonly set?: readonly string[];
  readonly json?: boolean;
}

/** `fanwright motor`: a motor's constants from bench readings or stator size; of a project, what its motor can handle. */
export function motorCommand(io: Io): Command {
  return new Command('motor')
    .description(
      'Find the constants of a motor from bench readings, or say what the motor of a project can handle.',
    )
    .argument('[FILE]', 'project file: its limits along the throttle, and whether a larger fan would do')
    .option(
      '--resistance <MOHM>',
      'resistance between two of the three leads, mΩ',
      numberFrom('--resistance', 0.1, 10_000, 'mΩ'),
    )
    .option(
      '--temperature <C>',
      'temperature of the winding while its resistance was read, °C',
      numberFrom('--temperature', -40, 150, '°C'),
      20,
    )
    .option(
      '--no-load <V:A:RPM>',
      'shaft free: voltage V, current A, speed rpm; give it twice for two voltages',
      (text: string, list: readonly string[] | true) => [...(list === true ? [] : list), text],
    )
    .option('--stator <DxH>', 'stator diameter and height, mm: adds what is usual for it (an estimate)')
    .option(
      '--velocity-constant <K>',
      'speed for each volt, rpm/V, for --stator without readings',
      numberFrom('--velocity-constant', 10, 100_000, 'rpm/V'),
    )
    .option('--build <ID>', 'use one of the builds in the project file')
    .option(
      '--set <path=value>',
      'change a value of the project for this run only; may be given several times',
      collect,
    )
    .option('--json', 'print every figure as JSON')
    .addHelpText('after', MOTOR_NOTES)
    .action((file: string | undefined, options: MotorOptions) => {
      if (file !== undefined) return io.out(ofProject(file, options));
      if (options.build !== undefined || options.set !== undefined)
        throw new BadInput('--build and --set belong to a project; give its FILE too.');
      io.out(ofReadings(options));
    });
}

function ofProject(file: string, options: MotorOptions): string {
  if (readingsGiven(options))
    throw new BadInput('Give a project FILE or readings of a motor, not both: the file has its motor.');
  const { project } = openProject(file, options);
  const limits = projectLimits(project);
  const larger = largerFan(project);
  if (options.json) return asJson({ limits, larger });
  return (
    `${project.name}: ${project.motor.name}\n\nAlong the throttle, battery half charged\n` +
    limits.words.map((text) => bullet(text)).join('') +
    '\nA larger fan on this motor\n' +
    larger.words.map((text) => bullet(text)).join('') +
    '\nThe same fan at other sizes\n' +
    sizeTable(larger)
  );
}

const readingsGiven = (options: MotorOptions): boolean =>
  options.resistance !== undefined ||
  options.load !== true ||
  options.stator !== undefined ||
  options.velocityConstant !== undefined;

function ofReadings(options: MotorOptions): string {
  const { resistance, stator, temperature } = options;
  const noLoad = options.load === true ? [] : options.load.map(noLoadReading);
  if (!readingsGiven(options))
    throw new BadInput(
      'motor needs readings, as in --resistance 190 --no-load 7:0.35:21150, or --stator 14x4 --velocity-constant 3800, or a project FILE.',
    );
  if ((resistance === undefined) !== (noLoad.length === 0))
    throw new BadInput(
      resistance === undefined
        ? '--no-load needs --resistance too (mΩ between two leads): without it the voltage lost in the winding is unknown.'
        : '--resistance needs --no-load V:A:RPM too, as in --no-load 7:0.35:21150.',
    );
  const measured = resistance === undefined ? null : measure(resistance, noLoad, temperature);
  if (measured && options.velocityConstant !== undefined)
    throw new BadInput('--velocity-constant is for --stator without readings; the readings give it.');
  if (stator !== undefined && !measured && options.velocityConstant === undefined)
    throw new BadInput('--stator needs --velocity-constant in rpm/V, or readings.');
  if (stator === undefined && !measured)
    throw new BadInput(
      '--velocity-constant alone says nothing of a motor; give --stator too, as in --stator 14x4.',
    );
  const speedPerVolt = measured?.motor.velocityConstant_rpmPerV ?? options.velocityConstant!;
  const typical = stator === undefined ? null : typicalOf(stator, speedPerVolt);
  const motor: Partial<Motor> = {
    velocityConstant_rpmPerV: speedPerVolt,
    ...(typical && typicalMotorKeys(typical)),
    ...measured?.motor,
  };
  if (options.json)
    return asJson({
      constants: measured?.constants ?? null,
      typical,
      motor,
      notes: measured?.notes ?? [],
    });
  const block = JSON.stringify({ motor }, null, 2).split('\n').slice(1, -1).join('\n');
  return (
    (measured ? `From the readings\n${measuredTable(measured.constants)}` : '') +
    (typical
      ? `${measured ? '\n' : ''}Usual for this stator (an estimate: common practice, no source)\n${typicalTable(typical)}`
      : '') +
    (measured && measured.notes.length > 0
      ? `\nTo mind\n${measured.notes.map((t) => bullet(t)).join('')}`
      : '') +
    `\nFor the project file\n${block}\n` +
    (typical ? '' : wrap('Keys that are not listed (currents, mass, sizes) stay as they are in the file.'))
  );
}

function measure(
  resistance_mohm: number,
  noLoad: readonly NoLoadReading[],
  temperature_C: number,
): Extract<MotorFromReadings, { ok: true }> {
  const found = motorFromReadings({ resistance_mohm, noLoad, temperature_C });
  if (!found.ok) throw new BadInput(found.faults[0].message);
  return found;
}

function noLoadReading(text: string): NoLoadReading {
  const parts = text.split(':');
  const [voltage_V, current_A, rpm] = parts.map((part) =>
    /^(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(part.trim()) ? Number(part) : NaN,
  );
  if (parts.length !== 3 || [voltage_V, current_A, rpm].some(Number.isNaN))
    throw new BadInput(
      `--no-load is "${text.slice(0, 40)}"; it must be voltage, current and speed with colons between, as in 7:0.35:21150 (V, A, rpm).`,
    );
  return { voltage_V, current_A, rpm };
}

function typicalOf(stator: string, velocityConstant: number): TypicalMotor {
  const match = /^(\d+\.?\d*)[x×](\d+\.?\d*)$/i.exec(stator.trim());
  if (!match)
    throw new BadInput(
      `--stator is "${stator.slice(0, 40)}"; it must be diameter and height in mm, as in 14x4.`,
    );
  const typical = typicalMotor(Number(match[1]), Number(match[2]), velocityConstant);
  if (!typical)
    throw new BadInput(
      `--stator ${stator} at ${n(velocityConstant)} rpm/V is outside what the estimate knows: stators of 9 to 30 mm by 1.5 to 12 mm, 600 to 20 000 rpm/V.`,
    );
  return typical;
}

const MOTOR_NOTES = `
How to read a motor on the bench, nothing on its shaft:
  resistance  a steady current of 1 to 3 A through two leads; voltage between them over current;
              the mean of the three pairs (hand meters do not resolve so few mΩ)
  no load     controller at full command; voltage and current into it, speed by a tachometer;
              once near the voltage you fly with, once near half of it (bench supply, or fewer
              cells). Below full command the voltage at the motor is not the battery's.
Clamp the motor, wear glasses, and take every rotor off first.

Intervals in brackets hold the truth 9 times in 10 for a hand meter: 2 % + 2 mΩ, 0.03 V, 0.02 A,
0.5 % of the speed. What is usual for a stator is an estimate (common practice, no source): replace
it by the maker's figures or your own.

With a project FILE: which limit of motor, winding, controller or battery binds first along the
throttle, how warm the winding gets, and the same fan at other sizes. Winding temperatures are
estimated from can size and mass and may be off by half of the rise.

Keys of --json: constants (each value, low, high), typical, motor (for the project file), notes;
with FILE: limits (limits, first, heat, hoverThrottle, full, words) and larger (sizes, drawn,
largest, stoppedBy, longest, words). Units stand in the keys.

Examples:
  fanwright motor --resistance 190 --no-load 3.5:0.26:10500 --no-load 7:0.35:21150
  fanwright motor --resistance 190 --temperature 28 --no-load 7:0.35:21150 --stator 13x4 --json
  fanwright motor --stator 14x4 --velocity-constant 3800
  fanwright motor scout.fanwright.json
  fanwright motor scout.fanwright.json --set motor.resistance_mohm=120`;
