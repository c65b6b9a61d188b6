import { Command } from 'commander';
import { compareRun } from '../bench/compare.ts';
import { reduceRun } from '../bench/reduce.ts';
import type { BenchRun } from '../project/bench.ts';
import { designOf, withBuild } from '../project/builds.ts';
import { buildSchema, type Build, type Project } from '../project/schema.ts';
import { writeProject } from '../project/write.ts';
import { collect } from './assess.ts';
import { givenRun, withBenchRunOptions, type BenchRunOptions } from './bench-run.ts';
import { benchText } from './bench-text.ts';
import { BadInput } from './fault.ts';
import { writeWhole } from './files.ts';
import { asJson, type Io } from './io.ts';
import { openProject } from './open.ts';

interface BenchOptions extends BenchRunOptions {
  readonly save?: string;
  readonly newBuild?: string;
  readonly name?: string;
  readonly build?: string;
  readonly set?: readonly string[];
  readonly json?: boolean;
}

/** `fanwright bench PROJECT [LOG]`: from raw readings to thrust, share of hover and the side the shortfall lies on. */
export function benchCommand(io: Io): Command {
  const command = new Command('bench')
    .description('Reduce what a bench read: thrust with intervals, share of hover, and where it falls short.')
    .argument('<PROJECT>', 'project file')
    .argument('[LOG]', 'table of readings: CSV, or text with tabs, semicolons or spaces');
  return withBenchRunOptions(command)
    .option('--save <BUILD>', 'keep the run in this build of the project file')
    .option('--new-build <ID>', 'write the design down as a build of this name and keep the run in it')
    .option('--name <TEXT>', 'name of the run, for --save and --new-build')
    .option('--build <ID>', 'the build that was on the bench')
    .option('--set <path=value>', 'change a value for this run only; may be given several times', collect)
    .option('--json', 'print every figure as JSON')
    .addHelpText('after', BENCH_NOTES)
    .action((file: string, log: string | undefined, options: BenchOptions) => {
      refuseTogether(options);
      const build = options.build ?? options.save;
      const { project } = openProject(file, { build, set: options.set });
      const given = givenRun(log, project.builds.find(({ id }) => id === build) ?? null, options);
      const reduced = reduceRun(project, given.run);
      const comparison = compareRun(project, given.run, reduced);
      const kept = keepRun(file, given.run, options);
      if (options.json) {
        const { imported, run } = given;
        const taken = imported && {
          columns: imported.columns,
          readings: imported.readings,
          thinned: imported.thinned,
          notes: imported.notes,
        };
        return io.out(asJson({ run, import: taken, reduced, comparison, kept }));
      }
      io.out(benchText(project.name, given, reduced, comparison));
      if (kept) io.out(`\nKept as run "${kept.run}" of build "${kept.build}" in ${file}.\n`);
    });
}

function refuseTogether({ save, newBuild, set, run, build }: BenchOptions): void {
  const keeps = save ?? newBuild;
  if (save !== undefined && newBuild !== undefined)
    throw new BadInput('Give --save for a build that is there or --new-build for a new one, not both.');
  if (keeps !== undefined && run !== undefined) throw new BadInput(`Run "${run}" is kept already.`);
  if (keeps !== undefined && set !== undefined)
    throw new BadInput(
      '--set changes this run only, so the run cannot be kept with it; change the project file first.',
    );
  if (newBuild !== undefined && build !== undefined)
    throw new BadInput('--new-build writes down the design in hand; leave --build out.');
  if (save !== undefined && build !== undefined && save !== build)
    throw new BadInput(`The run was held against build "${build}"; keep it there, or leave --build out.`);
}

/** Writes the run into the project file, read afresh; null where nothing was to be kept. */
function keepRun(
  file: string,
  run: BenchRun,
  { save, newBuild, name }: BenchOptions,
): { readonly build: string; readonly run: string } | null {
  const id = save ?? newBuild;
  if (id === undefined) return null;
  const { project } = openProject(file);
  const builds =
    newBuild === undefined ? project.builds : [...project.builds, writtenDown(project, newBuild)];
  const found = withBuild({ ...project, builds }, id);
  if (!found.ok) throw new BadInput(`${file}: ${found.error.message}`);
  const taken = new Set(found.build.bench.map((one) => one.id));
  let number = found.build.bench.length + 1;
  while (taken.has(`run-${number}`)) number++;
  const kept: BenchRun = {
    ...run,
    id: `run-${number}`,
    name: (name ?? run.name).slice(0, 200),
    date: new Date().toISOString().slice(0, 10),
  };
  writeWhole(
    file,
    writeProject({
      ...project,
      builds: builds.map((build) =>
        build.id === id ? { ...build, state: 'made', bench: [...build.bench, kept] } : build,
      ),
    }),
  );
  return { build: id, run: kept.id };
}

function writtenDown(project: Project, id: string): Build {
  if (project.builds.some((build) => build.id === id))
    throw new BadInput(`Build "${id.slice(0, 60)}" is there already; use --save to keep the run in it.`);
  if (id.trim() === '' || id !== id.trim() || id.length > 60 || /\p{Cc}/u.test(id))
    throw new BadInput(
      `--new-build is "${id.slice(0, 60)}"; it must be 1 to 60 letters, digits and signs, no space at either end.`,
    );
  const today = new Date().toISOString().slice(0, 10);
  return buildSchema.parse({ id, name: id, state: 'made', date: today, design: designOf(project) });
}

const BENCH_NOTES = `
The project file is only written with --save or --new-build, whole or not at all. The log is kept
as it was read (of a long one the first 200 000 characters); figures are worked out anew each time.

Rigs: craft (tied on the scale, the reading falls), pressing (one fan blows up and presses on the
scale), lifting (one fan blows down and takes weight off), lever (with --lever), cell (load cell).
Read the scale once with the fans at rest, before and after; such readings have throttle 0.

A log needs a line of names: throttle, scale, voltage, current, power, rpm, torque, time, note,
with units in brackets if they are not g, V, A, W, rpm, Nm, s. Known units: g, kg, N, oz, lbf; V,
mV; A, mA; rpm, Hz, rad/s; %, 0..1, us (1000 to 2000); s, ms, min, hh:mm:ss. Decimal commas,
comments (#) and empty cells are taken. --map says what a column is where its name does not:
--map "load=scale:kg", --map 3=rpm:Hz, --map erpm=rpm:1/7 (a number or fraction multiplies).
Logs of more than 200 readings are thinned to their steady stretches; --keep-all keeps them all.

Current is that of the pack, all running fans together. Intervals hold 9 of 10.

Spinning rotors can hurt, and a fan on a scale can fly off it: tie everything down, put a shield
between it and you, wear eye protection, keep fingers, hair and cables clear, stand out of the
plane of the rotor, start at low throttle and keep a hand on the switch. Watch the battery; never
leave it alone. Local rules come first.

Keys of --json: run, import (columns, readings, thinned, notes), reduced (points, zero, needed_N,
hoverShare, rigEffects, remarks, common), comparison (points, words), kept. Units stand in the keys.

Examples:
  fanwright bench scout.fanwright.json --fans 4 --at-rest 512 --reading 0.45:305
  fanwright bench scout.fanwright.json stand.csv --rig pressing --step 0.1
  fanwright bench scout.fanwright.json log.txt --rig cell --map "load=scale:N" --json
  fanwright bench scout.fanwright.json stand.csv --rig pressing --new-build first`;
