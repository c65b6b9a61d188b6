import { Command, Option } from 'commander';
import type { Project } from '../project/schema.ts';
import { formatNumber as n } from '../quantities/format.ts';
import { batteryStudy } from '../study/battery-choice.ts';
import { ductOrOpen } from '../study/duct-or-open.ts';
import { largerFan, projectLimits } from '../study/larger-fan.ts';
import { compareStands, USUAL_STANDS, variantStands } from '../study/layouts.ts';
import { massPlace } from '../study/mass-place.ts';
import { shortfallOf } from '../study/shortfall.ts';
import { controlLeft, windStood, type WindStood } from '../study/whole-craft.ts';
import { collect } from './assess.ts';
import { batteryTable, massTable, section, standTable, hereTable, widthTable } from './craft-text.ts';
import { asJson, type Io } from './io.ts';
import { numberFrom } from './numbers.ts';
import { openProject, type OpenOptions } from './open.ts';

interface CraftOptions extends OpenOptions {
  readonly section?: SectionName;
  readonly guard?: number;
  readonly json?: boolean;
}

/** A part of the report: its data for JSON, and its text. */
interface Part {
  readonly data: unknown;
  readonly text: string;
}

const SECTIONS = {
  mass: (project): Part => {
    const data = massPlace(project);
    return { data, text: section('Where the mass sits', data.words, massTable(data)) };
  },
  control: (project): Part => {
    const data = controlLeft(project);
    return { data, text: section('Control and climb', data.words) };
  },
  wind: (project): Part => {
    const data = windStood(project);
    const words = windSentences(data.winds);
    return {
      data,
      text: section('Wind', words) + section('Near ground, walls and each other', data.nearness),
    };
  },
  battery: (project): Part => {
    const data = batteryStudy(project);
    return { data, text: section('Battery size', data.words, batteryTable(data)) };
  },
  duct: (project, guard): Part => {
    const data = ductOrOpen(project, guard === undefined ? {} : { guard_g: guard });
    return {
      data,
      text: section(
        'Duct or open rotor, the same outer width',
        data.words,
        widthTable(data) + hereTable(data),
      ),
    };
  },
  layouts: (project): Part => {
    const data = compareStands(project, [...USUAL_STANDS, ...variantStands(project)]);
    const words = [
      'The same fan, motor, battery and payload in other stands; each is charged its arms (an estimate), controllers and motors with their fans.',
    ];
    return { data, text: section('Layouts', words, standTable(data)) };
  },
  motor: (project): Part => {
    const data = { limits: projectLimits(project), larger: largerFan(project) };
    return {
      data,
      text:
        section('What binds first along the throttle, battery half charged', data.limits.words) +
        section('A larger fan on this motor', data.larger.words),
    };
  },
} as const satisfies Record<string, (project: Project, guard: number | undefined) => Part>;

/** Sides that differ by less than this are said once, as the worse of them. */
const ALIKE = 0.03;

function windSentences([front, side]: readonly WindStood[]): readonly string[] {
  const near = (a: number, b: number) => Math.abs(a - b) <= ALIKE * Math.max(a, b);
  if (!near(front.steady_mps, side.steady_mps) || !near(front.gust_mps, side.gust_mps))
    return [...front.words, ...side.words];
  const worse = side.gust_mps < front.gust_mps ? side : front;
  return worse.words.map((text) => text.replace(/from the (front|side)/, 'from the front or the side'));
}

type SectionName = keyof typeof SECTIONS;
const NAMES = Object.keys(SECTIONS) as SectionName[];

/** `fanwright craft FILE`: the whole machine, section by section. */
export function craftCommand(io: Io): Command {
  return new Command('craft')
    .description('Look at the whole craft: mass, control, wind, battery size, duct or open, layouts, motor.')
    .argument('<FILE>', 'project file')
    .addOption(new Option('--section <NAME>', 'print one section only').choices(NAMES))
    .option(
      '--guard <G>',
      'guard around each open rotor in the duct section, g',
      numberFrom('--guard', 0, 10_000, 'g'),
    )
    .option('--build <ID>', 'use one of the builds in the project file')
    .option('--set <path=value>', 'change a value for this run only; may be given several times', collect)
    .option('--json', 'print every figure as JSON')
    .addHelpText('after', CRAFT_NOTES)
    .action((file: string, options: CraftOptions) => {
      const { project } = openProject(file, options);
      const shortfall = shortfallOf(project);
      const parts = (options.section ? [options.section] : NAMES).map(
        (name) => [name, SECTIONS[name](project, options.guard)] as const,
      );
      if (options.json)
        return io.out(
          asJson({ shortfall, ...Object.fromEntries(parts.map(([name, { data }]) => [name, data])) }),
        );
      const title = `${project.name}: ${n(shortfall.thrustToWeight)} times its weight at full throttle\n`;
      const why = shortfall.lifts ? '' : section('Why it does not lift', shortfall.sentences);
      io.out(title + why + parts.map(([, { text }]) => text).join(''));
    });
}

const CRAFT_NOTES = `
Nothing is written. Takes about two seconds; --section prints one of:
  mass     centre of mass, inertia and the height of each item
  control  control left in a level hover, and the climb straight up
  wind     the largest steady wind and sudden gust with control kept; ground and walls
  battery  hover over battery size, the longest, and the price of the next minute
  duct     the same craft and outer width with ducts, with open rotors, and with these in a ring
           guard (an estimate), and where they are equal
  layouts  three to eight fans in rings and rows side by side, with a wider gap, with a lean
  motor    limits along the throttle, and whether the motor could handle a larger fan
A craft that does not lift is told why first, in three sentences. Wind, inertia and arms are
estimates; test in still air, tethered, away from people, and keep to local flight rules.

Keys of --json: shortfall and one for each section: mass (mass_g, centre_mm, inertia_kgmm2, items,
words), control, wind (winds, nearness), battery (now, curve, longest, longestKept, nextMinute,
words), duct (pairs, breakEven, thrustBreakEven, guardedBreakEven, here, words), layouts (a row for
each stand), motor (limits, larger). Units stand in the keys.

Examples:
  fanwright craft scout.fanwright.json
  fanwright craft scout.fanwright.json --section battery
  fanwright craft scout.fanwright.json --section duct --guard 6
  fanwright craft scout.fanwright.json --set craft.layout=row --section control --json`;
