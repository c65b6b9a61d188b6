import { formatMinutes, formatNumber as n, formatPercent } from '../quantities/format.ts';
import type { BatteryChoice, BatteryStudy } from '../study/battery-choice.ts';
import type { DuctOrOpen, WidthChoice } from '../study/duct-or-open.ts';
import type { StandResult } from '../study/layouts.ts';
import type { MassPlace } from '../study/mass-place.ts';
import { bullet, columns } from './text.ts';

const mm = (length: number): string => String(Math.round(length));

/** A heading with its sentences, and a table under them. */
export const section = (title: string, words: readonly string[], table = ''): string =>
  `\n${title}\n${words.map((text) => bullet(text)).join('')}${table && words.length > 0 ? '\n' : ''}${table}`;

/** Items with their heights. */
export const massTable = ({ items }: MassPlace): string =>
  columns([
    ['item', 'mass g', 'below the rotors mm'],
    ...items.map((i) => [
      i.name,
      n(i.mass_g),
      n(Math.abs(i.belowRotors_mm) < 0.05 ? 0 : i.belowRotors_mm, 2),
    ]),
  ]);

/** Every fourth size of the curve, which is enough to see its course, and the marked ones. */
export function batteryTable({ curve, now, longest, longestKept }: BatteryStudy): string {
  const marked: readonly [BatteryChoice | null, string][] = [
    [now, 'as it is'],
    [longest, 'longest'],
    [longestKept === longest ? null : longestKept, 'longest that keeps its thrust'],
  ];
  const rows = [
    ...curve.filter((_, i) => i % 4 === 0).map((choice) => ({ choice, note: '' })),
    ...marked.flatMap(([choice, note]) => (choice ? [{ choice, note }] : [])),
  ].sort((a, b) => a.choice.capacity_mAh - b.choice.capacity_mAh);
  return columns(
    [
      ['mAh', 'g', 'of the craft', 'thrust/weight', 'hover', ''],
      ...rows.map(({ choice: c, note }) => [
        n(c.capacity_mAh),
        n(c.mass_g),
        formatPercent(c.share),
        n(c.thrustToWeight),
        c.hover_min > 0 ? formatMinutes(c.hover_min) : '-',
        note,
      ]),
    ],
    [5],
  );
}

/** Duct and open rotor side by side over the outer width. */
export function widthTable({ pairs }: DuctOrOpen): string {
  const cells = (choice: WidthChoice | null) =>
    choice
      ? [
          mm(choice.tipDiameter_mm),
          n(choice.mass_g),
          n(choice.thrustToWeight),
          choice.hoverPower_W === null ? '-' : n(choice.hoverPower_W),
          choice.hover_min > 0 ? formatMinutes(choice.hover_min) : '-',
        ]
      : ['-', '-', '-', '-', '-'];
  const head = ['tips mm', 'g', 'thrust/weight', 'W', 'hover'];
  return columns(
    [
      [
        'width mm',
        ...head.map((h, i) => (i === 0 ? `ducted: ${h}` : h)),
        ...head.map((h, i) => (i === 0 ? `open: ${h}` : h)),
      ],
      ...pairs.map((p) => [mm(p.outerWidth_mm), ...cells(p.ducted), ...cells(p.open)]),
    ],
    [],
  );
}

/** Ducted, open, and open in a ring guard at the width nearest to the duct as drawn. */
export function hereTable({ here }: DuctOrOpen): string {
  if (!here) return '';
  const row = (name: string, c: WidthChoice | null) =>
    c
      ? [
          name,
          mm(c.tipDiameter_mm),
          n(c.mass_g),
          n(c.thrustToWeight),
          c.hover_min > 0 ? formatMinutes(c.hover_min) : '-',
          n(c.discLoading_Npm2),
          c.level_dBA === null ? '-' : String(Math.round(c.level_dBA.value)),
        ]
      : [name, '-', '-', '-', '-', '-', '-'];
  return (
    '\n' +
    columns([
      [
        `in ${mm(here.outerWidth_mm)} mm`,
        'tips mm',
        'g',
        'thrust/weight',
        'hover',
        'disc N/m²',
        'dB(A) at 3 m',
      ],
      row('ducted', here.ducted),
      row('open', here.open),
      row('open in a ring guard', here.guarded),
    ])
  );
}

/** Stands side by side. */
export const standTable = (stands: readonly StandResult[]): string =>
  columns(
    [
      [
        'fans',
        'stand',
        'battery',
        'gap, lean',
        'g',
        'thrust/weight',
        'hover',
        'climb m/s',
        'tips rad/s²',
        'span mm',
        'one print',
      ],
      ...stands.map((s) => [
        String(s.fanCount),
        s.layout,
        s.battery,
        `${mm(s.ductSpacing_mm)}, ${mm(s.tilt_deg)}°`,
        n(s.mass_g),
        n(s.thrustToWeight),
        s.hover_min > 0 ? formatMinutes(s.hover_min) : '-',
        s.climb_mps > 0 ? n(s.climb_mps, 2) : '-',
        tipping(s),
        `${mm(s.length_mm)} x ${mm(s.width_mm)}`,
        s.onePieceFits ? 'fits' : 'too large',
      ]),
    ],
    [1, 2, 10],
  );

function tipping({ hover_min, without, acceleration_radps2: a }: StandResult): string {
  const lost = without.filter((axis) => axis !== 'yaw');
  if (lost.length > 0) return `no ${lost.join(', ')}`;
  if (!(hover_min > 0)) return '-';
  return n(Math.min(a.roll, a.pitch), 2) + (without.includes('yaw') ? ', no yaw' : '');
}
