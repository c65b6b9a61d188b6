import type { BuildRecord } from '../../bench/history.ts';
import type { Build } from '../../project/schema.ts';
import type { Interval } from '../../quantities/interval.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import { linePath, roundTicks } from '../charts/scale.ts';
import { useSize } from '../frame/useSize.ts';

const PAD = { left: 34, right: 12, top: 14, bottom: 34 };

interface Props {
  readonly builds: readonly Build[];
  readonly records: readonly BuildRecord[];
}

/** Thrust over weight from build to build: predicted as drawn, and measured. */
export function BuildsChart({ builds, records }: Props) {
  const [watch, size] = useSize();
  const shown = builds.flatMap((build) =>
    records.filter((r) => r.id === build.id).map((r) => ({ build, r })),
  );
  const story = shown
    .map(
      ({ build, r }) =>
        `${build.name || build.id}: predicted ${n(r.asDrawn.value, 2)}, ${r.measured ? `measured ${n(r.measured.thrustToWeight.value, 2)}` : 'not measured'}`,
    )
    .join('; ');
  return (
    <figure className="bench-chart" aria-label={`Thrust over weight. ${story}.`}>
      <figcaption>
        Thrust over weight at full throttle: <span className="key-drawn">predicted as drawn</span>,{' '}
        <span className="key-learned">with what the bench taught</span>,{' '}
        <span className="key-measured">measured</span>
      </figcaption>
      <div className="plot" ref={watch}>
        {size && size.width > 120 && <Plot shown={shown} {...size} />}
      </div>
    </figure>
  );
}

interface PlotProps {
  readonly shown: readonly { readonly build: Build; readonly r: BuildRecord }[];
  readonly width: number;
  readonly height: number;
}

function Plot({ shown, width, height }: PlotProps) {
  const highs = shown.flatMap(({ r }) => [
    r.asDrawn.high,
    r.asLearned.high,
    r.measured?.thrustToWeight.high ?? 0,
  ]);
  const ticks = roundTicks(Math.max(1.1, ...highs) * 1.03, 4);
  const top = ticks[ticks.length - 1];
  const step = (width - PAD.left - PAD.right) / Math.max(1, shown.length);
  const x = (i: number) => PAD.left + step * (i + 0.5);
  const y = (v: number) => height - PAD.bottom - (Math.max(0, v) / top) * (height - PAD.top - PAD.bottom);
  const apart = Math.min(14, step / 5);
  const bar = (at: number, i: Interval, kind: string) => (
    <g className={kind}>
      <path d={`M${at} ${y(i.low)}V${y(i.high)}`} />
      <circle cx={at} cy={y(i.value)} r={4.5} />
    </g>
  );
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
      <path className="need" d={`M${PAD.left} ${y(1)}H${width - PAD.right}`} />
      <path
        className="curve dashed"
        d={linePath(shown.map(({ r }, i) => [x(i) - apart, y(r.asDrawn.value)] as const))}
      />
      {shown.map(({ build, r }, i) => (
        <g key={build.id}>
          {bar(x(i) - apart, r.asDrawn, 'drawn-mark')}
          {r.asLearned.value !== r.asDrawn.value && bar(x(i), r.asLearned, 'learned-mark')}
          {r.measured && bar(x(i) + apart, r.measured.thrustToWeight, 'reading')}
          {(shown.length < 9 || i % Math.ceil(shown.length / 8) === 0) && (
            <text className="soft" x={x(i)} y={height - PAD.bottom + 16} textAnchor="middle">
              {(build.name || build.id).slice(0, Math.max(3, Math.floor(step / 7)))}
            </text>
          )}
        </g>
      ))}
    </svg>
  );
}
