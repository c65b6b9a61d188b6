import { availableParallelism } from 'node:os';
import { Command } from 'commander';
import { slopesOf } from '../study/slopes.ts';
import { uncertaintyOf } from '../study/uncertainty.ts';
import { collect } from './assess.ts';
import { BadInput } from './fault.ts';
import { asJson, type Io } from './io.ts';
import { numberFrom } from './numbers.ts';
import { openProject, type OpenOptions } from './open.ts';
import { runBest } from './study-best.ts';
import { runSweep } from './study-sweep.ts';
import { slopesText, uncertaintyText } from './study-text.ts';

interface StudyOptions extends OpenOptions {
  readonly uncertainty?: boolean;
  readonly slopes?: boolean;
  readonly vary?: readonly string[];
  readonly best?: boolean;
  readonly evaluations?: number;
  readonly take?: number;
  readonly out?: string;
  readonly samples?: number;
  readonly sound: boolean;
  readonly jobs?: number;
  readonly csv?: string;
  readonly resume?: string;
  readonly force?: boolean;
  readonly seed?: number;
  readonly json?: boolean;
}

/** `fanwright study FILE`: how sure the answers are, what each number does, whole ranges of one or two, what would be better. */
export function studyCommand(io: Io): Command {
  return new Command('study')
    .description(
      'Say how sure the answers are, what each number on the sheet does, run ranges, or search for a better design.',
    )
    .argument('<FILE>', 'project file')
    .option('--uncertainty', 'intervals of every answer, chances, and what drives them')
    .option('--slopes', 'what one step of each number does to thrust, mass, minutes and sound')
    .option(
      '--vary <path=from:to:n>',
      'run n values of one number; given twice, every value of the one with every value of the other',
      collect,
    )
    .option('--best', 'search for designs that hover longer and lift more and keep the brief')
    .option(
      '--evaluations <N>',
      'with --best: designs to try; left out: 1200',
      numberFrom('--evaluations', 40, 1_000_000, '', true),
    )
    .option('--take <N>', 'with --best: the proposal to write to --out', numberFrom('--take', 1, 4, '', true))
    .option('--out <FILE>', 'with --best: write the project with that proposal to this file')
    .option(
      '--samples <N>',
      'with --uncertainty: draws, 64 to 65536; left out: 2000',
      numberFrom('--samples', 64, 65_536, '', true),
    )
    .option(
      '--seed <N>',
      'another set of draws, or another way for the search; left out: 1',
      numberFrom('--seed', 0, 2 ** 31 - 1, '', true),
    )
    .option('--csv <FILE>', 'with --vary: write every design to this table as it is done')
    .option(
      '--resume <FILE>',
      'carry on a stopped run: the table of --vary, or for --best a file that keeps the search',
    )
    .option('--force', 'write over a file that is already there')
    .option('--no-sound', 'with --vary: leave the sound out, which is quicker')
    .option(
      '--jobs <J>',
      'with --vary or --best: cores to work on; left out: all',
      numberFrom('--jobs', 1, 256, '', true),
    )
    .option('--build <ID>', 'study one of the builds in the file instead of the design in hand')
    .option('--set <path=value>', 'change a value for this run only; may be given several times', collect)
    .option('--json', 'print every figure as JSON')
    .addHelpText('after', STUDY_NOTES)
    .action(async (file: string, options: StudyOptions) => {
      oneOfThem(options);
      const { project } = openProject(file, options);
      const { samples, seed } = options;
      if (options.uncertainty) {
        const answer = uncertaintyOf(project, {
          ...(samples !== undefined && { samples }),
          ...(seed !== undefined && { seed }),
        });
        io.out(options.json ? asJson(answer) : uncertaintyText(project, answer));
      } else if (options.vary) {
        await runSweep(io, project, {
          ...options,
          vary: options.vary,
          jobs: options.jobs ?? availableParallelism(),
          inputs: [file],
        });
      } else if (options.best) {
        await runBest(io, project, {
          ...options,
          jobs: options.jobs ?? availableParallelism(),
          inputs: [file, ...(options.resume === undefined ? [] : [options.resume])],
        });
      } else {
        const slopes = slopesOf(project);
        io.out(options.json ? asJson(slopes) : slopesText(project, slopes));
      }
    });
}

/** One question a run. */
function oneOfThem(options: StudyOptions): void {
  const { uncertainty, slopes, vary, best, samples, csv, resume, jobs } = options;
  const asked = [uncertainty, slopes, vary, best].filter(Boolean).length;
  if (asked !== 1)
    throw new BadInput(
      `Ask one thing at a time: --uncertainty, --slopes, --vary or --best${asked === 0 ? '; see `fanwright study --help`' : ''}.`,
    );
  if (samples !== undefined && !uncertainty) throw new BadInput('--samples goes with --uncertainty.');
  if (csv !== undefined && !vary) throw new BadInput('--csv goes with --vary.');
  if ((resume ?? jobs) !== undefined && !vary && !best)
    throw new BadInput('--resume and --jobs go with --vary or --best.');
  if ((options.evaluations ?? options.take ?? options.out) !== undefined && !best)
    throw new BadInput('--evaluations, --take and --out go with --best.');
}

const STUDY_NOTES = `
Nothing is written but what --csv, --resume and --out name.

--uncertainty draws everything that is not known before building at once: blade angle, section,
duct losses, tip gap (from the printer's scatter), motor, battery, mass, warmth of the air,
strength of the material. The spreads are those the intervals of \`fanwright assess\` rest on, and
three more. "Alone" is the share of an answer's variance that one unknown brings by itself, "with
others" counts what it does together with the rest; both are good to a few per cent. The same seed
gives the same answer.

--vary gives the same table for any number of --jobs; rows go to the table as they are made. A run
that was stopped leaves a table that --resume with the same --vary carries on.

--best starts at the present design and changes tip and hub diameter, blades, vanes, blade angle,
chord, camber, lip, and motor and battery among their neighbours of the catalogue. It goes by the
low end of the intervals, so that a lucky middle wins nothing, and keeps the brief's width, minutes
and sound, the safety factor, what motor and battery stand, and what this printer can make. Same seed, same proposals, for any
number of --jobs. With --resume the search is kept in that file after every round; run it again
with more --evaluations to go on.

Examples:
  fanwright study scout.fanwright.json --uncertainty
  fanwright study scout.fanwright.json --uncertainty --samples 8192 --json
  fanwright study scout.fanwright.json --slopes --set fan.tipGap_mm=0.4
  fanwright study scout.fanwright.json --vary fan.tipDiameter_mm=55:70:16
  fanwright study scout.fanwright.json --vary fan.tipDiameter_mm=55:70:61 \\
      --vary motor.velocityConstant_rpmPerV=2500:4500:41 --csv tips.csv
  fanwright study scout.fanwright.json --best --evaluations 2000 --resume search.json
  fanwright study scout.fanwright.json --best --take 1 --out better.fanwright.json`;
