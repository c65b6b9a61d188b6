import { Command } from 'commander';
import { catalogue, type CatalogueEntry } from '../project/catalogue.ts';
import type { Motor, Project } from '../project/schema.ts';
import { writeProject } from '../project/write.ts';
import { spreadOf } from '../study/size-front.ts';
import { sizedProject } from '../study/size-try.ts';
import { MOST_CELLS, sizeStudy, usualTips } from '../study/size.ts';
import { collect } from './assess.ts';
import { BadInput } from './fault.ts';
import { refuseToReplace, writeWhole } from './files.ts';
import { asJson, type Io } from './io.ts';
import { numberFrom } from './numbers.ts';
import { openProject, type OpenOptions } from './open.ts';
import { FRONT_ROWS, sizeText } from './size-text.ts';

interface SizeCommandOptions extends OpenOptions {
  readonly tip?: readonly number[];
  readonly motors?: readonly string[];
  readonly allMotors?: boolean;
  readonly batteries?: readonly string[];
  readonly blades?: readonly string[];
  readonly fans?: number;
  readonly take?: number;
  readonly out?: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

/** Motors of the catalogue looked at beside the project's own where none are named. */
const NEIGHBOURS = 4;

/** `fanwright size FILE`: which tip diameter, motor and battery would do, and why the others would not. */
export function sizeCommand(io: Io): Command {
  return new Command('size')
    .description('Map which tip diameter, motor and battery would do, and why the others would not.')
    .argument('<FILE>', 'project file: its brief, masses, printer and material')
    .option('--tip <A:B:STEP>', 'tip diameters from A to B in steps, mm, as in 50:80:5', tipsFrom)
    .option('--motors <ID...>', 'motors: ids of the catalogue, or own for that of the project')
    .option('--all-motors', "the project's motor and every one of the catalogue")
    .option('--batteries <ID...>', 'batteries: ids of the catalogue, own, or all')
    .option('--fans <N>', 'number of fans', numberFrom('--fans', 1, 12, '', true))
    .option('--blades <N...>', 'blade counts to look at; left out: 3 5 7')
    .option(
      '--take <N>',
      'row of the printed front to write to --out',
      numberFrom('--take', 1, FRONT_ROWS, '', true),
    )
    .option('--out <FILE>', 'write the project with that fan, motor and battery to this file')
    .option('--force', 'write over a file that is already there')
    .option('--build <ID>', 'use one of the builds in the project file')
    .option('--set <path=value>', 'change a value for this run only; may be given several times', collect)
    .option('--json', 'print every figure as JSON')
    .addHelpText('after', SIZE_NOTES)
    .action((file: string, options: SizeCommandOptions) => {
      if (options.allMotors && options.motors)
        throw new BadInput('Give --motors or --all-motors, not both: all has every motor already.');
      const { take, out } = options;
      if ((take === undefined) !== (out === undefined))
        throw new BadInput(
          '--take N and --out FILE go together: which row of the front, and where to write it.',
        );
      if (out !== undefined) refuseToReplace(out, options.force);
      const bladeCounts = options.blades?.map(numberFrom('--blades', 1, 20, '', true));
      const { project } = openProject(file, options);
      const motors = motorsOf(project, options);
      const batteries = chosen(
        options.batteries ?? ['own'],
        '--batteries',
        catalogue.batteries,
        project.battery,
      );
      const tips_mm = options.tip ?? usualTips(project, motors);
      const count = tips_mm.length * motors.length * batteries.length;
      if (count > MOST_CELLS)
        throw new BadInput(
          `${tips_mm.length} tip diameters, ${motors.length} motors and ${batteries.length} batteries make ${count} combinations; at most ${MOST_CELLS} can be looked at in one go.`,
        );
      const study = sizeStudy(project, {
        tips_mm,
        motors,
        batteries,
        ...(bladeCounts && { bladeCounts }),
        ...(options.fans !== undefined && { fanCount: options.fans }),
      });
      if (take !== undefined && out !== undefined) {
        const rows = spreadOf(study.front, FRONT_ROWS);
        if (rows.length < take)
          throw new BadInput(
            rows.length === 0
              ? '--take has nothing to take: no design is on the front.'
              : `--take is ${take}; the front has ${rows.length} ${rows.length === 1 ? 'row' : 'rows'}.`,
          );
        const { choice, motor, battery } = rows[take - 1];
        writeWhole(
          out,
          writeProject(sizedProject(project, choice, motors[motor], batteries[battery], study.fanCount)),
        );
      }
      io.out(
        options.json
          ? asJson(study)
          : sizeText(project, study) +
              (out === undefined ? '' : `\nWrote ${out}: row ${take} of the front.\n`),
      );
    });
}

function tipsFrom(text: string): readonly number[] {
  const [from, to, step] = text
    .split(':')
    .map((part) => (/^\d+\.?\d*$/.test(part.trim()) ? Number(part) : NaN));
  if (text.split(':').length !== 3 || !(from >= 10 && to <= 1500 && to >= from && step >= 0.5))
    throw new BadInput(
      `--tip is "${text.slice(0, 40)}"; it must be A:B:STEP in mm, from 10 to 1500 in steps of 0.5 or more, as in 50:80:5.`,
    );
  const count = Math.floor((to - from) / step + 1e-9) + 1;
  if (count > MOST_CELLS)
    throw new BadInput(`--tip ${text} makes ${count} tip diameters; at most ${MOST_CELLS} can be looked at.`);
  return Array.from({ length: count }, (_, i) => Number((from + i * step).toFixed(3)));
}

function motorsOf(project: Project, { motors, allMotors }: SizeCommandOptions): readonly Motor[] {
  if (motors) return chosen(motors, '--motors', catalogue.motors, project.motor);
  const all = catalogue.motors.map(({ part }) => part);
  if (allMotors) return [project.motor, ...all];
  const distance = (m: Motor) => Math.abs(Math.log(m.mass_g / project.motor.mass_g));
  const near = [...all].sort((a, b) => distance(a) - distance(b)).slice(0, NEIGHBOURS);
  return [project.motor, ...all.filter((m) => near.includes(m))];
}

function chosen<Part>(
  ids: readonly string[],
  flag: string,
  entries: readonly CatalogueEntry<Part>[],
  own: Part,
): readonly Part[] {
  const parts = ids.flatMap((id) => {
    if (id === 'own') return [own];
    if (id === 'all') return [own, ...entries.map(({ part }) => part)];
    const entry = entries.find((e) => e.id === id);
    if (!entry)
      throw new BadInput(
        `${flag} has "${id.slice(0, 40)}"; the catalogue knows own, all, ${entries.map((e) => e.id).join(', ')}.`,
      );
    return [entry.part];
  });
  return [...new Set(parts)];
}

const SIZE_NOTES = `
Give FILE first; nothing is written without --out. Each cell of the map is the best of some 14
plain ducted fans: hub, blade count, blade angle and chord are looked for; payload, masses,
printer, material and air are the project's. Left out: --tip gives eight sizes up to just past
the width allowed; --motors the project's own and the four of the catalogue nearest to it in
mass; --batteries the project's own. A motor of the catalogue brings the smallest controller
that stands it. At most ${MOST_CELLS} cells in one go, which take two seconds.

A cell meets the brief if it hovers for brief.wanted_min, gives 1.3 times its weight at full
throttle (common practice, no source), stays within brief.largestDuctWidth_mm and the bed, and
passes no limit of current or winding. The front lists what no other design beats at once in
minutes, thrust over weight, outer width and tip speed in hover; for these the level in hover at 3 m
is estimated, with its interval.

Ids of motors:
${ids(catalogue.motors)}
Ids of batteries:
${ids(catalogue.batteries)}
Keys of --json: drawn, tips_mm, motors, batteries, fanCount, cells (tipDiameter_mm, motor,
battery, mark, words, design), close, lift, meet, front, tried, complete, words. Units stand in
the keys; motor and battery are places in the lists, from 0. Marks: meets, time, margin, hub,
shape, wide, disc, torque, winding, controller, battery, slow, weak.

Examples:
  fanwright size scout.fanwright.json
  fanwright size scout.fanwright.json --tip 50:80:5 --motors own motor-1404-3800
  fanwright size scout.fanwright.json --motors own --batteries own battery-lp-3s-650
  fanwright size scout.fanwright.json --take 1 --out wider.fanwright.json
  fanwright size scout.fanwright.json --all-motors --set brief.largestDuctWidth_mm=100 --json`;

function ids(entries: readonly { readonly id: string }[]): string {
  const lines: string[] = [];
  for (const { id } of entries) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + id.length + 1 <= 94) lines[lines.length - 1] = `${last} ${id}`;
    else lines.push(`  ${id}`);
  }
  return lines.join('\n');
}
