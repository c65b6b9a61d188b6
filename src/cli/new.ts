import { Command } from 'commander';
import { exampleNames, readExample, refuseToReplace, writeWhole } from './files.ts';
import type { Io } from './io.ts';

/** `fanwright new FILE`: a project to start from. */
export function newCommand(io: Io): Command {
  const names = exampleNames();
  return new Command('new')
    .description('Write a new project file, as a copy of an example.')
    .argument('<FILE>', 'file to write, usually NAME.fanwright.json')
    .option('--example <NAME>', `the example to copy: ${names.join(', ')}`, names[0])
    .option('--force', 'write over a file that is already there')
    .addHelpText(
      'after',
      `
The examples are invented craft with generic parts. Change the values in any text editor, with
--set of \`fanwright assess\`, or on the page.

Example:
  fanwright new --example ${names[0]} scout.fanwright.json`,
    )
    .action((file: string, options: { example: string; force?: boolean }) => {
      const bytes = readExample(options.example);
      refuseToReplace(file, options.force);
      writeWhole(file, bytes);
      io.out(`Wrote ${file}, a copy of the example ${options.example}.\nNext: fanwright assess ${file}\n`);
    });
}
