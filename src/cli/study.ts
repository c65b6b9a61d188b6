import { availableParallelism } from 'node:os';
import { Command } from 'commander';
import { slopesOf } from '../study/slopes.ts';
import { uncertaintyOf } from '../study/uncertainty.ts';
import { collect } from './assess.ts';
import { BadInput } from './fault.ts';
import { asJson, type Io } from './io.ts';
import { numberFrom } from './numbers.ts';
import { openProject, type OpenOptions } from './open.ts';
import { runSweep } from './study-sweep.ts';
import { slopesText, uncertaintyText } from './study-text.ts';

interface StudyOptions extends OpenOptions {
  readonly uncertainty?: boolean;
  readonly slopes?: boolean;
  readonly vary?: readonly string[];
  readonly samples?: number;
  readonly sound: boolean;
  readonly jobs?: number;
  readonly csv?: string;
  readonly resume?: string;
  readonly force?: boolean;
  readonly seed?: number;
  readonly json?: boolean;
}

/** `fanwright study FILE`: how sure the answers are, what each number does, whole ranges of one or two. */
export function studyCommand(io: Io): Command {
  return new Command('study')
    .description(
      'Say how sure the answers are, what each number on the sheet does, or run whole ranges of numbers.',
    )
    .argument('<FILE>', 'project file')
    .option('--uncertainty', 'intervals of every answer, chances, and what drives them')
    .option('--slopes', 'what one step of each number does to thrust, mass, minutes and sound')
    .option(
      '--vary <path=from:to:n>',
      'run n values of one number; given twice, every value of the one with every value of the other',
      collect,
    )
    .option(
      '--samples <N>',
      'with --uncertainty: draws, 64 to 65536; left out: 2000',
      numberFrom('--samples', 64, 65_536, '', true),
    )
    .option('--seed <N>', 'another set of draws; left out: 1', numberFrom('--seed', 0, 2 ** 31 - 1, '', true))
    .option('--csv <FILE>', 'with --vary: write every design to this table as it is done')
    .option('--resume <FILE>', 'with --vary: carry on the table of a run that was stopped')
    .option('--force', 'write over a table that is already there')
    .option('--no-sound', 'with --vary: leave the sound out, which is quicker')
    .option(
      '--jobs <J>',
      'with --vary: cores to work on; left out: all',
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
      } else {
        const slopes = slopesOf(project);
        io.out(options.json ? asJson(slopes) : slopesText(project, slopes));
      }
    });
}

/** One question a run. */
function oneOfThem(options: StudyOptions): void {
  const { uncertainty, slopes, vary, samples, csv, resume, jobs } = options;
  const asked = [uncertainty, slopes, vary].filter(Boolean).length;
  if (asked !== 1)
    throw new BadInput(
      `Ask one thing at a time: --uncertainty, --slopes or --vary${asked === 0 ? '; see `fanwright study --help`' : ''}.`,
    );
  if (samples !== undefined && !uncertainty) throw new BadInput('--samples goes with --uncertainty.');
  if ((csv ?? resume ?? jobs) !== undefined && !vary)
    throw new BadInput('--csv, --resume and --jobs go with --vary.');
}

const STUDY_NOTES = `
Nothing is written but the table of --csv or --resume. --uncertainty draws everything that is not known before building at once: blade
angle, section, duct losses, tip gap (from the printer's scatter), motor, battery, mass, warmth of
the air, strength of the material. Their spreads are those the intervals of \`fanwright assess\`
rest on, and three more. "Alone" is the share of an answer's variance that one unknown brings by
itself, "with others" counts what it does together with the rest; both are good to a few
per cent. The same seed gives the same answer.

--vary gives the same table for any number of --jobs, and memory stays the same for any number of
designs. A run that was stopped leaves a table that --resume with the same --vary carries on.

Examples:
  fanwright study scout.fanwright.json --uncertainty
  fanwright study scout.fanwright.json --uncertainty --samples 8192 --json
  fanwright study scout.fanwright.json --slopes --set fan.tipGap_mm=0.4
  fanwright study scout.fanwright.json --vary fan.tipDiameter_mm=55:70:16
  fanwright study scout.fanwright.json --vary fan.tipDiameter_mm=55:70:61 \\
      --vary motor.velocityConstant_rpmPerV=2500:4500:41 --csv tips.csv`;
