import type { Expected } from '../../bench/expected.ts';
import type { Reduced } from '../../bench/types.ts';
import type { Interval } from '../../quantities/interval.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import { linePath, roundTicks } from '../charts/scale.ts';
import { useSize } from '../frame/useSize.ts';

const PAD = { left: 38, right: 14, top: 12, bottom: 34 };

interface Props {
  readonly along: 'throttle' | 'rpm';
  readonly reduced: Reduced;
  readonly expected: Expected;
  readonly caption: string;
}

interface Mark {
  readonly x: number;
  readonly y: Interval;
}

/** Readings with their intervals on the predicted curve and its band. */
export function BenchChart({ along, reduced, expected, caption }: Props) {
  const [watch, size] = useSize();
  const marks: Mark[] = reduced.points.flatMap((p) => {
    const x = along === 'throttle' ? p.throttle : (p.rpm?.value ?? null);
    return x === null ? [] : [{ x, y: p.thrust_N }];
  });
  const curve: Mark[] =
    along === 'throttle'
      ? expected.byThrottle.map((p) => ({ x: p.throttle, y: p.thrust_N }))
      : expected.byRpm.map((p) => ({ x: p.rpm, y: p.thrust_N }));
  const end = curve.at(-1);
  const story = `${marks.length} readings; ${end ? `predicted at the end of the scale: ${n(end.y.value)} N` : 'no prediction'}.`;
  return (
    <figure className="bench-chart" aria-label={story}>
      <figcaption>{caption}</figcaption>
      <div className="plot" ref={watch}>
        {size && size.width > 120 && (
          <Plot {...{ along, marks, curve }} need={reduced.needed_N.value} {...size} />
        )}
      </div>
    </figure>
  );
}

interface PlotProps {
  readonly along: Props['along'];
  readonly marks: readonly Mark[];
  readonly curve: readonly Mark[];
  readonly need: number;
  readonly width: number;
  readonly height: number;
}

function Plot({ along, marks, curve, need, width, height }: PlotProps) {
  const all = [...marks, ...curve];
  const ticks = roundTicks(Math.max(need, ...all.map((m) => m.y.high)) * 1.03, 4);
  const highest = ticks[ticks.length - 1];
  const lowest = Math.min(0, ...marks.map((m) => m.y.low));
  const far = along === 'throttle' ? 1 : Math.max(1, ...all.map((m) => m.x));
  const x = (v: number) => PAD.left + (v / far) * (width - PAD.left - PAD.right);
  const y = (v: number) =>
    height - PAD.bottom - ((v - lowest) / (highest - lowest)) * (height - PAD.top - PAD.bottom);
  const band = [
    ...curve.map((m) => [x(m.x), y(m.y.high)] as const),
    ...[...curve].reverse().map((m) => [x(m.x), y(m.y.low)] as const),
  ];
  const alongTicks =
    along === 'throttle' ? [0, 0.25, 0.5, 0.75, 1] : roundTicks(far, 4).filter((t) => t <= far);
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
      {alongTicks.map((t) => (
        <text key={t} className="soft" x={x(t)} y={height - PAD.bottom + 15} textAnchor="middle">
          {along === 'throttle' ? Math.round(100 * t) : t}
        </text>
      ))}
      <text className="soft" x={width - PAD.right} y={height - 3} textAnchor="end">
        {along === 'throttle' ? 'throttle, %' : 'rpm'}
      </text>
      <text className="soft" x={2} y={height - 3}>
        thrust, N
      </text>
      <path className="band" d={linePath(band, true)} />
      <path className="curve" d={linePath(curve.map((m) => [x(m.x), y(m.y.value)] as const))} />
      <path className="need" d={`M${PAD.left} ${y(need)}H${width - PAD.right}`} />
      <text x={PAD.left + 6} y={y(need) - 5}>
        hover needs {n(need)} N
      </text>
      {marks.map((m, i) => (
        <g key={i} className="reading">
          <path d={`M${x(m.x)} ${y(m.y.low)}V${y(m.y.high)}`} />
          <circle cx={x(m.x)} cy={y(m.y.value)} r={4} />
        </g>
      ))}
    </svg>
  );
}
