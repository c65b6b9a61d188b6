import { Command } from 'commander';
import { craftFrameFaults } from '../craft/frame.ts';
import { allPaths, describePath } from '../project/path.ts';
import { readProject } from '../project/read.ts';
import { acceptedAt } from '../project/words.ts';
import { geometryFaults } from '../shape/faults.ts';
import { BadInput } from './fault.ts';
import { readBytes } from './files.ts';
import { asJson, type Io } from './io.ts';
import { firstOf } from './open.ts';
import { bullet, wrap } from './text.ts';

/** `fanwright check FILE`: can the file be read, can its fan be built as drawn, is there a key nobody knows. */
export function checkCommand(io: Io): Command {
  return new Command('check')
    .description('Check that a project file can be read and its fan built as drawn.')
    .argument('[FILE]', 'project file (not needed with --keys)')
    .option('--keys', 'list every key of a project file with its unit, range and meaning, and stop')
    .option('--json', 'print { ok, errors, faults, notes }, each a list of { path, message }')
    .addHelpText(
      'after',
      `
Errors keep the file from being read. Faults are dimensions that do not fit together, so the parts
cannot be made (mm). Notes are keys this program does not know: they are kept and written back.
Errors and faults give exit code 2, notes do not.

Examples:
  fanwright check scout.fanwright.json
  fanwright check --keys`,
    )
    .action((file: string | undefined, options: { keys?: boolean; json?: boolean }) => {
      if (options.keys) return io.out(keyList());
      if (file === undefined) throw new BadInput('check needs the FILE to check, or --keys.');
      const read = readProject(readBytes(file));
      const errors = read.ok ? [] : read.errors;
      const notes = read.ok ? read.notes : [];
      const faults = read.ok
        ? [...geometryFaults(read.project.fan, read.project.motor), ...craftFrameFaults(read.project)].map(
            ({ path, text }) => ({
              path,
              message: `${path}: ${text}`,
            }),
          )
        : [];
      const ok = errors.length + faults.length === 0;
      if (options.json) io.out(asJson({ ok, errors, faults, notes }));
      else {
        const list = (heading: string, items: readonly { message: string }[]) =>
          items.length ? `${heading}\n${items.map(({ message }) => bullet(message)).join('')}` : '';
        io.out(
          (ok ? wrap(`${file} can be read and its fan built as drawn.`) : '') +
            list('The file cannot be read:', errors) +
            list('The fan cannot be built as drawn:', faults) +
            list(notes.length === 1 ? 'A note:' : 'Notes:', notes),
        );
      }
      if (!ok) throw new BadInput(firstOf(file, errors.length ? errors : faults));
    });
}

function keyList(): string {
  const rows = allPaths()
    .filter((path) => !path.startsWith('builds.0.design.'))
    .map((path) => {
      const field = describePath(path)!;
      return [path, acceptedAt(field, true), field.help] as const;
    });
  const width = Math.max(...rows.map(([path]) => path.length));
  const text = rows
    .map(([path, accepted, help]) => `${path.padEnd(width)}  ${accepted}${help && '. ' + help}\n`)
    .join('');
  return `${text}builds.0.design holds craft, motor, controller, battery, fan, printer and material once more.\n`;
}
