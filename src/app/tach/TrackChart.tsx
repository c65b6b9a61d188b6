import type { TachResult } from '../../bench/tach/tach.ts';
import { rpmWords } from '../../bench/tach/words.ts';
import { useSize } from '../frame/useSize.ts';

const PAD = { left: 58, right: 12, top: 12, bottom: 30 };
/** Points less sure than this are left out; what is drawn grows darker with its chance. */
const SHOWN = 0.1;

/** Speed over the recording, the steady part on a band. */
export function TrackChart({ result }: { readonly result: TachResult }) {
  const [watch, size] = useSize();
  return (
    <figure className="tach-track" aria-label={story(result)}>
      <figcaption>Speed over the recording, its steady part shaded</figcaption>
      <div className="plot" ref={watch}>
        {size && size.width > 120 && <Plot result={result} {...size} />}
      </div>
    </figure>
  );
}

const story = ({ steady, rpm }: TachResult): string =>
  steady && rpm !== null
    ? `Speed over the recording: ${rpmWords(rpm)} rpm from ${steady.from_s.toFixed(1)} to ${steady.to_s.toFixed(1)} seconds.`
    : 'Speed over the recording: nothing found.';

interface PlotProps {
  readonly result: TachResult;
  readonly width: number;
  readonly height: number;
}

function Plot({ result: { track, steady, rpm }, width, height }: PlotProps) {
  const sure = track.filter((point) => point.confidence > SHOWN);
  const speeds = [...sure.map((point) => point.rpm), rpm ?? 0].filter((speed) => speed > 0);
  const ticks = ticksAround(Math.min(...speeds), Math.max(...speeds));
  const [low, high] = [ticks[0], ticks[ticks.length - 1]];
  const end = track[track.length - 1].t_s + track[0].t_s;
  const x = (t: number) => PAD.left + (t / end) * (width - PAD.left - PAD.right);
  const y = (speed: number) =>
    height - PAD.bottom - ((speed - low) / (high - low)) * (height - PAD.top - PAD.bottom);
  return (
    <svg width={width} height={height} aria-hidden="true">
      {steady && (
        <rect
          className="band"
          x={x(steady.from_s)}
          width={Math.max(2, x(steady.to_s) - x(steady.from_s))}
          y={PAD.top}
          height={height - PAD.top - PAD.bottom}
        />
      )}
      {ticks.map((t) => (
        <g key={t}>
          <path className="grid" d={`M${PAD.left} ${y(t)}H${width - PAD.right}`} />
          <text className="soft" x={PAD.left - 6} y={y(t) + 4} textAnchor="end">
            {rpmWords(t)}
          </text>
        </g>
      ))}
      {sure.map((point) => (
        <circle
          key={point.t_s}
          className="heard"
          cx={x(point.t_s)}
          cy={y(point.rpm)}
          r={2.2}
          opacity={0.25 + 0.75 * point.confidence}
        />
      ))}
      <text className="soft" x={PAD.left} y={height - 8}>
        0
      </text>
      <text className="soft" x={width - PAD.right} y={height - 8} textAnchor="end">
        {end.toFixed(1)} s
      </text>
      <text className="soft" x={2} y={height - 8}>
        rpm
      </text>
    </svg>
  );
}

/** Three to six round speeds about what was heard, two per cent apart at least in all. */
function ticksAround(least: number, most: number): number[] {
  const span = Math.max(most - least, 0.02 * most);
  const middle = (most + least) / 2;
  const rough = span / 3;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((m) => m * power).find((s) => s >= rough) ?? rough;
  const first = Math.floor((middle - span / 2) / step);
  const last = Math.max(first + 1, Math.ceil((middle + span / 2) / step));
  return Array.from({ length: last - first + 1 }, (_, i) => Math.round((first + i) * step * 100) / 100);
}
