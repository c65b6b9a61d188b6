import type { Air } from '../src/air/atmosphere.ts';
import { atmosphere } from '../src/air/atmosphere.ts';
import { runFan } from '../src/air/fan.ts';
import { rotorOfTable, type RotorAir } from '../src/air/rotor.ts';
import type { SectionConstants } from '../src/air/section-constants.ts';
import { angularSpeedFromRpm, radiansFromDegrees } from '../src/quantities/units.ts';
import { readTable } from './data.ts';

/** A research rotor whose shape and measurements are published. */
export interface MeasuredRotor {
  readonly id: string;
  readonly words: string;
  /** File of its geometry; rotors of one geometry are left out of a fit together. */
  readonly geometry: string;
  readonly measured: string;
  readonly blades: number;
  readonly diameter: number;
  readonly section: 'first' | 'second';
  readonly advance?: boolean;
}

const rotor = (
  geometry: string,
  blades: number,
  words: string,
  section: MeasuredRotor['section'],
  diameter = 0.127,
): MeasuredRotor => ({
  id: `${geometry}-${blades}`.replace(/[_.]/g, '-'),
  words,
  geometry,
  measured: `${geometry}_${blades}blades_static.csv`,
  blades,
  diameter,
  section,
});

export const STATIC_ROTORS: readonly MeasuredRotor[] = [
  rotor('da4002_5.0x1.58', 2, 'DA4002 5.0x1.58, two blades', 'first'),
  rotor('da4002_5.0x3.75', 2, 'DA4002 5.0x3.75, two blades', 'first'),
  rotor('da4002_9.0x6.75', 2, 'DA4002 9.0x6.75, two blades', 'first', 0.2286),
  rotor('da4022_5.0x3.75', 2, 'DA4022 5.0x3.75, two blades', 'first'),
  rotor('da4022_5.0x3.75', 4, 'DA4022 5.0x3.75, four blades', 'first'),
  rotor('nr640_5x3.16', 2, 'NR640 5x3.16, two blades', 'second'),
  rotor('nr640_5x3.16', 4, 'NR640 5x3.16, four blades', 'second'),
];

export const ADVANCE_ROTOR: MeasuredRotor = {
  ...rotor('da4002_5.0x3.75', 2, 'DA4002 5.0x3.75, two blades, in axial flow', 'first'),
  id: 'da4002-advance',
  measured: 'da4002_5.0x3.75_2blades_advance.csv',
  advance: true,
};

/** Thickness of the two sections (from memory); their camber is part of a fit. */
const THICKNESS = { first: 0.1, second: 0.117 };

/** One set of fitted constants with the cambers found in the same fit. */
export interface SectionFit {
  readonly constants: SectionConstants;
  readonly camber: Readonly<Record<MeasuredRotor['section'], number>>;
}

/** One measured running point: CT = T / (rho n^2 D^4), CP = P / (rho n^3 D^5), J = V / (n D). */
export interface MeasuredPoint {
  readonly rpm: number;
  readonly J: number;
  readonly CT: number;
  readonly CP: number;
}

export function measuredPoints({ measured, advance }: MeasuredRotor): MeasuredPoint[] {
  const table = readTable(measured);
  const [rpm, CT, CP] = ['rpm', 'CT', 'CP'].map((name) => table.column(name));
  const J = advance ? table.column('J') : rpm.map(() => 0);
  return rpm.map((speed, i) => ({ rpm: speed, J: J[i], CT: CT[i], CP: CP[i] }));
}

/** The blade of a measured rotor, cut into `annuli`. */
export function bladeOf(
  { geometry, diameter, blades, section }: MeasuredRotor,
  camber: number,
  angleError_deg = 0,
  annuli?: number,
): RotorAir {
  const table = readTable(`${geometry}_geometry.csv`);
  const inRadii = (name: string) => table.column(name).map((ratio) => (ratio * diameter) / 2);
  return rotorOfTable(
    {
      radius: inRadii('r_R'),
      chord: inRadii('c_R'),
      angle: table.column('beta_deg').map((angle) => radiansFromDegrees(angle + angleError_deg)),
      thickness: THICKNESS[section],
      camber,
      camberPosition: 0.4,
    },
    blades,
    annuli,
  );
}

/** Computed CT and CP at a measured point, in the air of a standard day at sea level. */
export function computedPoint(
  blade: RotorAir,
  diameter: number,
  { rpm, J }: Pick<MeasuredPoint, 'rpm' | 'J'>,
  constants?: SectionConstants,
  air: Air = atmosphere(0),
): { readonly CT: number; readonly CP: number } {
  const n = rpm / 60;
  const run = runFan(blade, null, air, {
    omega: angularSpeedFromRpm(rpm),
    axialSpeed: J * n * diameter,
    constants,
  });
  return {
    CT: run.thrust / (air.density * n ** 2 * diameter ** 4),
    CP: run.shaftPower / (air.density * n ** 3 * diameter ** 5),
  };
}
