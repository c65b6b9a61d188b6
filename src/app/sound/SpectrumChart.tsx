import { formatNumber as n } from '../../quantities/format.ts';
import type { SoundAt } from '../../sound/types.ts';
import { THIRD_OCTAVES } from '../../sound/weighting.ts';
import { useSize } from '../frame/useSize.ts';

const PAD = { left: 36, right: 12, top: 14, bottom: 34 };
const MARKS = [63, 125, 250, 500, 1000, 2000, 4000, 8000, 16_000];
const LOW_HZ = 50 / 10 ** 0.05;
const HIGH_HZ = 20_000 * 10 ** 0.05;

/** Tones this far below the loudest band are left out of the drawing [dB]. */
const DRAWN_DB = 45;

interface Props {
  readonly at: SoundAt;
  readonly place: string;
  /** Level at the upper edge [dB]; left out: what this spectrum needs. */
  readonly top?: number;
}

/** A round level above everything in a spectrum [dB]. */
export const topOf = (at: SoundAt): number =>
  Math.max(30, Math.ceil((Math.max(...at.thirdOctaves.map((b) => b.level.high)) + 3) / 10) * 10);

/** Third octaves as steps with their intervals, and the tones as stems in them. */
export function SpectrumChart({ at, place, top = topOf(at) }: Props) {
  const [watch, size] = useSize();
  const loudest = at.thirdOctaves.reduce((a, b) => (b.level.value > a.level.value ? b : a));
  const story = `Spectrum ${place}: loudest third octave ${n(loudest.band_Hz, 2)} Hz with ${Math.round(loudest.level.value)} dB; blade passing at ${n(at.bladePassing_Hz, 3)} Hz.`;
  return (
    <figure className="lines spectrum" aria-label={story}>
      <figcaption>
        <span className="key filled">third octaves</span> <span className="key bar">their interval</span>{' '}
        <span className="key stem">tones</span>
      </figcaption>
      <div className="plot" ref={watch}>
        {size && size.height > 60 && <Plot at={at} top={top} {...size} />}
      </div>
    </figure>
  );
}

interface PlotProps {
  readonly at: SoundAt;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

function Plot({ at, top, width, height }: PlotProps) {
  const foot = Math.max(-20, top - 80);
  const x = (f: number) =>
    PAD.left + (Math.log(f / LOW_HZ) / Math.log(HIGH_HZ / LOW_HZ)) * (width - PAD.left - PAD.right);
  const y = (level: number) =>
    height -
    PAD.bottom -
    ((Math.min(top, Math.max(foot, level)) - foot) / (top - foot)) * (height - PAD.top - PAD.bottom);
  const ticks = Array.from({ length: (top - foot) / 20 + 1 }, (_, i) => foot + 20 * i);
  const most = Math.max(...at.thirdOctaves.map((b) => b.level.value));
  const tones = at.tones.filter((t) => t.level.value > Math.max(foot, most - DRAWN_DB));
  return (
    <svg width={width} height={height} aria-hidden="true">
      {ticks.map((t) => (
        <g key={t}>
          <path className="grid" d={`M${PAD.left} ${y(t)}H${width - PAD.right}`} />
          <text className="soft" x={PAD.left - 6} y={y(t) + 4} textAnchor="end">
            {String(t).replace('-', '−')}
          </text>
        </g>
      ))}
      {MARKS.filter((_, i) => width > 420 || i % 2 === 0).map((f) => (
        <text key={f} className="soft" x={x(f)} y={height - PAD.bottom + 15} textAnchor="middle">
          {f >= 1000 ? `${f / 1000}k` : f}
        </text>
      ))}
      <text className="soft" x={width - PAD.right} y={height - 4} textAnchor="end">
        Hz
      </text>
      <text className="soft" x={2} y={height - 4}>
        dB re 20 µPa
      </text>
      {at.thirdOctaves.map(({ band_Hz, level }, i) => {
        const { low, high, middle } = THIRD_OCTAVES[i];
        if (level.value <= foot) return null;
        return (
          <g key={band_Hz}>
            <rect
              className="step"
              x={x(low) + 1}
              width={Math.max(1, x(high) - x(low) - 2)}
              y={y(level.value)}
              height={y(foot) - y(level.value)}
            />
            <path className="whisker" d={`M${x(middle)} ${y(level.low)}V${y(level.high)}`} />
          </g>
        );
      })}
      {tones.map((t) => (
        <g key={t.order}>
          <path className="tone" d={`M${x(t.frequency_Hz)} ${y(foot)}V${y(t.level.value)}`} />
          <circle className="point" cx={x(t.frequency_Hz)} cy={y(t.level.value)} r={3} />
        </g>
      ))}
    </svg>
  );
}
