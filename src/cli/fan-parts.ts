import { atmosphere, type Air } from '../air/atmosphere.ts';
import { polarTable } from '../air/polar.ts';
import { rotorOfTable, type RotorAir } from '../air/rotor.ts';
import { assess } from '../assess/assess.ts';
import { highestSpeed } from '../assess/model.ts';
import type { Project } from '../project/schema.ts';
import { formatPercent } from '../quantities/format.ts';
import {
  degreesFromRadians,
  metresFromMillimetres,
  radiansFromDegrees,
  rpmFromAngularSpeed,
} from '../quantities/units.ts';
import { namedSection, SECTION_NAMES, type NamedSection } from '../study/named-section.ts';
import { fanParts, type FanParts } from '../study/single-fan.ts';
import { BadInput } from './fault.ts';
import { isThere, readBytes } from './files.ts';
import { readMeasuredSection, type MeasuredSection } from './measured.ts';
import { openProject, type OpenOptions } from './open.ts';
import { readRotorTable, type RotorTable } from './table.ts';

/** What may be said of the fan to run. */
export interface FanChoice extends OpenOptions {
  readonly rpm?: number;
  readonly open?: boolean;
  readonly blades?: number;
  readonly section?: string;
  readonly roughness?: number;
  readonly density?: number;
  readonly viscosity?: number;
}

/** A fan ready to run, and in words what was assumed. */
export interface ChosenFan {
  readonly title: string;
  readonly parts: FanParts;
  readonly rpm: number;
  /** Highest speed of a map [rpm] */
  readonly highestRpm: number;
  readonly assumed: readonly string[];
  readonly measured: MeasuredSection | null;
  /** The model a measured section hands over to, in words. */
  readonly beyond: string;
}

/** A section by name, by digits, or measured. */
type SectionChoice = NamedSection | MeasuredSection;
const isMeasured = (section: SectionChoice): section is MeasuredSection => 'points' in section;

function sectionOf(name: string): SectionChoice {
  const section = namedSection(name);
  if (section) return section;
  if (/\.(csv|tsv|txt)$|[/\\]/i.test(name) || isThere(name)) return readMeasuredSection(name);
  throw new BadInput(
    `--section ${name} is not known; it may be ${SECTION_NAMES}, or a file with a measured polar (.csv).`,
  );
}

/** What the person gave of the air; the speed of sound stays. */
function givenAir({ density, viscosity }: FanChoice): Partial<Air> {
  return { ...(density !== undefined && { density }), ...(viscosity !== undefined && { viscosity }) };
}

/** The fan of a project file. */
export function fanOfProject(file: string, options: FanChoice): ChosenFan {
  let { project } = openProject(file, options);
  if (options.open) project = { ...project, fan: { ...project.fan, kind: 'open' } };
  if (options.blades !== undefined)
    project = { ...project, fan: { ...project.fan, bladeCount: options.blades } };
  const section = options.section === undefined ? null : sectionOf(options.section);
  if (section) project = isMeasured(section) ? withPolar(project, section) : withSection(project, section);
  if (options.roughness !== undefined) project = withRoughness(project, options.roughness);
  const assumed: string[] = [];
  return {
    title: `${project.name}: one ${project.fan.kind === 'open' ? 'open rotor' : 'fan in its duct'}`,
    parts: fanParts(project, givenAir(options)),
    rpm: options.rpm ?? usualSpeed(project, assumed),
    highestRpm: options.rpm ?? rpmFromAngularSpeed(highestSpeed(project)),
    assumed,
    measured: section && isMeasured(section) ? section : null,
    beyond: "the model of the project's own section",
  };
}

function usualSpeed(project: Project, assumed: string[]): number {
  const { craft, fan } = assess(project);
  const kind = !fan.hover
    ? 'full throttle, for no speed of this fan carries the craft'
    : craft.lifts
      ? 'hover speed'
      : 'the speed that would carry the craft, which its drive does not reach';
  assumed.push(`No --rpm given: ${kind}.`);
  return (fan.hover ?? fan.full).rpm;
}

function withSection(project: Project, section: NamedSection): Project {
  const { fan } = project;
  const { family, camberPosition, thickness, camber, fromDigits } = section;
  return {
    ...project,
    fan: {
      ...fan,
      section: {
        ...fan.section,
        family,
        camberPosition_ratio: camberPosition,
        // Another shape: neither the nose nor the measurements of the old one are its own.
        noseBluntness_ratio: null,
        polar: null,
      },
      blade: fromDigits
        ? fan.blade.map((s) => ({ ...s, thickness_ratio: thickness, camber_ratio: camber }))
        : fan.blade,
    },
  };
}

function withPolar(project: Project, { points }: MeasuredSection): Project {
  const polar = points.map(({ reynolds, alpha, cl, cd }) => ({
    re: reynolds,
    alpha_deg: degreesFromRadians(alpha),
    cl,
    cd,
  }));
  return {
    ...project,
    fan: { ...project.fan, section: { ...project.fan.section, polar } },
  };
}

const withRoughness = (project: Project, roughness_mm: number): Project => ({
  ...project,
  fan: { ...project.fan, section: { ...project.fan.section, roughness_mm } },
});

/** Roughness over chord past which a blade is rubble, not a section. */
const MOST_ROUGHNESS = 0.05;

/** The same rotor with a surface of `height` [m]. */
const roughened = (rotor: RotorAir, height: number): RotorAir => ({
  ...rotor,
  sections: rotor.sections.map((section, i) => ({
    ...section,
    roughness: height > 0 ? Math.min(MOST_ROUGHNESS, height / rotor.chord[i]) : 0,
  })),
});

/** The rotor of a table, always open. */
export function fanOfTable(file: string, options: FanChoice): ChosenFan {
  if (options.build !== undefined || options.set !== undefined)
    throw new BadInput(`${file} is a table; --build and --set are for project files.`);
  const table = readRotorTable(readBytes(file), file);
  if (options.rpm === undefined)
    throw new BadInput(`${file} is a table, so the speed is needed: add --rpm N.`);
  const blades = options.blades ?? 2;
  const choice = sectionOf(options.section ?? USUAL_SECTION);
  const measured = isMeasured(choice) ? choice : null;
  const section = isMeasured(choice) ? namedSection(USUAL_SECTION)! : choice;
  const bent = table.camber_ratio?.some((camber) => camber !== 0);
  if (section.family === 'flat-plate' && bent)
    throw new BadInput(
      `${file} gives a camber_ratio, which a flat-plate section has none of; take --section arc-plate or leave the column out.`,
    );
  const rotor = rotorOfTable(
    {
      radius: table.radius_mm.map(metresFromMillimetres),
      chord: table.chord_mm.map(metresFromMillimetres),
      angle: table.angle_deg.map(radiansFromDegrees),
      thickness: table.thickness_ratio ?? section.thickness,
      camber: table.camber_ratio ?? section.camber,
      camberPosition: section.camberPosition,
      ...(measured && { polar: polarTable(measured.points) }),
    },
    blades,
  );
  return {
    title: `${file}: an open rotor (a table has no duct)`,
    parts: {
      rotor: roughened(rotor, metresFromMillimetres(options.roughness ?? 0)),
      passage: null,
      air: { ...atmosphere(0), ...givenAir(options) },
    },
    rpm: options.rpm,
    highestRpm: options.rpm,
    assumed: assumptions(table, options, blades, measured ? null : section),
    measured,
    beyond: `the model of a ${USUAL_SECTION} section, ${proportions(table, section)}`,
  };
}

const USUAL_SECTION = 'four-digit';

/** "10 % thick, 3 % camber"; what the table says itself is only named. */
const proportions = (table: RotorTable, { thickness, camber }: NamedSection): string =>
  table.thickness_ratio && table.camber_ratio
    ? 'thickness and camber from the table'
    : `${table.thickness_ratio ? 'thickness from the table' : `${formatPercent(thickness)} thick`}, ` +
      (table.camber_ratio ? 'camber from the table' : `${formatPercent(camber)} camber`);

/** What nobody said and was taken as usual; `section` is null where a measured one has its own sentences. */
function assumptions(
  table: RotorTable,
  options: FanChoice,
  blades: number,
  section: NamedSection | null,
): string[] {
  const assumed: string[] = [];
  if (options.blades === undefined) assumed.push(`No --blades given: ${blades}.`);
  const own = table.thickness_ratio && table.camber_ratio;
  if (section && !(own && options.section === undefined))
    assumed.push(`Section ${options.section ?? USUAL_SECTION}: ${proportions(table, section)}.`);
  if (options.density === undefined && options.viscosity === undefined)
    assumed.push('Air of the standard day at sea level.');
  if (table.ignored.length) assumed.push(`Columns not read: ${table.ignored.join(', ')}.`);
  return assumed;
}
