import { levelWords } from '../sound/words.ts';
import type { Project } from '../project/schema.ts';
import { formatMinutes, formatNumber as n } from '../quantities/format.ts';
import { spreadOf } from '../study/size-front.ts';
import type { SizeDesign, SizeMark, SizeStudy } from '../study/size-types.ts';
import { alongTips, SIZE_LETTERS, SIZE_MARKS } from '../study/size-words.ts';
import { bullet, columns, wrap } from './text.ts';

/** Most designs of the front that are printed. */
export const FRONT_ROWS = 8;

/** Most columns that are explained one by one. */
const EXPLAINED = 6;

const mm = (length: number): string => String(Number(length.toFixed(1)));
const letter = (place: number): string => String.fromCharCode(65 + place);

/** Map, front and sentences. */
export function sizeText(project: Project, study: SizeStudy): string {
  const { motors, batteries, front } = study;
  const marks = new Set(study.cells.map((c) => c.mark));
  const legend = (Object.keys(SIZE_LETTERS) as SizeMark[])
    .filter((mark) => marks.has(mark))
    .map((mark) => `  ${SIZE_LETTERS[mark]}  ${SIZE_MARKS[mark]}\n`)
    .join('');
  const few = spreadOf(front, FRONT_ROWS);
  return (
    `${project.name}: ${study.fanCount} ${study.fanCount === 1 ? 'fan' : 'fans'}, plain ducted fans sized anew\n\n` +
    maps(study) +
    `\n${legend}` +
    named('Motors', motors) +
    named('Batteries', batteries) +
    '\n' +
    study.words.map((text) => wrap(text)).join('') +
    why(study) +
    (few.length > 0
      ? `\nThe front${few.length < front.length ? `, ${few.length} of ${front.length}` : ''}: none of these is beaten by another in all four of minutes, thrust, width, tip speed\n` +
        frontTable(few, study)
      : '')
  );
}

/** Rows of tip diameter; columns of motors, or of batteries where there is one motor. */
function maps({ tips_mm, motors, batteries, cells }: SizeStudy): string {
  const at = (battery: number, motor: number, tip: number) =>
    cells.find((c) => c.battery === battery && c.motor === motor && c.tipDiameter_mm === tip);
  const mark = (battery: number, motor: number, tip: number) => {
    const cell = at(battery, motor, tip);
    return cell ? SIZE_LETTERS[cell.mark] : '.';
  };
  if (motors.length === 1)
    return columns(
      [
        ['tips mm', ...batteries.map((_, b) => String(b + 1))],
        ...tips_mm.map((tip) => [mm(tip), ...batteries.map((_, b) => mark(b, 0, tip))]),
      ],
      [],
    );
  return batteries
    .map(
      (battery, b) =>
        (batteries.length > 1 ? `${b > 0 ? '\n' : ''}Battery ${b + 1}: ${battery.name}\n` : '') +
        columns(
          [
            ['tips mm', ...motors.map((_, m) => letter(m))],
            ...tips_mm.map((tip) => [mm(tip), ...motors.map((_, m) => mark(b, m, tip))]),
          ],
          [],
        ),
    )
    .join('');
}

function named(title: string, parts: readonly { readonly name: string }[]): string {
  const sign = title === 'Motors' ? letter : (place: number) => String(place + 1);
  return `\n${title}\n${parts.map(({ name }, i) => `  ${sign(i)}  ${name}\n`).join('')}`;
}

/** The regions along the tips in words, where there are few columns; with one column each size with its figures. */
function why({ cells, motors, batteries }: SizeStudy): string {
  const pairs = motors.length * batteries.length;
  if (pairs === 1)
    return `\nWhy\n${cells.map((c) => bullet(`${mm(c.tipDiameter_mm)} mm: ${c.words}`)).join('')}`;
  if (pairs > EXPLAINED) return '';
  const texts = batteries.flatMap((_, b) =>
    motors.map((__, m) => {
      const name = [
        ...(motors.length > 1 ? [letter(m)] : []),
        ...(batteries.length > 1 ? [`battery ${b + 1}`] : []),
      ].join(' on ');
      return `${name}: ${alongTips(cells.filter((c) => c.motor === m && c.battery === b))}.`;
    }),
  );
  return `\nAlong the tips\n${texts.map((text) => bullet(text)).join('')}`;
}

function frontTable(designs: readonly SizeDesign[], { motors, batteries }: SizeStudy): string {
  const some = [
    ...(motors.length > 1 ? [{ head: 'motor', of: (d: SizeDesign) => letter(d.motor) }] : []),
    ...(batteries.length > 1 ? [{ head: 'battery', of: (d: SizeDesign) => String(d.battery + 1) }] : []),
  ];
  return columns(
    [
      [
        'row',
        'hover',
        'thrust/weight',
        'width mm',
        'dB(A) at 3 m',
        'tips mm',
        'hub mm',
        'blades',
        'mass g',
        ...some.map((s) => s.head),
      ],
      ...designs.map((d, i) => [
        String(i + 1),
        formatMinutes(d.hover_min),
        n(d.thrustToWeight),
        mm(d.outerWidth_mm),
        d.level_dBA ? levelWords(d.level_dBA, '').replace(' ', '') : '-',
        mm(d.tipDiameter_mm),
        mm(d.hubDiameter_mm),
        String(d.bladeCount),
        n(d.mass_g),
        ...some.map((s) => s.of(d)),
      ]),
    ],
    [],
  );
}
