import type { Command } from 'commander';
import { importTable, type Imported } from '../bench/import.ts';
import type { MapWish } from '../bench/import-take.ts';
import { QUANTITIES, type Quantity } from '../bench/import-units.ts';
import { benchRunSchema, type BenchRun } from '../project/bench.ts';
import type { Build } from '../project/schema.ts';
import { textFromBytes } from '../project/table.ts';
import { collect } from './assess.ts';
import { BadInput } from './fault.ts';
import { readBytes } from './files.ts';
import { numberFrom } from './numbers.ts';

/** Options that say what was read at the bench and on what rig. */
export interface BenchRunOptions {
  readonly rig?: string;
  readonly reading?: readonly string[];
  readonly map?: readonly string[];
  readonly fans?: number;
  readonly atRest?: number;
  readonly lever?: number;
  readonly step?: number;
  readonly toPan?: number;
  readonly panWidth?: number;
  readonly temperature?: number;
  readonly pressure?: number;
  readonly craftMass?: number;
  readonly charge?: number;
  readonly keepAll?: boolean;
  readonly run?: string;
}

const RIGS: Readonly<Record<string, BenchRun['rig']['kind']>> = {
  craft: 'craft on the scale',
  pressing: 'fan pressing down',
  lifting: 'fan lifting off',
  lever: 'lever',
  cell: 'load cell',
};

/** Gives a command the options of a bench run. */
export function withBenchRunOptions(command: Command): Command {
  return command
    .option('--rig <KIND>', `how thrust gets to the scale: ${Object.keys(RIGS).join(', ')} (usual: craft)`)
    .option('--fans <N>', 'fans that ran together (usual: 1)', numberFrom('--fans', 1, 12, '', true))
    .option('--map <column=quantity[:unit]>', 'what a column of the log is; several times', collect)
    .option(
      '--reading <throttle:g[:V:A:rpm]>',
      'one reading by hand, - for what was not read; several times',
      collect,
    )
    .option('--at-rest <G>', 'scale with the fans at rest, g', numberFrom('--at-rest', -1e6, 1e6, 'g'))
    .option('--lever <X>', 'pivot to scale over pivot to fan, for a lever', numberFrom('--lever', 0.01, 100))
    .option('--step <G>', 'smallest step the scale shows, g (usual: 1)', numberFrom('--step', 0, 10_000, 'g'))
    .option('--to-pan <MM>', 'exit of the fan to pan or table, mm', numberFrom('--to-pan', 0, 5000, 'mm'))
    .option(
      '--pan-width <MM>',
      'width of what rests on the scale below the jet, mm',
      numberFrom('--pan-width', 1, 5000, 'mm'),
    )
    .option('--temperature <C>', 'air at the bench, °C', numberFrom('--temperature', -40, 60, '°C'))
    .option(
      '--pressure <HPA>',
      'air pressure at the bench itself, hPa',
      numberFrom('--pressure', 300, 1100, 'hPa'),
    )
    .option(
      '--craft-mass <G>',
      'craft as weighed, ready to fly, g',
      numberFrom('--craft-mass', 0.1, 500_000, 'g'),
    )
    .option('--charge <X>', 'charge of the pack at the start, 0 to 1', numberFrom('--charge', 0, 1))
    .option('--keep-all', 'keep every reading of a long log instead of its steady stretches')
    .option('--run <ID>', 'a run kept in the build named by --build, instead of a log');
}

/** A run as given on the command line, and how its log was taken (null: no log). */
export interface GivenRun {
  readonly run: BenchRun;
  readonly imported: Extract<Imported, { ok: true }> | null;
}

/** The run a command line describes: from a log, from readings by hand, or kept in a build. */
export function givenRun(log: string | undefined, build: Build | null, options: BenchRunOptions): GivenRun {
  const ways = [log !== undefined, options.reading !== undefined, options.run !== undefined].filter(Boolean);
  if (ways.length === 0)
    throw new BadInput(
      'There is nothing to reduce: give a log (CSV), or readings by hand with --reading, as in --reading 0.5:120, or --build ID --run ID.',
    );
  if (ways.length > 1) throw new BadInput('Give a log, --reading or --run, one of them.');
  const kept = options.run === undefined ? null : keptRun(build, options.run);
  if (kept && options.map) throw new BadInput('--map belongs to a log; a kept run has its columns already.');
  const imported = log === undefined ? null : importedLog(log, options);
  const rows = imported?.rows ?? kept?.rows ?? options.reading!.map(rowFrom);
  const start = kept ?? benchRunSchema.parse({ name: log ?? 'by hand', source: imported?.source });
  return { imported, run: described({ ...start, rows: [...rows] }, options) };
}

function keptRun(build: Build | null, id: string): BenchRun {
  if (!build) throw new BadInput('--run needs --build ID, the build the run is kept in.');
  const run = build.bench.find((one) => one.id === id);
  if (run) return run;
  const ids = build.bench.map((one) => `"${one.id}"`).join(', ');
  throw new BadInput(
    `Build "${build.id}" has no run "${id.slice(0, 60)}"; ${ids === '' ? 'it has none yet' : `it has ${ids}`}.`,
  );
}

function importedLog(log: string, options: BenchRunOptions): Extract<Imported, { ok: true }> {
  const text = textFromBytes(readBytes(log));
  if (!text.ok) throw new BadInput(`${log}: ${text.message}`);
  const imported = importTable(text.text, {
    name: log.split(/[\\/]/).at(-1),
    map: options.map?.map(wishFrom),
    thin: options.keepAll ? false : undefined,
  });
  if (!imported.ok) throw new BadInput(`${log}: ${imported.message}`);
  return imported;
}

/** `column=quantity[:unit]`; the column may hold an equals sign, the quantity can't. */
function wishFrom(text: string): MapWish {
  const parts = /^(.+)=\s*([a-z]+)\s*(?::(.*))?$/i.exec(text);
  const as = parts?.[2].toLowerCase();
  const known = as === 'nothing' || QUANTITIES.some((quantity) => quantity === as);
  if (!parts || !known)
    throw new BadInput(
      `--map is "${text.slice(0, 60)}"; it must be column=quantity or column=quantity:unit, as in "load=scale:g", with a quantity of ${QUANTITIES.join(', ')} or nothing.`,
    );
  return { column: parts[1], as: as as Quantity | 'nothing', unit: parts[3] };
}

function rowFrom(text: string, at: number): BenchRun['rows'][number] {
  const parts = text.split(':').map((part) => part.trim());
  const values = parts.map((part) =>
    part === '-' || part === '' ? null : /^[-+]?(\d+\.?\d*|\.\d+)$/.test(part) ? Number(part) : Number.NaN,
  );
  const [throttle = null, scale_g = null, voltage_V = null, current_A = null, rpm = null] = values;
  const row = benchRunSchema.shape.rows.safeParse([
    { throttle, scale_g, voltage_V, current_A, rpm, atRest: throttle === 0 },
  ]);
  if (parts.length < 2 || parts.length > 5 || !row.success || scale_g === null)
    throw new BadInput(
      `--reading ${at + 1} is "${text.slice(0, 40)}"; it must be throttle from 0 to 1 and what the scale shows in g, then V, A and rpm if read, as in 0.5:120:11.8:6.2:21500, with - for what was not.`,
    );
  return row.data[0];
}

/** The run with what the options say of rig, air and craft. */
function described(run: BenchRun, options: BenchRunOptions): BenchRun {
  const kind = options.rig === undefined ? run.rig.kind : rigFrom(options.rig);
  const { fans, atRest, lever, step, toPan, panWidth, temperature, pressure, craftMass, charge } = options;
  return {
    ...run,
    rig: {
      ...run.rig,
      kind,
      fansRunning: fans ?? run.rig.fansRunning,
      massAtRest_g: atRest ?? run.rig.massAtRest_g,
      leverRatio: lever ?? run.rig.leverRatio,
      scaleResolution_g: step ?? run.rig.scaleResolution_g,
      distanceToPan_mm: toPan ?? run.rig.distanceToPan_mm,
      panWidth_mm: panWidth ?? run.rig.panWidth_mm,
    },
    air: {
      ...run.air,
      temperature_C: temperature ?? run.air.temperature_C,
      pressure_hPa: pressure ?? run.air.pressure_hPa,
    },
    battery: { ...run.battery, charge_ratio: charge ?? run.battery.charge_ratio },
    observed: { ...run.observed, craftMass_g: craftMass ?? run.observed.craftMass_g },
  };
}

function rigFrom(text: string): BenchRun['rig']['kind'] {
  const bare = text.trim().toLowerCase();
  const kind = Object.hasOwn(RIGS, bare) ? RIGS[bare] : Object.values(RIGS).find((one) => one === bare);
  if (kind) return kind;
  throw new BadInput(`--rig is "${text.slice(0, 40)}"; it must be one of ${Object.keys(RIGS).join(', ')}.`);
}
