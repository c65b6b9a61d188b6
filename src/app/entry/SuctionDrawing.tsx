import type { DuctFlowAnswer } from '../../assess/lip-flow.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import { linePath } from '../charts/scale.ts';
import { useSize } from '../frame/useSize.ts';
import { edgesOf } from './fringe.ts';

/** Room for the fringe of pressure round the section [px]. */
const FRINGE = 58;

/** Pressure along the duct's surface, laid off square to it: suction outward, pressure dashed. */
export function SuctionDrawing({ answer }: { readonly answer: DuctFlowAnswer }) {
  const [watch, size] = useSize();
  const { pressureCoefficient: cp } = answer.surface;
  const deepest = Math.min(...cp);
  return (
    <figure
      aria-label={`Pressure along the duct: deepest suction ${n(-deepest, 2)} times the dynamic pressure at the rotor, on the lip`}
    >
      <figcaption>
        Pressure on the duct: <span className="key suction">suction</span>
        <span className="key push">pressure</span>
      </figcaption>
      <div className="plot" ref={watch}>
        {size && size.height > 40 && <Drawing answer={answer} {...size} />}
      </div>
    </figure>
  );
}

function Drawing({ answer, width, height }: { answer: DuctFlowAnswer; width: number; height: number }) {
  const { z_mm, r_mm, pressureCoefficient: cp } = answer.surface;
  const [left, right] = [Math.min(...z_mm), Math.max(...z_mm)];
  const [low, top] = [Math.min(...r_mm), Math.max(...r_mm)];
  const scale = Math.min((width - 2 * FRINGE) / (right - left), (height - 2 * FRINGE - 16) / (top - low));
  const x = (z: number) => width / 2 + (z - (left + right) / 2) * scale;
  const y = (r: number) => (height - 16) / 2 - (r - (low + top) / 2) * scale;
  const edges = edgesOf(z_mm.map(x), r_mm.map(y));
  const deepest = Math.max(...cp.map(Math.abs), 1e-9);
  const reach = (FRINGE - 8) / deepest;
  const fringe = (share: (c: number) => number) =>
    linePath(
      [
        ...edges.map(
          (e, i) => [e.x + e.nx * share(cp[i]) * reach, e.y + e.ny * share(cp[i]) * reach] as const,
        ),
        ...edges.toReversed().map((e) => [e.x, e.y] as const),
      ],
      true,
    );
  const worst = cp.indexOf(Math.min(...cp));
  const tip = edges[worst];
  const leaves = answer.lip.place_mm;
  const unit = Math.max(1, Math.round(deepest / 3)) * reach;
  return (
    <svg width={width} height={height} aria-hidden="true">
      <path className="suction" d={fringe((c) => Math.max(0, -c))} />
      <path className="push" d={fringe((c) => Math.max(0, c))} />
      <path
        className="printed"
        d={linePath(
          edges.map((e) => [e.x, e.y] as const),
          true,
        )}
      />
      <text x={tip.x + tip.nx * (FRINGE - 2)} y={tip.y + tip.ny * (FRINGE - 2) + 4} textAnchor="middle">
        −{n(-cp[worst], 2)}
      </text>
      {leaves && (
        <>
          <circle className="leaves" cx={x(leaves[0])} cy={y(leaves[1])} r={4} />
          <text x={x(leaves[0]) + 8} y={y(leaves[1]) + 32}>
            lets go
          </text>
        </>
      )}
      <path className="dimension-line" d={`M8 ${height - 6}h${unit}`} />
      <text className="soft" x={14 + unit} y={height - 2}>
        {Math.max(1, Math.round(deepest / 3))} × ½ρV² at the rotor
      </text>
    </svg>
  );
}
