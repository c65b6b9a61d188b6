import { Command } from 'commander';
import { slopesOf } from '../study/slopes.ts';
import { uncertaintyOf } from '../study/uncertainty.ts';
import { collect } from './assess.ts';
import { BadInput } from './fault.ts';
import { asJson, type Io } from './io.ts';
import { numberFrom } from './numbers.ts';
import { openProject, type OpenOptions } from './open.ts';
import { slopesText, uncertaintyText } from './study-text.ts';

interface StudyOptions extends OpenOptions {
  readonly uncertainty?: boolean;
  readonly slopes?: boolean;
  readonly samples?: number;
  readonly seed?: number;
  readonly json?: boolean;
}

/** `fanwright study FILE`: how sure the answers are, what each number does. */
export function studyCommand(io: Io): Command {
  return new Command('study')
    .description('Say how sure the answers are and what drives them, or what each number on the sheet does.')
    .argument('<FILE>', 'project file')
    .option('--uncertainty', 'intervals of every answer, chances, and what drives them')
    .option('--slopes', 'what one step of each number does to thrust, mass, minutes and sound')
    .option(
      '--samples <N>',
      'with --uncertainty: draws, 64 to 65536; left out: 2000',
      numberFrom('--samples', 64, 65_536, '', true),
    )
    .option('--seed <N>', 'another set of draws; left out: 1', numberFrom('--seed', 0, 2 ** 31 - 1, '', true))
    .option('--build <ID>', 'study one of the builds in the file instead of the design in hand')
    .option('--set <path=value>', 'change a value for this run only; may be given several times', collect)
    .option('--json', 'print every figure as JSON')
    .addHelpText('after', STUDY_NOTES)
    .action((file: string, options: StudyOptions) => {
      oneOfThem(options);
      const { project } = openProject(file, options);
      const { samples, seed } = options;
      if (options.uncertainty) {
        const answer = uncertaintyOf(project, {
          ...(samples !== undefined && { samples }),
          ...(seed !== undefined && { seed }),
        });
        io.out(options.json ? asJson(answer) : uncertaintyText(project, answer));
      } else {
        const slopes = slopesOf(project);
        io.out(options.json ? asJson(slopes) : slopesText(project, slopes));
      }
    });
}

/** One question a run. */
function oneOfThem(options: StudyOptions): void {
  const asked = [options.uncertainty, options.slopes].filter(Boolean).length;
  if (asked !== 1)
    throw new BadInput(
      `Ask one thing at a time: --uncertainty or --slopes${asked === 0 ? '; see `fanwright study --help`' : ''}.`,
    );
  if (options.samples !== undefined && !options.uncertainty)
    throw new BadInput('--samples goes with --uncertainty.');
}

const STUDY_NOTES = `
Nothing is written. --uncertainty draws everything that is not known before building at once: blade
angle, section, duct losses, tip gap (from the printer's scatter), motor, battery, mass, warmth of
the air, strength of the material. Their spreads are those the intervals of \`fanwright assess\`
rest on, and three more. "Alone" is the share of an answer's variance that one unknown brings by
itself, "with others" counts what it does together with the rest; both are good to a few
per cent. The same seed gives the same answer.

Examples:
  fanwright study scout.fanwright.json --uncertainty
  fanwright study scout.fanwright.json --uncertainty --samples 8192 --json
  fanwright study scout.fanwright.json --slopes --set fan.tipGap_mm=0.4`;
