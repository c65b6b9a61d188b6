import { Command } from 'commander';
import { assessCommand } from './assess.ts';
import { balanceCommand } from './balance.ts';
import { benchCommand } from './bench.ts';
import { buyCommand } from './buy.ts';
import { checkCommand } from './check.ts';
import { craftCommand } from './craft.ts';
import { designCommand } from './design.ts';
import { diagnoseCommand } from './diagnose.ts';
import { fanCommand } from './fan.ts';
import { programVersion } from './files.ts';
import type { Io } from './io.ts';
import { layersCommand } from './layers.ts';
import { makeCommand } from './make.ts';
import { motorCommand } from './motor.ts';
import { newCommand } from './new.ts';
import { printerCommand } from './printer.ts';
import { shakeCommand } from './shake.ts';
import { sizeCommand } from './size.ts';
import { soundCommand } from './sound.ts';
import { strengthCommand } from './strength.ts';
import { studyCommand } from './study.ts';
import { tachCommand } from './tach.ts';

/** The whole command line. Help goes to `io.out`; refusals are thrown, for `run` to put into words. */
export function buildProgram(io: Io): Command {
  const program = new Command('fanwright')
    .description(
      'Design, print, measure and explain small ducted fans and the multirotors they lift.\n' +
        'A project is one file, NAME.fanwright.json; its keys carry their units.',
    )
    .version(programVersion(), '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .helpCommand('help [command]', 'print the help of a command')
    .addHelpText(
      'after',
      `
Exit codes: 0 good (a craft that does not lift is an answer too), 2 bad input (one sentence on
standard error, nothing written), 1 a fault of the program.

Example, from nothing to printable parts:
  fanwright new scout.fanwright.json
  fanwright assess scout.fanwright.json
  fanwright assess scout.fanwright.json --set fan.tipDiameter_mm=80
  fanwright make scout.fanwright.json --out parts

Estimates are no certificate. Spinning blades, lithium cells, resin and fumes can hurt people;
local flight rules and licensed practice come first.`,
    );
  for (const command of [
    newCommand(io),
    checkCommand(io),
    assessCommand(io),
    designCommand(io),
    makeCommand(io),
    layersCommand(io),
    printerCommand(io),
    fanCommand(io),
    motorCommand(io),
    sizeCommand(io),
    studyCommand(io),
    craftCommand(io),
    strengthCommand(io),
    soundCommand(io),
    buyCommand(io),
    balanceCommand(io),
    benchCommand(io),
    diagnoseCommand(io),
    tachCommand(io),
    shakeCommand(io),
  ])
    program.addCommand(command);
  for (const command of [program, ...program.commands]) {
    command.exitOverride();
    command.helpOption('-h, --help', 'print this help');
    command.configureHelp({ helpWidth: 96 });
    command.configureOutput({ writeOut: io.out, writeErr: () => {}, outputError: () => {} });
    command.allowExcessArguments(false);
    command.showSuggestionAfterError(true);
  }
  return program;
}
