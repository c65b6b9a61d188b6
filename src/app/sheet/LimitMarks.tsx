import type { LimitHere } from '../../assess/types.ts';
import { metresFromMillimetres } from '../../quantities/units.ts';
import { xOf, yOf, type Frame } from './frame.ts';

interface Props {
  readonly limits: readonly LimitHere[];
  readonly frame: Frame;
  /** Where the blade ends downstream [m]. */
  readonly bladeZ: number;
}

/** Rows of text closer than this would touch [px]. */
const ROW = 14;

/** Where on the blade a loading limit is passed: a tick at its radius with its name; the whole sentence in its title. */
export function LimitMarks({ limits, frame, bladeZ }: Props) {
  const x = xOf(frame, bladeZ);
  const rows = limits
    .map((limit) => ({ limit, y: yOf(frame, metresFromMillimetres(limit.radius_mm)) }))
    .sort((a, b) => a.y - b.y);
  const textRows = rows.reduce<readonly number[]>(
    (placed, { y }) => [...placed, Math.max(y, (placed.at(-1) ?? -Infinity) + ROW)],
    [],
  );
  return (
    <g className="limits">
      {rows.map(({ limit, y }, i) => {
        const textY = textRows[i];
        const long = limit.kind.length * 6.4 + 6;
        return (
          <g key={limit.kind}>
            <title>{limit.text}</title>
            <path className="limit-tick" d={`M${x - 10} ${y}H${x + 3}L${x + 9} ${textY}`} />
            <rect className="chip" x={x + 9} y={textY - 8} width={long} height={15} />
            <text x={x + 12} y={textY + 4}>
              {limit.kind}
            </text>
          </g>
        );
      })}
    </g>
  );
}
