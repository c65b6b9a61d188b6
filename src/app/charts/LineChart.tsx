import type { ReactNode } from 'react';
import { useSize } from '../frame/useSize.ts';
import { linePath, roundTicks } from './scale.ts';

const PAD = { left: 36, right: 14, top: 16, bottom: 34 };

type Point = readonly [x: number, y: number | null];

export interface Line {
  readonly points: readonly Point[];
  readonly dashed?: boolean;
  readonly dotted?: boolean;
}

/** A point worth a name. `below`: its words stand under it. */
export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly words: string;
  readonly hollow?: boolean;
  readonly below?: boolean;
}

interface Props {
  /** The chart in a sentence, for those who do not see it. */
  readonly story: string;
  readonly caption: ReactNode;
  readonly xName: string;
  readonly yName: string;
  readonly from: number;
  readonly to: number;
  readonly lines: readonly Line[];
  readonly spots: readonly Spot[];
  /** A level to hold against. */
  readonly level?: { readonly y: number; readonly words: string };
}

/** Lines over one quantity, from 0 upward; a gap where there is no value. */
export function LineChart({ story, caption, ...plot }: Props) {
  const [watch, size] = useSize();
  return (
    <figure className="lines" aria-label={story}>
      <figcaption>{caption}</figcaption>
      <div className="plot" ref={watch}>
        {size && size.height > 60 && <Plot {...plot} {...size} />}
      </div>
    </figure>
  );
}

type PlotProps = Omit<Props, 'story' | 'caption'> & { readonly width: number; readonly height: number };

function Plot({ xName, yName, from, to, lines, spots, level, width, height }: PlotProps) {
  const values = lines.flatMap(({ points }) => points.map(([, y]) => y ?? 0));
  const ticks = roundTicks(Math.max(level?.y ?? 0, ...values, ...spots.map((s) => s.y)) * 1.05, 4);
  const highest = ticks[ticks.length - 1];
  const x = (at: number) => PAD.left + ((at - from) / (to - from)) * (width - PAD.left - PAD.right);
  const y = (at: number) => height - PAD.bottom - (at / highest) * (height - PAD.top - PAD.bottom);
  const alongAll = roundTicks(to, width < 380 ? 4 : 6).filter((t) => t >= from && t <= to);
  return (
    <svg width={width} height={height} aria-hidden="true">
      {ticks.map((t) => (
        <g key={t}>
          <path className="grid" d={`M${PAD.left} ${y(t)}H${width - PAD.right}`} />
          <text className="soft" x={PAD.left - 6} y={y(t) + 4} textAnchor="end">
            {t}
          </text>
        </g>
      ))}
      {alongAll.map((t) => (
        <text key={t} className="soft" x={x(t)} y={height - PAD.bottom + 15} textAnchor="middle">
          {t}
        </text>
      ))}
      <text className="soft" x={width - PAD.right} y={height - 4} textAnchor="end">
        {xName}
      </text>
      <text className="soft" x={2} y={height - 4}>
        {yName}
      </text>
      {level && (
        <>
          <path className="need thin" d={`M${PAD.left} ${y(level.y)}H${width - PAD.right}`} />
          <text className="soft" x={width - PAD.right - 2} y={y(level.y) - 5} textAnchor="end">
            {level.words}
          </text>
        </>
      )}
      {lines.flatMap(({ points, dashed, dotted }, i) =>
        runsOf(points).map((run, k) => (
          <path
            key={`${i}.${k}`}
            className={dashed ? 'curve dashed' : dotted ? 'curve dotted' : 'curve'}
            d={linePath(run.map(([px, py]) => [x(px), y(py)] as const))}
          />
        )),
      )}
      {spots.map((spot) => {
        const [px, py] = [x(spot.x), y(spot.y)];
        const late = px > width * 0.6;
        return (
          <g key={spot.words}>
            <circle className={spot.hollow ? 'point full' : 'point'} cx={px} cy={py} r={4} />
            <text
              x={px + (late ? -8 : 8)}
              y={py + (spot.below ? 17 : -7)}
              textAnchor={late ? 'end' : 'start'}
            >
              {spot.words}
            </text>
          </g>
        );
      })}
    </svg>
  );
}

/** The stretches without a gap. */
function runsOf(points: readonly Point[]): (readonly [number, number])[][] {
  const runs: (readonly [number, number])[][] = [[]];
  for (const [x, y] of points) {
    if (y !== null) runs[runs.length - 1].push([x, y]);
    else if (runs[runs.length - 1].length > 0) runs.push([]);
  }
  return runs.filter((run) => run.length > 1);
}
