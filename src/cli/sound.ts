import { Command } from 'commander';
import { modelOf } from '../assess/model.ts';
import { assess } from '../assess/assess.ts';
import { soundOfPoints } from '../assess/sound.ts';
import type { Project } from '../project/schema.ts';
import type { Listener } from '../sound/levels.ts';
import { SYNTHESIS_NOTE, synthesize, wavFile } from '../sound/synthesis.ts';
import { countStudy } from '../study/blade-vane-count.ts';
import { compareSound, openedProject, type SoundComparison } from '../study/sound-compare.ts';
import { collect } from './assess.ts';
import { BadInput } from './fault.ts';
import { refuseToReplace, writeWhole } from './files.ts';
import { asJson, type Io } from './io.ts';
import { numberFrom } from './numbers.ts';
import { openProject, type OpenOptions } from './open.ts';
import { soundText } from './sound-text.ts';

interface SoundOptions extends OpenOptions {
  readonly against?: string;
  readonly distance?: number;
  readonly freeField?: boolean;
  readonly counts?: boolean;
  readonly json?: boolean;
  readonly wav?: string;
  readonly force?: boolean;
}

/** Length of a rendering [s]. */
const SECONDS = 4;

/** `fanwright sound FILE`: how loud it is, of what, and against what. */
export function soundCommand(io: Io): Command {
  return new Command('sound')
    .description('Say how loud the craft is, what it sounds like, and how it compares at equal thrust.')
    .argument('<FILE>', 'project file')
    .option('--against <OTHER>', 'compare at equal thrust: another project file, "build:ID", or "open"')
    .option(
      '--distance <M>',
      'distance of the listener, m (left out: 3)',
      numberFrom('--distance', 0.3, 1000, 'm'),
    )
    .option('--free-field', 'no ground near that throws sound back (left out: hard ground)')
    .option('--counts', 'rank counts of blades and vanes as well (takes about a second)')
    .option(
      '--wav <FILE>',
      'write a synthesis of the hover sound, 4 s; with --against both, one after the other',
    )
    .option('--force', 'write over a file that is there')
    .option('--build <ID>', 'use one of the builds in the project file')
    .option('--set <path=value>', 'change a value for this run only; may be given several times', collect)
    .option('--json', 'print every figure as JSON')
    .addHelpText('after', SOUND_NOTES)
    .action((file: string, options: SoundOptions) => {
      const { project } = openProject(file, options);
      const listener = { distance_m: options.distance ?? 3, reflectingPlane: !options.freeField };
      const comparison =
        options.against === undefined ? null : against(project, options.against, file, listener);
      if (options.wav !== undefined)
        refuseToReplace(options.wav, options.force, [file, options.against ?? '']);
      const { fan } = assess(project);
      const sound = soundOfPoints(modelOf(project), fan.full, fan.hover, listener);
      const counts = options.counts ? countStudy(project) : null;
      if (options.wav !== undefined) {
        const first = synthesize(sound.hover ?? sound.full, project.craft.fanCount, SECONDS);
        const other = comparison?.b.at ? synthesize(comparison.b.at, comparison.b.fans, SECONDS) : null;
        const title = other ? `${project.name}, then ${comparison!.b.name}` : project.name;
        writeWhole(options.wav, wavFile(joined(first, other), title));
      }
      const wav = options.wav === undefined ? null : { file: options.wav, note: SYNTHESIS_NOTE };
      io.out(
        options.json
          ? asJson({ ...sound, comparison, counts, wav })
          : soundText(project, sound, { comparison, counts, wav }),
      );
    });
}

/** One rendering after the other, a breath between. */
function joined(first: Float32Array, other: Float32Array | null): Float32Array {
  if (!other) return first;
  const pause = 22_050;
  const both = new Float32Array(first.length + pause + other.length);
  both.set(first);
  both.set(other, first.length + pause);
  return both;
}

function against(project: Project, other: string, file: string, listener: Listener): SoundComparison {
  if (other === 'open') {
    if (project.fan.kind === 'open')
      throw new BadInput(`${file} is an open rotor already; give --against another project file.`);
    return compareSound(project, openedProject(project), listener, ['the ducted fan', 'the open rotor']);
  }
  if (other.startsWith('build:')) {
    const built = openProject(file, { build: other.slice('build:'.length) });
    return compareSound(project, built.project, listener, [
      project.name,
      `build ${other.slice('build:'.length)}`,
    ]);
  }
  const second = openProject(other).project;
  const names = project.name === second.name ? ([file, other] as const) : undefined;
  return compareSound(project, second, listener, names);
}

const SOUND_NOTES = `
Tones of the blades (steady load, thickness, unlike blades, uneven air), of blades passing vanes,
and the rush of air at the back edges; patterns that the duct lets out or holds back; all fans
together, out of step. Levels are means over all directions with 90 % intervals that are wide, for
nothing is measured; a difference between two designs at equal thrust is surer. Not reckoned: motor
whine, gears, air moved by wind, sound absorbed on the way. The WAV is a synthesis at a set level,
not a recording; start with the volume low.
Limits for noise differ from place to place: the local ones hold.

Keys of --json: distance_m, reflectingPlane, hover and full (rpm, bladePassing_Hz, overall_dBA,
overall_dB, power_dBA, parts_dBA, tones, thirdOctaves, octaves, lockedMore_dB, energies), modes,
wish, words, cautions, comparison (a, b, difference_dB, words), counts (choices, words), wav.

Examples:
  fanwright sound scout.fanwright.json
  fanwright sound scout.fanwright.json --against open
  fanwright sound scout.fanwright.json --against quiet.fanwright.json --distance 10 --wav both.wav
  fanwright sound scout.fanwright.json --counts --json`;
