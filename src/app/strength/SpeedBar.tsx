import { formatNumber as n } from '../../quantities/format.ts';
import type { Strength } from '../../strength/types.ts';
import { roundedDown } from '../../strength/words.ts';
import { roundTicks } from '../charts/scale.ts';
import { useSize } from '../frame/useSize.ts';

const PAD = { left: 8, right: 14 };
const BAR = { top: 58, bottom: 82 };

/** The speeds of a rotor on one axis: where it runs, up to where it may run, and where it fails. */
export function SpeedBar({ strength }: { readonly strength: Strength }) {
  const [watch, size] = useSize();
  const { hoverRpm, fullRpm, safeRpm, failureRpm } = strength;
  return (
    <figure
      className="speed-bar"
      aria-label={`Full throttle ${n(fullRpm)} rpm, allowed up to ${roundedDown(safeRpm)} rpm, fails near ${n(failureRpm, 2)} rpm${hoverRpm === null ? '' : `, hover ${n(hoverRpm)} rpm`}.`}
    >
      <figcaption>
        <span className="key filled">allowed</span>
        <span className="key risk">past the safety factor</span>
      </figcaption>
      <div className="plot" ref={watch}>
        {size && size.width > 100 && <Axis strength={strength} width={size.width} />}
      </div>
    </figure>
  );
}

function Axis({ strength, width }: { readonly strength: Strength; readonly width: number }) {
  const { hoverRpm, fullRpm, safeRpm, failureRpm } = strength;
  const known = [fullRpm, safeRpm, failureRpm].filter((rpm) => Number.isFinite(rpm));
  const ticks = roundTicks(Math.max(1, ...known) * 1.05, width < 420 ? 3 : 5);
  const top = ticks[ticks.length - 1];
  const x = (rpm: number) => PAD.left + (Math.min(rpm, top) / top) * (width - PAD.left - PAD.right);
  const above = [
    ...(hoverRpm === null ? [] : [{ rpm: hoverRpm, words: `hover ${n(hoverRpm)}`, row: 40, open: true }]),
    { rpm: fullRpm, words: `full throttle ${n(fullRpm)}`, row: 18, open: false },
  ];
  const below = [
    { rpm: safeRpm, words: `allowed up to ${roundedDown(safeRpm)}`, row: 118 },
    { rpm: failureRpm, words: `fails near ${n(failureRpm, 2)}`, row: 140 },
  ].filter(({ rpm }) => Number.isFinite(rpm));
  return (
    <svg width={width} height={160} aria-hidden="true">
      <rect
        className="band edge"
        x={x(0)}
        y={BAR.top}
        width={x(safeRpm) - x(0)}
        height={BAR.bottom - BAR.top}
      />
      <rect
        className="risk"
        x={x(safeRpm)}
        y={BAR.top}
        width={Math.max(0, x(failureRpm) - x(safeRpm))}
        height={BAR.bottom - BAR.top}
      />
      {ticks.map((t, i) => (
        <text
          key={t}
          className="soft"
          x={x(t)}
          y={BAR.bottom + 15}
          textAnchor={i === 0 ? 'start' : i === ticks.length - 1 ? 'end' : 'middle'}
        >
          {n(t)}
        </text>
      ))}
      <text className="soft" x={x(0)} y={BAR.bottom + 58}>
        rpm
      </text>
      {above.map(({ rpm, words, row, open }) => (
        <g key={words}>
          <path className={open ? 'need' : 'mark-line'} d={`M${x(rpm)} ${row - 10}V${BAR.bottom}`} />
          <text {...beside(x(rpm), words, open ? x(fullRpm) : width)} y={row}>
            {words}
          </text>
        </g>
      ))}
      {below.map(({ rpm, words, row }) => (
        <g key={words}>
          <path
            className="risk-line"
            d={`M${x(rpm)} ${BAR.top}V${BAR.bottom}M${x(rpm)} ${BAR.bottom + 20}V${row}`}
          />
          <text {...beside(x(rpm), words, rpm < failureRpm ? x(failureRpm) : width)} y={row}>
            {words}
          </text>
        </g>
      ))}
    </svg>
  );
}

/** Width of a letter at the size of the page [px], about. */
const LETTER = 6.9;

/** Words behind their line where they end before `next`, the line that follows; else before it where there is room. */
function beside(at: number, words: string, next: number) {
  const room = LETTER * words.length + 5;
  const behind = at + room < next || at < room;
  return behind ? { x: at + 5, textAnchor: 'start' as const } : { x: at - 5, textAnchor: 'end' as const };
}
