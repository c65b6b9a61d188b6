import { useState, type KeyboardEvent } from 'react';
import type { SizeCell, SizeMark, SizeStudy } from '../../study/size-types.ts';
import { alongTips, SIZE_LETTERS, SIZE_MARKS } from '../../study/size-words.ts';

export const mm = (length: number): string => String(Number(length.toFixed(1)));
export const motorLetter = (place: number): string =>
  (place < 26 ? '' : 'A') + String.fromCharCode(65 + (place % 26));

/** Marks of one kind share a pattern: what one looks for, what flies, what has no room, what is overloaded, what is too weak. */
const PATTERNS: Readonly<Record<SizeMark, string>> = {
  meets: 'as-full',
  time: 'as-part',
  margin: 'as-part',
  hub: 'as-slant',
  shape: 'as-slant',
  wide: 'as-slant',
  torque: 'as-dots',
  winding: 'as-dots',
  controller: 'as-dots',
  battery: 'as-dots',
  disc: 'as-ruled',
  slow: 'as-ruled',
  weak: 'as-ruled',
};

type Place = Pick<SizeCell, 'battery' | 'motor' | 'tipDiameter_mm'>;
const samePlace = (a: Place | null, b: Place): boolean =>
  a !== null && a.battery === b.battery && a.motor === b.motor && a.tipDiameter_mm === b.tipDiameter_mm;

/** A grid for each battery: motors down, tip diameters across; the cell under the pointer or in focus is explained below. */
export function SizeMap({ study }: { readonly study: SizeStudy }) {
  const { cells, motors, batteries } = study;
  const [chosen, choose] = useState<SizeCell | null>(null);
  const [pointed, point] = useState<SizeCell | null>(null);
  const kept = cells.find((cell) => samePlace(chosen, cell)) ?? null;
  const shown = cells.find((cell) => samePlace(pointed, cell)) ?? kept;
  const marks = (Object.keys(SIZE_MARKS) as SizeMark[]).filter((mark) => cells.some((c) => c.mark === mark));
  return (
    <>
      {batteries.map((battery, place) => (
        <div key={place} className="scroll size-map" onMouseLeave={() => point(null)}>
          <Grid
            study={study}
            battery={place}
            name={batteries.length > 1 ? `Battery ${place + 1}: ${battery.name}` : 'Tip diameter, mm'}
            chosen={kept}
            shown={shown}
            choose={choose}
            point={point}
          />
        </div>
      ))}
      <div className="size-why">
        {shown ? (
          <>
            <p>
              <strong>
                {mm(shown.tipDiameter_mm)} mm, {motors[shown.motor].name}
                {batteries.length > 1 ? `, ${batteries[shown.battery].name}` : ''}
              </strong>
            </p>
            <p>{shown.words}</p>
            <p className="soft">
              Along this row,{' '}
              {alongTips(cells.filter((c) => c.motor === shown.motor && c.battery === shown.battery))}.
            </p>
          </>
        ) : (
          <p className="soft">Point at a square, or move through them with the arrow keys, to read why.</p>
        )}
      </div>
      <dl className="size-legend" aria-label="What the letters mean">
        {marks.map((mark) => (
          <div key={mark}>
            <dt className={`size-cell ${PATTERNS[mark]}`}>
              <span>{SIZE_LETTERS[mark]}</span>
            </dt>
            <dd>
              here{' '}
              {mark === 'meets' || mark === 'time' || mark === 'margin'
                ? `it ${SIZE_MARKS[mark]}`
                : SIZE_MARKS[mark]}
            </dd>
          </div>
        ))}
      </dl>
    </>
  );
}

interface GridProps {
  readonly study: SizeStudy;
  readonly battery: number;
  readonly name: string;
  readonly chosen: SizeCell | null;
  readonly shown: SizeCell | null;
  readonly choose: (cell: SizeCell) => void;
  readonly point: (cell: SizeCell) => void;
}

function Grid({ study, battery, name, chosen, shown, choose, point }: GridProps) {
  const { tips_mm, motors, cells } = study;
  const rows = motors.map((_, motor) =>
    tips_mm.map((tip) => cells.find((c) => samePlace(c, { battery, motor, tipDiameter_mm: tip })) ?? null),
  );
  const first = rows.flat().find((cell) => cell !== null) ?? null;
  const stop = chosen?.battery === battery ? chosen : first;
  const move = (event: KeyboardEvent<HTMLElement>, row: number, column: number) => {
    const [down, right] = STEPS[event.key] ?? [0, 0];
    const to = event.key === 'Home' ? 0 : event.key === 'End' ? tips_mm.length - 1 : column + right;
    if (to === column && down === 0) return;
    event.preventDefault();
    event.currentTarget
      .closest('table')
      ?.querySelector<HTMLElement>(`[data-at="${row + down} ${to}"]`)
      ?.focus();
  };
  return (
    <table role="grid" aria-label={name === 'Tip diameter, mm' ? 'Which size would do' : name}>
      <thead>
        <tr>
          <th scope="col">{name}</th>
          {tips_mm.map((tip) => (
            <th key={tip} scope="col">
              {mm(tip)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, motor) => (
          <tr key={motor}>
            <th scope="row">
              <b>{motorLetter(motor)}</b> {motor === 0 ? 'yours: ' : ''}
              {motors[motor].name}
            </th>
            {row.map((cell, column) =>
              cell ? (
                <td
                  key={cell.tipDiameter_mm}
                  role="gridcell"
                  data-at={`${motor} ${column}`}
                  tabIndex={stop && samePlace(stop, cell) ? 0 : -1}
                  aria-label={`${mm(cell.tipDiameter_mm)} mm, motor ${motorLetter(motor)}. ${cell.words}`}
                  aria-selected={shown !== null && samePlace(shown, cell)}
                  className={`size-cell ${PATTERNS[cell.mark]}${row[column + 1] && row[column + 1]?.mark !== cell.mark ? ' ends-right' : ''}${rows[motor + 1]?.[column] && rows[motor + 1][column]?.mark !== cell.mark ? ' ends-below' : ''}`}
                  onFocus={() => choose(cell)}
                  onMouseEnter={() => point(cell)}
                  onKeyDown={(event) => move(event, motor, column)}
                >
                  <span>{SIZE_LETTERS[cell.mark]}</span>
                </td>
              ) : (
                <td key={column} className="size-cell" aria-label="not looked at" />
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const STEPS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
};
