import { Command } from 'commander';
import { acceptCause } from '../bench/calibrate.ts';
import { diagnose } from '../bench/diagnose/diagnose.ts';
import type { CauseFinding, Diagnosis } from '../bench/diagnose/types.ts';
import { reduceRun } from '../bench/reduce.ts';
import { observedSchema, type BenchRun } from '../project/bench.ts';
import { nearest } from '../project/nearest.ts';
import { writeProject } from '../project/write.ts';
import { collect } from './assess.ts';
import { givenRun, withBenchRunOptions, type BenchRunOptions } from './bench-run.ts';
import { diagnoseText } from './diagnose-text.ts';
import { BadInput } from './fault.ts';
import { writeWhole } from './files.ts';
import { asJson, type Io } from './io.ts';
import { openProject } from './open.ts';

interface DiagnoseOptions extends BenchRunOptions {
  readonly saw?: readonly string[];
  readonly accept?: string;
  readonly build?: string;
  readonly set?: readonly string[];
  readonly json?: boolean;
}

/** `fanwright diagnose PROJECT [LOG]`: why a fan gives what it gives, what to measure next, and what to take over. */
export function diagnoseCommand(io: Io): Command {
  const command = new Command('diagnose')
    .description(
      'Say why a fan falls short: causes with odds, what speaks for and against, what to measure next.',
    )
    .argument('<PROJECT>', 'project file')
    .argument('[LOG]', 'table of readings, as for `fanwright bench`');
  return withBenchRunOptions(command)
    .option(
      '--saw <key=value>',
      'something you measured or looked at, as in gap_mm=1.1; several times',
      collect,
    )
    .option('--accept <CAUSE>', 'take this cause as true and write it into the project file')
    .option('--build <ID>', 'the build that was on the bench')
    .option('--set <path=value>', 'change a value for this run only; may be given several times', collect)
    .option('--json', 'print every figure as JSON')
    .addHelpText('after', DIAGNOSE_NOTES)
    .action((file: string, log: string | undefined, options: DiagnoseOptions) => {
      if (options.accept !== undefined && options.set !== undefined)
        throw new BadInput(
          '--set changes this run only, so nothing can be accepted with it; change the project file first.',
        );
      const { project } = openProject(file, options);
      const build = project.builds.find(({ id }) => id === options.build) ?? null;
      const run = withSeen(givenRun(log, build, options).run, options.saw ?? []);
      const diagnosis = diagnose(project, run, reduceRun(project, run));
      if (!diagnosis)
        throw new BadInput(
          'There is no reading with the fans running; give throttle and scale of at least one.',
        );
      const accepted =
        options.accept === undefined
          ? null
          : accept(file, causeNamed(diagnosis, options.accept), options.build ?? null);
      io.out(
        options.json
          ? asJson({ ...diagnosis, accepted })
          : diagnoseText(project.name, diagnosis) +
              (accepted ? `\nWritten into ${file}: ${accepted.learned}\n` : ''),
      );
    });
}

/** "upside down" as one writes it on a command line. */
export const causeKey = (id: string): string => id.replaceAll(' ', '-');

function causeNamed(diagnosis: Diagnosis, text: string): CauseFinding {
  const wanted = causeKey(text.trim().toLowerCase());
  const found = diagnosis.causes.find((c) => causeKey(c.id) === wanted);
  if (found) return found;
  const listed = diagnosis.causes.map((c) => causeKey(c.id)).join(', ');
  throw new BadInput(
    `--accept is "${text.slice(0, 40)}"; it must be one of the causes found: ${listed === '' ? 'there are none' : listed}.`,
  );
}

function accept(file: string, cause: CauseFinding, build: string | null) {
  const { project } = openProject(file);
  const accepted = acceptCause(
    project,
    { id: cause.id, name: cause.name, value: cause.size?.interval.value ?? 0, belongsTo: cause.belongsTo },
    build,
  );
  writeWhole(file, writeProject(accepted.project));
  return { cause: cause.id, learned: accepted.learned, inherited: accepted.inherited, build };
}

/** What a run may hold that a diagnosis does not use. */
const NOT_USED = ['note', 'gapLeast_mm', 'rotorMass_g', 'rubbed', 'motorHot'];

/** Air readings that `--saw` takes beside the keys of `observed`. */
const AIR_KEYS: Readonly<Record<string, BenchRun['airReadings'][number]['kind']>> = {
  exitSpeed_mps: 'exit speed',
  threadAngle_deg: 'thread angle',
  lipFlow: 'lip flow',
};

/** The run with what was seen on the thing itself. */
function withSeen(run: BenchRun, saw: readonly string[]): BenchRun {
  const observed: Record<string, unknown> = { ...run.observed };
  const airReadings = [...run.airReadings];
  const keys = [
    ...Object.keys(observedSchema.unwrap().shape).filter((k) => !NOT_USED.includes(k)),
    ...Object.keys(AIR_KEYS),
  ];
  for (const text of saw) {
    const at = text.indexOf('=');
    const key = text.slice(0, Math.max(0, at)).trim();
    const value = valueFrom(text.slice(at + 1).trim());
    if (at < 1 || !keys.includes(key)) {
      const near = nearest(key, keys);
      throw new BadInput(
        `--saw is "${text.slice(0, 60)}"; it must be key=value${near ? ` (did you mean ${near}?)` : ''}; keys: ${keys.join(', ')}.`,
      );
    }
    if (Object.hasOwn(AIR_KEYS, key)) {
      if (typeof value !== 'number' || !Number.isFinite(value))
        throw new BadInput(`--saw ${key} is "${text.slice(at + 1, at + 40)}"; it must be a number.`);
      airReadings.push({
        kind: AIR_KEYS[key],
        value,
        radius_mm: null,
        throttle: null,
        rpm: null,
        error: null,
        note: '',
        leftOut: false,
      });
    } else {
      const read = observedSchema.safeParse({ ...observed, [key]: value });
      if (!read.success)
        throw new BadInput(
          `--saw ${key} is "${text.slice(at + 1, at + 40)}"; ${helpOf(key) || 'it must be a number in the unit of its name, or yes or no'}`,
        );
      Object.assign(observed, { [key]: value });
    }
  }
  return { ...run, observed: observedSchema.parse(observed), airReadings };
}

const helpOf = (key: string): string => {
  const shape = observedSchema.unwrap().shape as Record<string, { description?: string }>;
  return shape[key]?.description ?? '';
};

function valueFrom(text: string): unknown {
  if (/^(yes|true)$/i.test(text)) return true;
  if (/^(no|false)$/i.test(text)) return false;
  return text === '' ? text : Number(text.replace(',', '.'));
}

const DIAGNOSE_NOTES = `
Readings and rigs are given as for \`fanwright bench\`. One reading will do and leaves much open; a
sweep with speed, volts and amps narrows it. The chances weigh how usual a cause is (common
practice, no source) by how well it foretells every reading, ordinary scatter of print, motor and
pack allowed for. "Unexplained" means that no cause known here fits.

--saw takes what you measured or looked at: gap_mm, chord_mm (with chordAt_ratio), bladeAngle_deg
(with bladeAngleAt_ratio), camberKept_ratio, turnsRightWay, rightWayUp, bladesWhole, ductClear
(yes or no), scaleShows_ratio, fartherThrust_ratio, dutyReached_ratio, windingResistance_mohm,
velocityConstant_rpmPerV, packResistance_mohm, currentLimit_A, craftMass_g, exitSpeed_mps,
threadAngle_deg, lipFlow (0 to 1). Air readings are taken at the highest throttle.

--accept writes the project file, whole or not at all. Truths of printer, motor and pack go into
\`calibration\` and later builds inherit them; a fault of one build goes into that build (--build)
and is not inherited; what belongs to the bench is only written down.

Tie everything down, put a shield between you and the fan, wear eye protection, keep fingers, hair
and cables clear, stand out of the plane of the rotor, start at low throttle. Take the battery out
before you touch a rotor. Never leave a lithium pack alone. Local rules come first.

Keys of --json: sentences, at (throttle, measured_N, predicted_N, shortfall), causes (id, name,
chance, odds, share, size, for, against, fix, belongsTo), nothingAmiss, unexplained (flagged,
chance, fit), design, next (test, minutes, bits, words, how, caution), bestChange, cautions,
accepted.

Examples:
  fanwright diagnose scout.fanwright.json stand.csv --rig pressing --step 0.1
  fanwright diagnose scout.fanwright.json --fans 4 --at-rest 512 --reading 1:305
  fanwright diagnose scout.fanwright.json stand.csv --rig pressing --saw gap_mm=1.2 --saw rightWayUp=yes
  fanwright diagnose scout.fanwright.json --build first --run run-1 --accept gap`;
