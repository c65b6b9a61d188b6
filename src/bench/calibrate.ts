import { calibrationSchema, PLAIN_CALIBRATION, type Calibration } from '../project/calibration.ts';
import type { Design, Project } from '../project/schema.ts';
import { formatNumber as n } from '../quantities/format.ts';
import { degreesFromRadians, millimetresFromMetres } from '../quantities/units.ts';
import type { CauseId, CauseSpec } from './diagnose/causes.ts';

/** A cause taken as true, with its size in the unit of its unknown (0 where it has none). */
export interface AcceptedCause {
  readonly id: CauseId;
  readonly name: string;
  readonly value: number;
  readonly belongsTo: CauseSpec['belongsTo'];
}

export interface Accepted {
  readonly project: Project;
  /** What was learned, in one sentence, as it stands in the build. */
  readonly learned: string;
  /** Whether later builds inherit it. */
  readonly inherited: boolean;
}

const within = (x: number, low: number, high: number) => Math.min(high, Math.max(low, x));

/** Calibration with one cause in it; the same where a cause is no matter of the model (rig, throttle, a limit set somewhere). */
export function withCause(c: Calibration, { id, value }: Pick<AcceptedCause, 'id' | 'value'>): Calibration {
  const times = (factor: number) => factor * Math.exp(value);
  const { faults } = c;
  switch (id) {
    case 'angle':
      return { ...c, bladeAngle_deg: within(c.bladeAngle_deg + degreesFromRadians(value), -45, 45) };
    case 'edge':
      return { ...c, chordKept_ratio: within(c.chordKept_ratio * (1 - value), 0.2, 1.3) };
    case 'flat':
      return { ...c, camberKept_ratio: within(c.camberKept_ratio * (1 - value), -1, 1.5) };
    case 'rough':
      return { ...c, sectionDrag_factor: within(times(c.sectionDrag_factor), 0.2, 10) };
    case 'kv':
      return { ...c, velocityConstant_factor: within(times(c.velocityConstant_factor), 0.2, 5) };
    case 'winding':
      return { ...c, windingResistance_factor: within(times(c.windingResistance_factor), 0.1, 50) };
    case 'pack':
      return { ...c, packResistance_factor: within(times(c.packResistance_factor), 0.1, 50) };
    case 'gap': {
      const gapAdded_mm = within(faults.gapAdded_mm + millimetresFromMetres(value), -20, 20);
      return { ...c, faults: { ...faults, gapAdded_mm } };
    }
    case 'blocked':
      return { ...c, faults: { ...faults, blockedLoss: within(faults.blockedLoss + value, 0, 20) } };
    case 'backward':
    case 'upside down':
      return { ...c, faults: { ...faults, turn: id } };
    case 'limit':
    case 'part throttle':
    case 'scale':
    case 'pan':
      return c;
  }
}

/** What the next build starts from: the truths of printer, motor and pack, without the faults of the one before. */
export const inheritedCalibration = (c: Calibration): Calibration => ({
  ...c,
  faults: calibrationSchema.parse({}).faults,
});

/** A design for the next build, its predecessor's faults left behind. */
export const inheritedDesign = <D extends Design>(design: D): D => ({
  ...design,
  calibration: inheritedCalibration(design.calibration),
});

/**
 * Takes a cause as true. What belongs to printer, motor or pack goes into the working design and into the build it was
 * learned on; a fault of one build goes into that build alone; what belongs to the bench changes no model and is only
 * written down. Without a build a fault goes into the working design, to be left behind by `inheritedDesign`.
 * `buildId` must be one of the project's builds; others change nothing.
 */
export function acceptCause(project: Project, cause: AcceptedCause, buildId: string | null): Accepted {
  const inherited = cause.belongsTo !== 'build' && cause.belongsTo !== 'bench';
  const learned = learnedWords(cause, project.calibration);
  const builds = project.builds.map((build) =>
    build.id === buildId
      ? {
          ...build,
          design: { ...build.design, calibration: withCause(build.design.calibration, cause) },
          learned: [...build.learned, learned],
        }
      : build,
  );
  const own = inherited || buildId === null;
  return {
    project: {
      ...project,
      calibration: own ? withCause(project.calibration, cause) : project.calibration,
      builds,
    },
    learned,
    inherited,
  };
}

const BELONGS: Record<CauseSpec['belongsTo'], string> = {
  printer: 'A truth of this printer: the next build inherits it.',
  motor: 'A truth of this motor: the next build inherits it.',
  battery: 'A truth of this pack: the next build inherits it.',
  build: 'A fault of this build: put it right; the next build does not inherit it.',
  bench: 'A matter of the bench: no model changes; read again with it put right.',
};

function learnedWords({ id, name, value, belongsTo }: AcceptedCause, before: Calibration): string {
  const after = withCause(before, { id, value });
  const set = changedKeys(before, after);
  return `${name}${set ? ` (${set})` : ''}. ${BELONGS[belongsTo]}`;
}

/** "blade angle −4.2 deg" for what a cause changed. */
function changedKeys(before: Calibration, after: Calibration): string {
  const flat = (c: Calibration) => ({ ...c, ...c.faults, faults: undefined }) as Record<string, unknown>;
  const [a, b] = [flat(before), flat(after)];
  return Object.keys(b)
    .filter((key) => b[key] !== a[key])
    .map((key) => {
      const [name, unit] = key.split('_');
      const words = name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
      const value = typeof b[key] === 'number' ? n(b[key], 3) : String(b[key]);
      return unit && unit !== 'ratio' ? `${words} ${value} ${unit}` : `${words} ${value}`;
    })
    .join(', ');
}

/** Whether the bench has taught this design anything yet. */
export const isCalibrated = ({ calibration }: Pick<Design, 'calibration'>): boolean =>
  changedKeys(PLAIN_CALIBRATION, calibration) !== '';
