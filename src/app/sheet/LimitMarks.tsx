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
  const textRows = spread(rows.map(({ y }) => y));
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

/** Heights for rows of text that stand beside `y` (from the top down): far enough apart to read, moved upward where not. */
const spread = (y: readonly number[]): readonly number[] =>
  y.reduceRight<readonly number[]>(
    (placed, at) => [Math.min(at, (placed[0] ?? Infinity) - ROW), ...placed],
    [],
  );
