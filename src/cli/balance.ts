import { Command } from 'commander';
import { assess } from '../assess/assess.ts';
import { benchAnswer } from '../balance/bench.ts';
import { benchCard } from '../balance/card.ts';
import { kilogramMetresFromGmm } from '../balance/grade.ts';
import { printMany } from '../balance/monte-carlo.ts';
import { rotorScatterOf } from '../balance/rotor-balance.ts';
import { readRunsCsv } from '../balance/runs-csv.ts';
import { checkValue, setPath } from '../project/path.ts';
import type { BalanceRun, Project } from '../project/schema.ts';
import { printedVolumes } from '../shape/volumes.ts';
import { collect } from './assess.ts';
import { balanceText, cardText } from './balance-text.ts';
import { BadInput, sentence } from './fault.ts';
import { plainText, readBytes } from './files.ts';
import { asJson, type Io } from './io.ts';
import { numberFrom } from './numbers.ts';
import { openProject } from './open.ts';

interface BalanceOptions {
  readonly grade?: number;
  readonly blades?: string;
  readonly runs?: string;
  readonly run?: readonly string[];
  readonly radius?: number;
  readonly drill?: number;
  readonly tape?: number;
  readonly draws?: number;
  readonly card?: boolean;
  readonly build?: string;
  readonly set?: readonly string[];
  readonly json?: boolean;
}

/** The seed of --draws: the same draws on every machine. */
const SEED = 20_261;

/** `fanwright balance FILE`: expected unbalance, order of blades, corrections, and the card for the bench. */
export function balanceCommand(io: Io): Command {
  return new Command('balance')
    .description(
      'Balance a rotor: what the printer leaves, the order of weighed blades, corrections from trial runs.',
    )
    .argument('<FILE>', 'project file')
    .option('--grade <G>', 'balance grade, mm/s (usual: 6.3 or 16)', numberFrom('--grade', 0.1, 4000, 'mm/s'))
    .option('--blades <g,g,...>', 'masses of the loose blades as weighed, g')
    .option('--runs <CSV>', 'table of runs on the stand')
    .option(
      '--run <A[:g:mm:deg[:deg]]>',
      'one run: vibration, trial mass, radius, place, phase; several times',
      collect,
    )
    .option(
      '--radius <MM>',
      'radius of the correction, mm (else the hub rim)',
      numberFrom('--radius', 0.5, 1000, 'mm'),
    )
    .option('--drill <MM>', 'drill that takes material away, mm', numberFrom('--drill', 0.3, 20, 'mm'))
    .option(
      '--tape <G/M>',
      'mass of a metre of the tape you stick on, g',
      numberFrom('--tape', 0.01, 1000, 'g/m'),
    )
    .option(
      '--draws <N>',
      'also print N rotors in mind and count them',
      numberFrom('--draws', 100, 1_000_000, '', true),
    )
    .option('--card', 'print the card for the bench instead')
    .option('--build <ID>', 'use one of the builds in the project file')
    .option('--set <path=value>', 'change a value for this run only; may be given several times', collect)
    .option('--json', 'print every figure as JSON')
    .addHelpText('after', BALANCE_NOTES)
    .action((file: string, options: BalanceOptions) => {
      const project = withReadings(openProject(file, options).project, options);
      const { balance } = assess(project);
      const bench = benchAnswer(project, balance);
      const card = benchCard(project.name, balance, bench.workshop);
      const drawn = options.draws === undefined ? null : drawMany(project, options.draws);
      if (options.json) return io.out(asJson({ balance, drawn, ...bench, card }));
      io.out(
        options.card
          ? cardText(card)
          : balanceText(
              project.name,
              balance,
              bench,
              drawn && options.draws ? { ...drawn, count: options.draws } : null,
            ),
      );
    });

  function drawMany(project: Project, count: number) {
    const { balance } = assess(project);
    const rotor = rotorScatterOf(
      project,
      printedVolumes(project.fan, project.motor, project.printer.holeShrink_mm),
    );
    const limit = kilogramMetresFromGmm(balance.permissible_gmm);
    const { mean, low, high, within } = printMany(rotor, limit, count, SEED);
    return { mean_gmm: mean * 1e6, low_gmm: low * 1e6, high_gmm: high * 1e6, passShare: within };
  }
}

/** The project with the readings given on the command line in place of its own. */
function withReadings(project: Project, options: BalanceOptions): Project {
  const given: [string, string, unknown][] = [];
  const take = (path: string, flag: string, value: unknown) =>
    value !== undefined && given.push([`balance.${path}`, flag, value]);
  take('grade_mmps', '--grade', options.grade);
  take('correctionRadius_mm', '--radius', options.radius);
  take('drill_mm', '--drill', options.drill);
  take('tape_gpm', '--tape', options.tape);
  take('bladeMasses_g', '--blades', options.blades === undefined ? undefined : masses(options.blades));
  if (options.runs !== undefined && options.run !== undefined)
    throw new BadInput('Give --runs or --run, not both.');
  if (options.runs !== undefined) {
    const read = readRunsCsv(plainText(readBytes(options.runs), options.runs, 'a table of runs'));
    if (!read.ok) throw new BadInput(`${options.runs}: ${read.message}`);
    take('runs', '--runs', read.runs);
  }
  if (options.run !== undefined) take('runs', '--run', options.run.map(runFrom));
  return given.reduce((now, [path, flag, value]) => {
    const fault = checkValue(path, value);
    if (fault) throw new BadInput(`${flag}: ${sentence(fault.message)}`);
    return setPath(now, path, value);
  }, project);
}

const plainNumber = (text: string): number =>
  /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text.trim()) ? Number(text) : NaN;

function masses(text: string): number[] {
  const list = text.split(',').map(plainNumber);
  const bad = list.findIndex((mass) => !(mass >= 0.001 && mass <= 5000));
  if (bad >= 0)
    throw new BadInput(
      `--blades: mass ${bad + 1} is "${text.split(',')[bad].trim().slice(0, 40)}"; each must be a number from 0.001 to 5000 g, with commas between, as in 0.512,0.498,0.505.`,
    );
  if (list.length > 20)
    throw new BadInput(`--blades has ${list.length} masses; a rotor has at most 20 blades.`);
  return list;
}

function runFrom(text: string): BalanceRun {
  const parts = text.split(':').map(plainNumber);
  const [amplitude, trialMass_g = 0, trialRadius_mm = 10, trialAngle_deg = 0] = parts;
  if (![1, 4, 5].includes(parts.length) || parts.some(Number.isNaN))
    throw new BadInput(
      `--run is "${text.slice(0, 40)}"; it must be the vibration alone for the rotor as it came, as in 10, or with mass, radius and place of the trial mass, as in 7:0.05:8:120 (g, mm, degrees), and the phase in degrees last if you read it.`,
    );
  // With phase the run as it came is written 10:0:0:0:PHASE; a radius of 0 then says nothing.
  return { amplitude, trialMass_g, trialRadius_mm, trialAngle_deg, phase_deg: parts[4] ?? null };
}

const BALANCE_NOTES = `
Nothing is written. Masses and runs may stand in the project file (balance.bladeMasses_g,
balance.runs); what is given here is used in their place.

A run is the rotor at one speed with the vibration read once a turn, in any unit. The first is
the rotor as it came; without phase three more follow with a trial mass at three places, a third
of a turn apart. With phase one more will do. Places and phase count from a mark on the rotor,
at a blade, all the same way round. --runs takes a table with a line of names: amplitude,
trialMass_g, trialRadius_mm, trialAngle_deg, phase_deg.

Intervals hold 9 rotors of 10. The motor's own unbalance and shaft run-out are not in them.
Spinning rotors can hurt: read the cautions on the card (--card), tie the rig down, wear eye
protection, stand clear of the plane of the rotor. Local rules come first.

Keys of --json: balance (permissible_gmm, expected_gmm, passChance, sources, grades,
shakingAtHover_g, words), drawn (with --draws), workshop, order, orderFault, trial, trialWords,
card. Units stand in the keys.

Examples:
  fanwright balance scout.fanwright.json
  fanwright balance scout.fanwright.json --grade 6.3 --draws 20000
  fanwright balance scout.fanwright.json --blades 0.512,0.498,0.505,0.520,0.501
  fanwright balance scout.fanwright.json --run 10 --run 7:0.05:8:0 --run 12:0.05:8:120 \\
    --run 18:0.05:8:240 --tape 2.1
  fanwright balance scout.fanwright.json --card`;
