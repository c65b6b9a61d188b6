import { Command } from 'commander';
import { atmosphere, type Air } from '../air/atmosphere.ts';
import { rotorOfTable } from '../air/rotor.ts';
import { assess } from '../assess/assess.ts';
import type { Project } from '../project/schema.ts';
import { metresFromMillimetres, radiansFromDegrees } from '../quantities/units.ts';
import { namedSection, SECTION_NAMES, type NamedSection } from '../study/named-section.ts';
import { runProjectFan, runRotor, type SingleFan } from '../study/single-fan.ts';
import { collect } from './assess.ts';
import { fanText } from './fan-text.ts';
import { BadInput } from './fault.ts';
import { readBytes } from './files.ts';
import { asJson, type Io } from './io.ts';
import { numberFrom } from './numbers.ts';
import { openProject, type OpenOptions } from './open.ts';
import { readRotorTable, type RotorTable } from './table.ts';

interface FanOptions extends OpenOptions {
  readonly rpm?: number;
  readonly axialSpeed: number;
  readonly open?: boolean;
  readonly blades?: number;
  readonly section?: string;
  readonly density?: number;
  readonly viscosity?: number;
  readonly json?: boolean;
}

/** What `fanwright fan` says: the run, and in words what was assumed. */
interface Said {
  readonly title: string;
  readonly assumed: readonly string[];
  readonly result: SingleFan;
}

/** `fanwright fan FILE_OR_TABLE`: one fan or rotor at one speed, without motor or craft. */
export function fanCommand(io: Io): Command {
  return new Command('fan')
    .description("Run one fan at one speed: a project's fan, or any rotor known as a table.")
    .argument('<FILE_OR_TABLE>', 'project file, or a table of the blade (.csv)')
    .option(
      '--rpm <N>',
      'speed, rpm (needed for a table; of a project: hover speed)',
      numberFrom('--rpm', 0, 1_000_000, 'rpm'),
    )
    .option(
      '--axial-speed <V>',
      'speed of the air along the axis toward the fan, m/s',
      numberFrom('--axial-speed', -200, 200, 'm/s'),
      0,
    )
    .option('--open', 'without the duct (a table is always an open rotor)')
    .option('--blades <B>', 'number of blades (a table: 2)', numberFrom('--blades', 1, 20, '', true))
    .option('--section <NAME>', 'blade section, see below (a table: four-digit)')
    .option(
      '--density <D>',
      'density of the air, kg/m3 (a table: 1.225)',
      numberFrom('--density', 0.001, 100, 'kg/m3'),
    )
    .option(
      '--viscosity <MU>',
      'viscosity of the air, Pa s (a table: 1.789e-5)',
      numberFrom('--viscosity', 1e-7, 1e-2, 'Pa s'),
    )
    .option('--build <ID>', 'run the fan of one of the builds in the project file')
    .option(
      '--set <path=value>',
      'change a value of the project for this run only; may be given several times',
      collect,
    )
    .option('--json', 'print every figure as JSON')
    .addHelpText('after', FAN_NOTES)
    .action((file: string, options: FanOptions) => {
      const said = isProject(file) ? runOfProject(file, options) : runOfTable(file, options);
      io.out(
        options.json
          ? asJson({ ...said.result, assumed: said.assumed })
          : fanText(said.title, said.assumed, said.result),
      );
    });
}

/** A project begins with a brace; anything else is a table. */
function isProject(file: string): boolean {
  if (/\.(csv|tsv|txt)$/i.test(file)) return false;
  if (/\.json$/i.test(file)) return true;
  return /^(\ufeff)?\s*\{/.test(new TextDecoder().decode(readBytes(file).subarray(0, 200)));
}

function runOfProject(file: string, options: FanOptions): Said {
  let { project } = openProject(file, options);
  if (options.open) project = { ...project, fan: { ...project.fan, kind: 'open' } };
  if (options.blades !== undefined)
    project = { ...project, fan: { ...project.fan, bladeCount: options.blades } };
  if (options.section !== undefined) project = withSection(project, sectionOf(options.section));
  const assumed: string[] = [];
  const rpm = options.rpm ?? usualSpeed(project, assumed);
  return {
    title: `${project.name}: one ${project.fan.kind === 'open' ? 'open rotor' : 'fan in its duct'}`,
    assumed,
    result: runProjectFan(project, rpm, options.axialSpeed, givenAir(options)),
  };
}

function usualSpeed(project: Project, assumed: string[]): number {
  const { hover, full } = assess(project).fan;
  assumed.push(`No --rpm given: ${hover ? 'hover speed' : 'full throttle, for it does not hover'}.`);
  return (hover ?? full).rpm;
}

function withSection(project: Project, section: NamedSection): Project {
  const { fan } = project;
  return {
    ...project,
    fan: {
      ...fan,
      section: { ...fan.section, family: section.family, camberPosition_ratio: section.camberPosition },
      blade: section.fromDigits
        ? fan.blade.map((s) => ({ ...s, thickness_ratio: section.thickness, camber_ratio: section.camber }))
        : fan.blade,
    },
  };
}

function runOfTable(file: string, options: FanOptions): Said {
  if (options.build !== undefined || options.set !== undefined)
    throw new BadInput(`${file} is a table; --build and --set are for project files.`);
  const table = readRotorTable(readBytes(file), file);
  if (options.rpm === undefined)
    throw new BadInput(`${file} is a table, so the speed is needed: add --rpm N.`);
  const blades = options.blades ?? 2;
  const section = sectionOf(options.section ?? 'four-digit');
  const bent = table.camber_ratio?.some((camber) => camber !== 0);
  if (section.family === 'flat-plate' && bent)
    throw new BadInput(
      `${file} gives a camber_ratio, which a flat-plate section has none of; take --section arc-plate or leave the column out.`,
    );
  const assumed = assumptions(table, options, blades, section);
  const rotor = rotorOfTable(
    {
      radius: table.radius_mm.map(metresFromMillimetres),
      chord: table.chord_mm.map(metresFromMillimetres),
      angle: table.angle_deg.map(radiansFromDegrees),
      thickness: table.thickness_ratio ?? section.thickness,
      camber: table.camber_ratio ?? section.camber,
      camberPosition: section.camberPosition,
    },
    blades,
  );
  const air = { ...atmosphere(0), ...givenAir(options) };
  const result = runRotor(rotor, null, air, options.rpm, options.axialSpeed);
  return { title: `${file}: an open rotor (a table has no duct)`, assumed, result };
}

function assumptions(
  table: RotorTable,
  options: FanOptions,
  blades: number,
  section: NamedSection,
): string[] {
  const assumed: string[] = [];
  if (options.blades === undefined) assumed.push(`No --blades given: ${blades}.`);
  const taken: string[] = [];
  if (!table.thickness_ratio) taken.push(`thickness ${section.thickness} of the chord`);
  if (!table.camber_ratio) taken.push(`camber ${section.camber}`);
  if (taken.length) assumed.push(`Section ${options.section ?? section.family}: ${taken.join(', ')}.`);
  if (options.density === undefined && options.viscosity === undefined)
    assumed.push('Air of the standard day at sea level.');
  if (table.ignored.length) assumed.push(`Columns not read: ${table.ignored.join(', ')}.`);
  return assumed;
}

function sectionOf(name: string): NamedSection {
  const section = namedSection(name);
  if (section) return section;
  throw new BadInput(`--section ${name} is not known; it may be ${SECTION_NAMES}.`);
}

/** What the person gave of the air; the speed of sound stays. */
function givenAir({ density, viscosity }: FanOptions): Partial<Air> {
  return { ...(density !== undefined && { density }), ...(viscosity !== undefined && { viscosity }) };
}

const FAN_NOTES = `
A table is plain text: a heading line, then one line a station in any order, first the hub, last
the tip by radius. Decimal point; comma, semicolon or tab between; lines from # on are skipped.
  radius_mm, chord_mm, angle_deg (chord to the plane of rotation) must be there;
  thickness_ratio, camber_ratio (over the chord) may be.
Sections for --section: flat-plate (5 % thick), arc-plate (5 % thick, 5 % camber), four-digit (10 %
thick, 3 % camber at 40 %), or four digits of NACA Report 460 such as 4412 (4 % camber at 40 % of
the chord, 12 % thick). Columns of a table win over these; of a project, a family keeps the
thickness and camber of its blade, four digits replace them.

Keys of --json that stay the same (null where the fan stands still):
  thrust_N, torque_Nm, power_W, rotorThrust_N
  ct, cp           T/(rho n^2 D^4), P/(rho n^3 D^5); n in turns a second, D over the tips
  ctRotor, cpRotor T/(rho A (Omega R)^2), P/(rho A (Omega R)^3); A = pi R^2
  annuli           lists from hub to tip: radius_mm, chord_mm, angle_deg, axialVelocity_mps,
                   swirlVelocity_mps, exitVelocity_mps, angleOfAttack_deg, liftCoefficient,
                   dragCoefficient, reynolds
More keys stand beside them: kind, rpm, sizes, air, figureOfMerit, losses_W, ledgerError_W, assumed.

Examples:
  fanwright fan scout.fanwright.json --rpm 24000
  fanwright fan scout.fanwright.json --rpm 24000 --open --json
  fanwright fan rotor.csv --blades 2 --rpm 5000 --section 4412 --axial-speed 3`;
