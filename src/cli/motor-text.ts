import type { MeasuredMotor } from '../drive/motor-readings.ts';
import type { TypicalMotor } from '../drive/typical-motor.ts';
import { formatNumber as n } from '../quantities/format.ts';
import type { Interval } from '../quantities/interval.ts';
import type { LargerFan } from '../study/larger-fan-types.ts';
import { columns } from './text.ts';

/** The same fan at other sizes, a row each. */
export function sizeTable({ sizes }: LargerFan): string {
  const temperature = (value: number | null) => (value === null ? '-' : value > 250 ? 'burnt' : n(value, 2));
  return columns(
    [
      [
        'tips mm',
        'all up g',
        'thrust/weight',
        'for minutes',
        'hover throttle',
        'hover A',
        'full A',
        'hover °C',
        'full °C',
        'binds first',
      ],
      ...sizes.map((s) => [
        n(s.tipDiameter_mm),
        n(s.mass_g),
        n(s.thrustToWeight),
        n(s.usableThrustToWeight),
        s.lifts && s.hoverThrottle !== null ? n(s.hoverThrottle, 2) : '-',
        s.hoverCurrent_A === null ? '-' : n(s.hoverCurrent_A, 2),
        n(s.fullCurrent_A, 2),
        temperature(s.hoverWinding_C),
        temperature(s.fullWinding_C),
        s.binding?.kind ?? 'nothing',
      ]),
    ],
    [9],
  );
}

const spread = ({ value, low, high }: Interval, unit: string, digits = 4): [string, string] => [
  `${n(value, digits)}${unit && ' ' + unit}`,
  `(${n(low, digits)} to ${n(high, digits)})`,
];

/** Constants from readings. */
export function measuredTable(m: MeasuredMotor): string {
  return columns(
    [
      ['Speed for each volt', ...spread(m.velocityConstant_rpmPerV, 'rpm/V')],
      ['Torque for each ampere', ...milli(m.torqueConstant_NmpA)],
      ['Resistance at 20 °C', ...spread(m.resistance_mohm, 'mΩ')],
      [`No-load current at ${n(m.noLoadVoltage_V)} V`, ...spread(m.noLoadCurrent_A, 'A', 3)],
      m.noLoadSteady_ratio
        ? ['  of it steady (share)', ...spread(m.noLoadSteady_ratio, '', 2)]
        : ['  of it steady (share)', '0.50', '(assumed)'],
    ],
    [0, 2],
  );
}

const milli = ({ value, low, high }: Interval) =>
  spread({ value: value * 1000, low: low * 1000, high: high * 1000 }, 'mN m/A');

/** What is usual for a stator. */
export function typicalTable(t: TypicalMotor): string {
  return columns(
    [
      ['Resistance', ...spread(t.resistance_mohm, 'mΩ', 2)],
      [`No-load current at ${n(t.noLoadVoltage_V, 2)} V`, ...spread(t.noLoadCurrent_A, 'A', 2)],
      ['Current for minutes', ...spread(t.continuousCurrent_A, 'A', 2)],
      ['Current for seconds', ...spread(t.burstCurrent_A, 'A', 2)],
      ['Mass', ...spread(t.mass_g, 'g', 2)],
      ['Can diameter', ...spread(t.canDiameter_mm, 'mm', 2)],
      ['Can height', ...spread(t.canHeight_mm, 'mm', 2)],
    ],
    [0, 2],
  );
}
