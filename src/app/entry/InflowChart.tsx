import type { DuctFlowAnswer } from '../../assess/lip-flow.ts';
import type { FanPoint } from '../../assess/types.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import { linePath, roundTicks } from '../charts/scale.ts';
import { useSize } from '../frame/useSize.ts';

const PAD = { left: 34, right: 14, top: 8, bottom: 34 };

interface Props {
  readonly inflow: DuctFlowAnswer['inflow'];
  readonly annuli: FanPoint['annuli'] | null;
}

/** Speed into the rotor by radius: the potential flow, and the annuli beside it. */
export function InflowChart({ inflow, annuli }: Props) {
  const [watch, size] = useSize();
  const ends = (values: readonly number[]) =>
    `${n(values[0])} m/s by the hub, ${n(values[values.length - 1])} by the wall`;
  const story =
    `Speed into the rotor. Potential flow: ${ends(inflow.axial_mps)}.` +
    (annuli ? ` Annuli: ${ends(annuli.axialVelocity_mps)}.` : '');
  return (
    <figure aria-label={story}>
      <figcaption>
        Into the rotor: <span className="key ours">this flow</span>
        {annuli && <span className="key dashed">annuli</span>}
      </figcaption>
      <div className="plot" ref={watch}>
        {size && size.height > 40 && <Plot inflow={inflow} annuli={annuli} {...size} />}
      </div>
    </figure>
  );
}

function Plot({ inflow, annuli, width, height }: Props & { width: number; height: number }) {
  const radii = inflow.radius_mm;
  const fastest = Math.max(...inflow.axial_mps, ...(annuli?.axialVelocity_mps ?? []));
  const ticks = roundTicks(fastest, 4);
  const highest = ticks[ticks.length - 1];
  const [hub, wall] = [radii[0], radii[radii.length - 1]];
  const x = (speed: number) => PAD.left + (Math.max(0, speed) / highest) * (width - PAD.left - PAD.right);
  const y = (radius: number) =>
    height - PAD.bottom - ((radius - hub) / (wall - hub)) * (height - PAD.top - PAD.bottom);
  const line = (r: readonly number[], v: readonly number[]) =>
    linePath(r.map((at, i) => [x(v[i]), y(at)] as const));
  return (
    <svg width={width} height={height} aria-hidden="true">
      {ticks.map((t) => (
        <g key={t}>
          <path className="grid" d={`M${x(t)} ${PAD.top}V${height - PAD.bottom}`} />
          <text className="soft" x={x(t)} y={height - PAD.bottom + 15} textAnchor="middle">
            {t}
          </text>
        </g>
      ))}
      {[hub, wall].map((r) => (
        <text key={r} className="soft" x={PAD.left - 5} y={y(r) + (r === wall ? 10 : 2)} textAnchor="end">
          {n(r)}
        </text>
      ))}
      <text className="soft" x={2} y={height - 4}>
        radius, mm
      </text>
      <text className="soft" x={width - PAD.right + 8} y={height - 4} textAnchor="end">
        m/s
      </text>
      {annuli && <path className="need" fill="none" d={line(annuli.radius_mm, annuli.axialVelocity_mps)} />}
      <path className="curve" d={line(radii, inflow.axial_mps)} />
    </svg>
  );
}
