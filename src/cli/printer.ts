import { Command } from 'commander';
import { assess } from '../assess/assess.ts';
import { COUPON, profileFromCoupon, readCouponReadings } from '../print/coupon.ts';
import type { Project } from '../project/schema.ts';
import { writeProject } from '../project/write.ts';
import { formatNumber as n, formatPercent } from '../quantities/format.ts';
import { printerLimits } from '../study/printer-limits.ts';
import { collect } from './assess.ts';
import { BadInput } from './fault.ts';
import { plainText, readBytes, refuseToReplace, writeWhole } from './files.ts';
import { asJson, type Io } from './io.ts';
import { openProject, type OpenOptions } from './open.ts';
import { bullet, columns, wrap } from './text.ts';

interface PrinterOptions extends OpenOptions {
  readonly coupon?: string;
  readonly readings?: string;
  readonly out?: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

/** `fanwright printer FILE`: what the printer makes of the blades, a coupon to print first, a profile from its readings. */
export function printerCommand(io: Io): Command {
  return new Command('printer')
    .description('Say what the printer makes of the blades; write a test coupon, or take up its readings.')
    .argument('<FILE>', 'project file')
    .option('--coupon <STL>', 'write the coupon to print first to this file')
    .option('--readings <JSON>', 'readings of a printed coupon; sets the printer profile of this run')
    .option('--out <NEW>', 'with --readings: write the project with that profile to this file')
    .option('--force', 'write over files that are already there')
    .option('--build <ID>', 'use one of the builds in the project file')
    .option(
      '--set <path=value>',
      'change a value of the project for this run only; may be given several times',
      collect,
    )
    .option('--json', 'print every figure as JSON')
    .addHelpText('after', PRINTER_NOTES)
    .action(async (file: string, options: PrinterOptions) => {
      const { coupon, readings, out, force } = options;
      if (out !== undefined && readings === undefined)
        throw new BadInput('--out writes the project with a profile from --readings; give --readings too.');
      const inputs = readings === undefined ? [file] : [file, readings];
      for (const target of [coupon, out]) if (target !== undefined) refuseToReplace(target, force, inputs);
      const opened = openProject(file, options).project;
      const taken = readings === undefined ? null : withReadings(opened, readings);
      const project = taken?.project ?? opened;
      const written: string[] = [];
      if (coupon !== undefined) {
        const [{ loadKernel }, { couponMesh }, { writeStl }] = await Promise.all([
          import('../make/kernel.ts'),
          import('../make/coupon.ts'),
          import('../make/stl.ts'),
        ]);
        writeWhole(coupon, writeStl(couponMesh(await loadKernel()), 'coupon'));
        written.push(coupon);
      }
      if (out !== undefined) {
        writeWhole(out, writeProject(project));
        written.push(out);
      }
      const answer = answerOf(project);
      io.out(
        options.json
          ? asJson({ printer: project.printer, ...answer, fromReadings: taken?.words ?? null, written })
          : textOf(project, answer, taken?.words ?? null, coupon !== undefined) +
              written.map((name) => `Wrote ${name}.\n`).join(''),
      );
    });
}

function withReadings(project: Project, file: string): { project: Project; words: readonly string[] } {
  let value: unknown;
  try {
    value = JSON.parse(plainText(readBytes(file), file, 'a file of coupon readings'));
  } catch (error) {
    if (error instanceof BadInput) throw error;
    throw new BadInput(`${file} is not JSON; coupon readings look like { "thinnestWholeFin_mm": 0.5 }.`);
  }
  const read = readCouponReadings(value);
  if (!read.ok) throw new BadInput(`${file}: ${read.error}`);
  const profile = profileFromCoupon(read.readings, project.printer);
  if (!profile.ok) throw new BadInput(`${file}: ${profile.error}`);
  return { project: { ...project, printer: profile.printer }, words: profile.words };
}

function answerOf(project: Project) {
  const print = assess(project).print!;
  const drawn = assess(project, { as: 'drawn' }).craft.thrustToWeight;
  const printed = assess(project).craft.thrustToWeight;
  return {
    print,
    thrustToWeight: { drawn, printed },
    ...printerLimits(project),
  };
}

function textOf(
  project: Project,
  { print, thrustToWeight, thinnest, smallest }: ReturnType<typeof answerOf>,
  readings: readonly string[] | null,
  coupon: boolean,
): string {
  const { printer } = project;
  const source = {
    typical: 'typical values, not measured',
    coupon: 'from a printed coupon',
    own: 'your own values',
  }[printer.source];
  return (
    `${project.name}: ${printer.name} (${source})\n` +
    (readings ? `\nFrom the coupon\n${readings.map((text) => bullet(text)).join('')}` : '') +
    `\nThe blades as printed\n${wrap(print.words, '  ')}` +
    wrap(
      `Thrust over weight: ${n(thrustToWeight.printed)} as printed, ${n(thrustToWeight.drawn)} as drawn.`,
      '  ',
    ) +
    '\n' +
    columns([
      ['radius', 'chord', 'drawn', 'thick', 'drawn', 'back edge', 'turned', 'steps', 'thrust here'],
      ...print.stations.map((s) => [
        `${n(s.radius_mm)} mm`,
        s.lost ? 'lost' : `${n(s.chord_mm)} mm`,
        `${n(s.drawnChord_mm)} mm`,
        s.lost ? 'lost' : `${n(s.thickness_mm, 2)} mm`,
        `${n(s.drawnThickness_mm, 2)} mm`,
        `${n(s.trailingEdge_mm, 2)} mm`,
        `${n(Math.abs(s.turn_deg) < 0.005 ? 0 : s.turn_deg, 2)}°`,
        `${n(s.roughness_mm, 2)} mm`,
        formatPercent(s.thrustChange_ratio, 1),
      ]),
    ]) +
    '\nWhat this printer can do\n' +
    thinnest.map(({ words }) => bullet(words)).join('') +
    bullet(smallest.words) +
    (coupon ? `\nReading the coupon\n${wrap(COUPON_READING, '  ')}\n` : '\n')
  );
}

const list = (values: readonly number[]) => values.join(', ');

const COUPON_READING =
  'Lay it with the cut corner front left; each row begins at the notch in its left edge. Front row: ' +
  `holes ${list(COUPON.holes)} mm, then pins ${list(COUPON.pins.diameter)} mm. Middle row: slots ` +
  `${list(COUPON.gaps.width)} mm, then fins ${list(COUPON.fins.thickness)} mm. Back row: walls that lean ` +
  `${list(COUPON.leans.angle)}° from upright. Read pins and holes with a caliper in two directions, the pins above their foot.`;

const PRINTER_NOTES = `
Readings are a JSON file; leave out what you did not read:
  {
    "thinnestWholeFin_mm": 0.5,
    "pins": [{ "nominal_mm": 5, "measured_mm": [5.1, 5.12] }],
    "holes": [{ "nominal_mm": 5, "measured_mm": 4.8 }],
    "narrowestOpenGap_mm": 0.2,
    "steepestCleanLean_deg": 50
  }

Keys of --json: printer (the profile), print (thrustLost_ratio, torqueChange_ratio,
thrustAtPowerLost_ratio, stations, words), thrustToWeight (drawn, printed), thinnest, smallest,
fromReadings, written.

Examples:
  fanwright printer scout.fanwright.json --coupon coupon.stl
  fanwright printer scout.fanwright.json --readings coupon.json --out scout-mine.fanwright.json`;
