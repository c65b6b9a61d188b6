import { CommanderError } from 'commander';
import { BadInput, sentence } from './fault.ts';
import { programVersion } from './files.ts';
import type { Io } from './io.ts';
import { buildProgram } from './program.ts';

/** Runs the command line and gives its exit code: 0 good, 2 bad input, 1 a fault of the program. Never throws. */
export async function run(args: readonly string[], io: Io): Promise<number> {
  try {
    const program = buildProgram(io);
    if (args.length === 0) program.outputHelp();
    else await program.parseAsync(spreadSets(args), { from: 'user' });
    return 0;
  } catch (error) {
    if (error instanceof CommanderError) {
      if (error.exitCode === 0) return 0;
      io.err(usageSentence(error.message, args) + '\n');
      return 2;
    }
    if (error instanceof BadInput) {
      io.err(sentence(error.message) + '\n');
      return 2;
    }
    const message = error instanceof Error ? error.message : String(error);
    io.err(
      sentence(
        `Sorry, this is a fault in Fanwright, not in your input. Please report it with your file and this line: ` +
          `fanwright ${programVersion()}, ${process.platform}, Node ${process.version}, "${args.join(' ')}": ${message}`,
      ) + '\n',
    );
    return 1;
  }
}

/** "Unknown option '--jsn' (Did you mean --json?); see `fanwright assess --help`." */
function usageSentence(message: string, args: readonly string[]): string {
  const text = sentence(message.replace(/^error: /, '')).slice(0, -1);
  const command = [
    'new',
    'check',
    'assess',
    'design',
    'make',
    'fan',
    'motor',
    'size',
    'craft',
    'strength',
    'study',
    'buy',
    'balance',
    'tach',
    'shake',
  ].find((name) => name === args[0]);
  return `${text[0].toUpperCase()}${text.slice(1)}; see \`fanwright ${command ? command + ' ' : ''}--help\`.`;
}

/** `--set a=1 b=2` means `--set a=1 --set b=2`; what is no assignment ends the row, so a FILE may follow it. */
function spreadSets(args: readonly string[]): string[] {
  const out: string[] = [];
  let inside = false;
  for (const arg of args) {
    const assignment = /^[A-Za-z][\w.]*=/.test(arg);
    if (inside && assignment && out.at(-1) !== '--set') out.push('--set');
    else if (arg === '--set') inside = true;
    else if (!assignment) inside = false;
    out.push(arg);
  }
  return out;
}
