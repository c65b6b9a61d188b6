import type { Assessment } from '../../assess/types.ts';
import { formatNumber, formatPercent } from '../../quantities/format.ts';
import { useSize } from '../frame/useSize.ts';
import { linePath, roundTicks } from './scale.ts';

const PAD = { left: 34, right: 12, top: 14, bottom: 34 };

/** Thrust of one fan along the throttle with its 90 % interval, and what hover needs of it. */
export function ThrustChart({ fan }: { readonly fan: Assessment['fan'] }) {
  const [watch, size] = useSize();
  const { hover, full, needed_N } = fan;
  const story =
    `At full throttle one fan gives ${formatNumber(full.thrust_N)} N; hover needs ${formatNumber(needed_N)} N` +
    (typeof hover?.throttle === 'number'
      ? `, reached at ${formatPercent(hover.throttle)} throttle.`
      : ', which it does not reach.');
  return (
    <figure className="chart" aria-label={story}>
      <div className="plot" ref={watch}>
        {size && <Plot fan={fan} width={size.width} height={size.height} />}
      </div>
    </figure>
  );
}

function Plot({ fan, width, height }: { fan: Assessment['fan']; width: number; height: number }) {
  const { curve, hover, full, needed_N } = fan;
  const top = Math.max(needed_N, ...curve.map((p) => p.thrustHigh_N));
  const ticks = roundTicks(top * 1.02, 4);
  const highest = ticks[ticks.length - 1];
  const x = (throttle: number) => PAD.left + throttle * (width - PAD.left - PAD.right);
  const y = (thrust: number) => height - PAD.bottom - (thrust / highest) * (height - PAD.top - PAD.bottom);
  const band = [
    ...curve.map((p) => [x(p.throttle), y(p.thrustHigh_N)] as const),
    ...[...curve].reverse().map((p) => [x(p.throttle), y(p.thrustLow_N)] as const),
  ];
  // Where the curve crosses the need early, the words stand on the other side of it.
  const early = typeof hover?.throttle === 'number' && hover.throttle < 0.55;
  const reached = typeof hover?.throttle === 'number' && hover.throttle <= 1 ? hover : null;
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
      {[0, 0.5, 1].map((t) => (
        <text
          key={t}
          className="soft"
          x={x(t)}
          y={height - PAD.bottom + 16}
          textAnchor={t === 1 ? 'end' : t ? 'middle' : 'start'}
        >
          {formatPercent(t)}
        </text>
      ))}
      <text className="soft" x={width - PAD.right} y={height - 4} textAnchor="end">
        throttle
      </text>
      <text className="soft" x={4} y={height - 4}>
        thrust, N
      </text>
      <path className="band" d={linePath(band, true)} />
      <path className="need" d={`M${PAD.left} ${y(needed_N)}H${width - PAD.right}`} />
      <path className="curve" d={linePath(curve.map((p) => [x(p.throttle), y(p.thrust_N)] as const))} />
      <text
        x={early ? width - PAD.right - 4 : PAD.left + 6}
        textAnchor={early ? 'end' : 'start'}
        y={y(needed_N) + (y(needed_N) < PAD.top + 16 ? 14 : -6)}
      >
        hover needs {formatNumber(needed_N)} N
      </text>
      {reached && <circle className="point" cx={x(reached.throttle ?? 0)} cy={y(reached.thrust_N)} r={4} />}
      <circle className="point full" cx={x(1)} cy={y(full.thrust_N)} r={4} />
      <text
        x={x(1) - 10}
        y={y(full.thrust_N) - 8 < PAD.top ? y(full.thrust_N) + 18 : y(full.thrust_N) - 4}
        textAnchor="end"
      >
        full {formatNumber(full.thrust_N)} N
      </text>
    </svg>
  );
}
