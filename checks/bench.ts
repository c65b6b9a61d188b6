import { readFileSync } from 'node:fs';
import { atmosphere } from '../src/air/atmosphere.ts';
import { importTable } from '../src/bench/import.ts';
import { reduceRun } from '../src/bench/reduce.ts';
import type { Reduced } from '../src/bench/types.ts';
import { copperFactor } from '../src/drive/motor.ts';
import { benchRunSchema } from '../src/project/bench.ts';
import { readProject } from '../src/project/read.ts';
import type { Project } from '../src/project/schema.ts';
import { rpmFromAngularSpeed } from '../src/quantities/units.ts';
import type { Check, Point, Topic } from './check.ts';
import { readTable } from './data.ts';
import { fitStand, standRows } from './motor-fit.ts';
import { measuredPoints, STATIC_ROTORS, type MeasuredRotor } from './rotor-data.ts';

const STAND =
  'Public thruststand_test data set, 2020: static stand run of a small brushless motor with a 2-inch four-blade propeller, all 21 rows as published.';
const UIUC =
  'UIUC Propeller Data Site, volume 2; Deters, Ananda and Selig, AIAA 2014-2151: CT and CP at rest over speed.';

/** The demo craft with an open rotor of this diameter: only diameter and kind enter what is checked here. */
function projectWith(tipDiameter_mm: number): Project {
  const read = readProject(
    readFileSync(new URL('../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url)),
  );
  if (!read.ok) throw new Error('the demo project does not read');
  return { ...read.project, fan: { ...read.project.fan, kind: 'open', tipDiameter_mm } };
}

/** A log taken and reduced as a user's would be, in the air of a standard day at sea level. */
function reduced(text: string, project: Project): Reduced {
  const log = importTable(text);
  if (!log.ok) throw new Error(log.message);
  const run = { rig: { kind: 'load cell' }, rows: log.rows, air: { temperature_C: 15, altitude_m: 0 } };
  return reduceRun(project, benchRunSchema.parse(run));
}

const standLog = () => readFileSync(new URL('data/stand_3cells.csv', import.meta.url), 'utf8');

const stand = () => reduced(standLog(), projectWith(50.8));

function againstColumn(name: string, ours: (point: Reduced['points'][number]) => number): Point[] {
  const table = readTable('stand_3cells.csv');
  const theirs = table.column(name);
  const rpm = table.column('rpm_elec');
  return stand().points.map((point) => {
    const row = point.rows[0];
    return { at: `${rpm[row]} rpm`, x: rpm[row], ours: ours(point), theirs: theirs[row] };
  });
}

/** Thrust and torque behind published coefficients, written as a log with steps and decimal commas, and reduced again. */
function roundTrip(rotor: MeasuredRotor, which: 'CT' | 'CP'): Point[] {
  const measured = measuredPoints(rotor);
  const { density } = atmosphere(0, 15);
  const comma = (value: number, digits: number) => value.toFixed(digits).replace('.', ',');
  const lines = measured.map(({ rpm, CT, CP }) => {
    const n = rpm / 60;
    const thrust = CT * density * n ** 2 * rotor.diameter ** 4;
    const torque = (CP * density * n ** 2 * rotor.diameter ** 5) / (2 * Math.PI);
    return `${comma(n, 3)};${comma(thrust * 1000, 1)};${comma(torque * 1000, 3)};`;
  });
  const log = `\ufeff# ${rotor.words}\r\nspeed (Hz);thrust (mN);torque (mNm);note\r\n${lines.join('\r\n')}\r\n`;
  return reduced(log, projectWith(rotor.diameter * 1000)).points.map((point) => {
    const row = measured[point.rows[0]];
    return {
      at: `${Math.round(row.rpm)} rpm`,
      x: row.rpm,
      ours: (which === 'CT' ? point.ct : point.cp)!.value,
      theirs: row[which],
    };
  });
}

/** The motor of the stand with the constants its own rows gave, half of the rows held out. */
function motorTorque(): Point[] {
  const rows = standRows();
  const { supply } = fitStand(
    rows.filter((_, i) => i % 2 === 0),
    rows[rows.length - 1],
    0.17,
  );
  const { motor } = supply;
  const cold = motor.resistance / copperFactor(60);
  const base = projectWith(50.8);
  const project: Project = {
    ...base,
    motor: {
      ...base.motor,
      velocityConstant_rpmPerV: rpmFromAngularSpeed(motor.velocityConstant),
      resistance_mohm: cold * 1000,
      noLoadCurrent_A: motor.noLoadCurrent,
      noLoadVoltage_V: motor.noLoadSpeed / motor.velocityConstant + motor.noLoadCurrent * cold,
      noLoadSteady_ratio: motor.steadyShare,
    },
    controller: {
      ...base.controller,
      resistance_mohm: 0,
      switchingLoss_ratio: 0,
      rippleLoss_S: supply.rippleLoss,
    },
  };
  const blind = rows
    .filter((_, i) => i % 2 === 1)
    .map(({ rpm, voltage, current }) => `${rpm},100,${voltage},${current}`);
  const { points } = reduced(`rpm,thrust (g),V,A\n${blind.join('\n')}\n`, project);
  return points.map((point) => {
    const row = rows.find(({ rpm }) => Math.abs(rpm - point.rpm!.value) < 1)!;
    return {
      at: `${row.rpm} rpm`,
      x: row.rpm,
      ours: point.torque_Nm!.value * 1000,
      theirs: row.torque * 1000,
    };
  });
}

const large = STATIC_ROTORS.find(({ diameter }) => diameter > 0.2)!;
const small = STATIC_ROTORS.find(({ words }) => words.startsWith('NR640') && words.includes('four'))!;
const coefficient = (rotor: MeasuredRotor, which: 'CT' | 'CP', target: number): Check => ({
  id: `bench-${rotor.id}-${which.toLowerCase()}`,
  title: `${which} of ${rotor.words}, from a log with steps and decimal commas`,
  unit: '',
  source: UIUC,
  status: 'computed',
  points: () => roundTrip(rotor, which),
  target: { relative: target },
});

const checks: readonly Check[] = [
  {
    id: 'bench-stand-shaft',
    title: 'Shaft power of a stand run, from its raw rows',
    unit: 'W',
    source: `${STAND} Their own column of mechanical power.`,
    status: 'read',
    points: () => againstColumn('P_mech_W', (point) => point.shaftPower_W!.value),
    target: { relative: 0.002 },
    axis: 'rpm',
  },
  {
    id: 'bench-stand-electrical',
    title: 'Electrical power of that run, from its raw rows',
    unit: 'W',
    source: `${STAND} Their own column of electrical power.`,
    status: 'read',
    points: () => againstColumn('P_elec_W', (point) => point.electricalPower_W!.value),
    target: { relative: 0.002 },
  },
  {
    id: 'bench-stand-efficiency',
    title: 'Shaft over electrical power of its last row, 43 057 rpm',
    unit: '',
    source: `${STAND} Mechanical over electrical power of the last row (computed): 44.647 W over 68.586 W.`,
    status: 'computed',
    points: () => {
      const last = stand().points.at(-1)!;
      return [
        { at: '43 057 rpm', ours: last.shaftPower_W!.value / last.electricalPower_W!.value, theirs: 0.651 },
      ];
    },
    target: { relative: 0.002 },
  },
  {
    id: 'bench-stand-torque',
    title: 'Torque from volts, amps and speed by the motor, rows that were not fitted',
    unit: 'mN m',
    source: STAND,
    status: 'read',
    points: motorTorque,
    target: { relative: 0.05 },
    judged: 'mean',
    note: 'The constants of the motor come from every second row of the same run (with an assumed resistance); throttle and torque of the other rows are not used.',
    axis: 'rpm',
  },
  coefficient(large, 'CT', 0.003),
  coefficient(large, 'CP', 0.003),
  coefficient(small, 'CT', 0.01),
  coefficient(small, 'CP', 0.01),
];

export const benchTopic: Topic = {
  id: 'bench',
  title: 'Bench readings reduced',
  intro:
    'Raw readings taken in as a user gives them (a table of text), reduced, and held against what was published of the same readings. The stand run is published raw, with its powers worked out. Of the research rotors only the coefficients are published: thrust and torque behind them were worked back for a standard day, rounded to 0.1 mN and 0.001 mN m, written with decimal commas and reduced again, so those rows guard reading, units, air and arithmetic, and say nothing of a rig.',
  checks,
};
