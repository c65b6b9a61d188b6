import { join } from 'node:path';
import { Command, Option } from 'commander';
import { craftFrameFaults } from '../craft/frame.ts';
import type { FitCheck } from '../make/interference.ts';
import type { Made, MadePart } from '../make/make.ts';
import type { NamedFile } from '../make/threemf.ts';
import type { Project } from '../project/schema.ts';
import { formatNumber } from '../quantities/format.ts';
import { geometryFaults } from '../shape/faults.ts';
import { collect } from './assess.ts';
import { BadInput } from './fault.ts';
import { makeFolder, writeWhole } from './files.ts';
import { asJson, type Io } from './io.ts';
import { drawingFiles, stepFiles } from './make-files.ts';
import { firstOf, openProject, type OpenOptions } from './open.ts';
import { bullet, columns, wrap } from './text.ts';

interface MakeOptions extends OpenOptions {
  readonly out: string;
  readonly format: 'stl' | '3mf';
  readonly step?: boolean;
  readonly drawing?: boolean;
  readonly json?: boolean;
  readonly checkFit: boolean;
}

/** `fanwright make FILE --out DIR`: the parts as files that print. */
export function makeCommand(io: Io): Command {
  return new Command('make')
    .description('Write the printable parts of the fans.')
    .argument('<FILE>', 'project file')
    .requiredOption('--out <DIR>', 'folder for the files; made if it is not there')
    .addOption(
      new Option('--format <KIND>', 'stl: one file a part; 3mf: one file a bed, with how many of each')
        .choices(['stl', '3mf'])
        .default('stl'),
    )
    .option('--step', 'also write STEP: exact solids of each part and of the assembly; takes a while')
    .option('--drawing', 'also write the section drawing of one fan, as SVG and PDF')
    .option('--build <ID>', 'make one of the builds in the file instead of the design in hand')
    .option('--set <path=value>', 'change a value for this run only; may be given several times', collect)
    .option('--no-check-fit', 'skip the check of how closely everything aboard fits')
    .option('--json', 'print the list of files and parts as JSON')
    .addHelpText('after', MAKE_NOTES)
    .action(async (file: string, options: MakeOptions) => {
      const { project } = openProject(file, options);
      const faults = [...geometryFaults(project.fan, project.motor), ...craftFrameFaults(project)];
      if (faults.length)
        throw new BadInput(
          firstOf(
            file,
            faults.map(({ path, text }) => ({ message: `${path}: ${text}` })),
          ),
        );
      const { checkProject, craftPlaces, loadKernel, make, threeMfFiles, writeStl } = await solidRoom();
      const kernel = await loadKernel();
      const made = await make(project, { kernel });
      const fit = options.checkFit ? checkProject(kernel, project, made).fit : null;
      if (fit?.collisions.length)
        throw new BadInput(
          firstOf(
            file,
            fit.collisions.map((message) => ({ message })),
          ),
        );
      const stem = fileName(made.name);
      const files: NamedFile[] =
        options.format === '3mf'
          ? threeMfFiles(made, stem, (part) => craftPlaces(project, part))
          : made.parts.map((part) => ({ name: `${stem}-${part.id}.stl`, bytes: writeStl(part, part.name) }));
      if (options.drawing) files.push(...(await drawingFiles(project, stem)));
      const missing: string[] = [];
      if (options.step) {
        const exact = await stepFiles(project, made, kernel, stem);
        files.push(...exact.files);
        missing.push(...exact.missing);
      }
      makeFolder(options.out);
      for (const { name, bytes } of files) writeWhole(join(options.out, name), bytes);
      const names = files.map(({ name }) => join(options.out, name));
      io.out(
        options.json
          ? asJson({
              files: names,
              parts: made.parts.map(partFigures),
              clearances: fit && fit.meetings.map(clearance),
              withoutStep: missing,
            })
          : madeText(project, made, names) +
              missing.map((line) => bullet(line)).join('') +
              (fit ? fitText(fit) : ''),
      );
    });
}

/** The geometry kernel is large, and only this command needs it. */
async function solidRoom() {
  const [kernel, fit, making, places, stl, threeMf] = await Promise.all([
    import('../make/kernel.ts'),
    import('../make/interference-project.ts'),
    import('../make/make.ts'),
    import('../make/places.ts'),
    import('../make/stl.ts'),
    import('../make/threemf.ts'),
  ]);
  return { ...kernel, ...fit, ...making, ...places, ...stl, ...threeMf };
}

/** A name that every file system takes: letters, digits and hyphens. */
export function fileName(name: string): string {
  const plain = name
    .normalize('NFKD')
    .toLowerCase()
    .replace(/\p{M}/gu, '')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '');
  return [...plain].slice(0, 60).join('') || 'fan';
}

function partFigures({
  id,
  name,
  quantity,
  hand,
  volume_m3,
  mass_g,
  boundingBox_mm: { min, max },
}: MadePart) {
  return {
    id,
    name,
    quantity,
    hand,
    volume_cm3: volume_m3 * 1e6,
    mass_g,
    size_mm: max.map((value, i) => value - min[i]),
  };
}

function madeText(project: Project, made: Made, files: readonly string[]): string {
  const parts = made.parts.map(partFigures);
  const total = parts.reduce((sum, part) => sum + part.quantity * part.mass_g, 0);
  return (
    `${project.name}: ${files.length === 1 ? '1 file' : `${files.length} files`} written\n` +
    files.map((file) => bullet(file)).join('') +
    '\n' +
    columns([
      ['part', 'print', 'volume', 'mass each', 'size'],
      ...parts.map((part) => [
        part.name,
        `${part.quantity} ×`,
        `${formatNumber(part.volume_cm3)} cm³`,
        `${formatNumber(part.mass_g)} g`,
        `${part.size_mm.map((size) => formatNumber(size)).join(' × ')} mm`,
      ]),
      ['all together', '', '', `${formatNumber(total)} g`, ''],
    ]) +
    `Masses are of ${project.material.name}, printed solid.\n`
  );
}

const clearance = ({ a, b, pairs, gap_mm, gapAtSpeed_mm, at_mm }: FitCheck['meetings'][number]) => ({
  a,
  b,
  pairs,
  gap_mm,
  gapAtSpeed_mm,
  at_mm,
});

function fitText({ meetings, growth }: FitCheck): string {
  if (meetings.length === 0) return '\nNothing aboard comes near anything else.\n';
  const two = (value: number) => `${value.toFixed(2)} mm`;
  return (
    '\nHow closely it fits\n' +
    columns(
      [
        ['between', 'pairs', 'at rest', 'at full speed', 'nearest at x, y, z'],
        ...meetings.map(({ a, b, pairs, gap_mm, gapAtSpeed_mm, at_mm }) => [
          `${a}, ${b}`,
          String(pairs),
          two(gap_mm),
          gapAtSpeed_mm === null ? '' : two(gapAtSpeed_mm),
          `${at_mm.map((value) => (Math.abs(value) < 0.05 ? 0 : value).toFixed(1)).join(', ')} mm`,
        ]),
      ],
      [0],
    ) +
    wrap(
      `Closest pair of each kind, as drawn. At full speed the rotor's tips have moved out by ${formatNumber(1e6 * growth, 2)} µm; warmth and creep come on top. x points forward, y to the right, z down from where lip and bore meet.`,
    )
  );
}

const MAKE_NOTES = `
Lengths in the files are mm. The rotor lies with its closed face down, the duct stands on its
exit. Neighbouring fans turn opposite ways, so rotors come in both hands, each counted. A fan
that cannot be built as drawn is refused with the reason (exit code 2) and nothing is written.
So is a craft whose parts run into each other, at rest or with the rotor grown at full speed;
the sentence names the place. Motors count as their can, a battery and a board where a printed
frame says how they lie; screws and wires are left out.

NAME is the project's name in letters, digits and hyphens. Files: NAME-PART.stl for each part; or
NAME.3mf (NAME-bed-1.3mf and so on where one bed does not take everything) with the assembly, the
number of copies and a picture. --step adds NAME-PART.step and NAME-assembly.step, --drawing adds
NAME-drawing.svg and NAME-drawing.pdf. A part without an exact solid is left out of STEP and named.

Keys of --json: files (paths), parts (id, name, quantity, hand, volume_cm3, mass_g, size_mm),
clearances (a, b, pairs, gap_mm, gapAtSpeed_mm, at_mm; null with --no-check-fit).

Before the first run of a printed rotor: glasses on, people out of its plane, speed up slowly
behind a guard, and never beyond the speed its material stands.

Examples:
  fanwright make scout.fanwright.json --out parts
  fanwright make scout.fanwright.json --out parts --format 3mf --set fan.bladeCount=7
  fanwright make scout.fanwright.json --out parts --step --drawing`;
