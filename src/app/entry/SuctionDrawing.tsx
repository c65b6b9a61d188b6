import type { DuctFlowAnswer } from '../../assess/lip-flow.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import { linePath } from '../charts/scale.ts';
import { useSize } from '../frame/useSize.ts';
import { edgesOf, type Edge } from './fringe.ts';

/** Room for the fringe of pressure round the section [px]. */
const FRINGE = 68;

/** The longest part of it [px]; the rest is for its number. */
const LONGEST = 46;

/** Room for the scale below [px]. */
const FOOT = 28;

interface Props {
  readonly answer: DuctFlowAnswer;
  /** Plane of the rotor on the axis of the drawing. */
  readonly rotorZ_mm: number;
}

/** Pressure along the duct's surface, laid off square to it: suction outward, pressure dashed. */
export function SuctionDrawing({ answer, rotorZ_mm }: Props) {
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
        {size && size.height > 40 && <Drawing answer={answer} rotorZ_mm={rotorZ_mm} {...size} />}
      </div>
    </figure>
  );
}

interface DrawingProps extends Props {
  readonly width: number;
  readonly height: number;
}

function Drawing({ answer, rotorZ_mm: rotor, width, height }: DrawingProps) {
  const { z_mm, r_mm, pressureCoefficient: cp } = answer.surface;
  const [left, right] = [Math.min(...z_mm), Math.max(...z_mm)];
  const [low, top] = [Math.min(...r_mm), Math.max(...r_mm)];
  const scale = Math.min((width - 2 * FRINGE) / (right - left), (height - 2 * FRINGE - FOOT) / (top - low));
  const x = (z: number) => width / 2 + (z - (left + right) / 2) * scale;
  const y = (r: number) => (height - FOOT) / 2 - (r - (low + top) / 2) * scale;
  const edges = edgesOf(z_mm.map(x), r_mm.map(y));
  const deepest = Math.max(...cp.map(Math.abs), 1e-9);
  const reach = LONGEST / deepest;
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
  const edgeBelow = Math.max(...edges.map((e) => e.y)) + 4;
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
      <path className="axis" d={`M${x(rotor)} ${edgeBelow}V${edgeBelow + FRINGE}`} />
      <text className="soft" x={x(rotor) + 5} y={edgeBelow + FRINGE - 2}>
        rotor
      </text>
      <Out edge={tip} text={`−${n(-cp[worst], 2)}`} />
      {leaves && <Leaving at={nearest(edges, x(leaves[0]), y(leaves[1]))} />}
      <path className="dimension-line" d={`M8 ${height - 6}h${unit}`} />
      <text className="soft" x={14 + unit} y={height - 2}>
        {Math.max(1, Math.round(deepest / 3))} × ½ρV² at the rotor
      </text>
    </svg>
  );
}

/** A word at the outer side of the fringe. */
function Out({ edge, text }: { readonly edge: Edge; readonly text: string }) {
  return (
    <text x={edge.x + edge.nx * (LONGEST + 13)} y={edge.y + edge.ny * (LONGEST + 13) + 4} textAnchor="middle">
      {text}
    </text>
  );
}

/** The place where the air leaves the lip. */
function Leaving({ at }: { readonly at: Edge }) {
  const out = FRINGE - 4;
  return (
    <>
      <path
        className="extension"
        d={linePath([
          [at.x, at.y],
          [at.x + at.nx * out, at.y + at.ny * out],
        ])}
      />
      <circle className="leaves" cx={at.x} cy={at.y} r={4} />
      <text x={at.x + at.nx * out} y={at.y + at.ny * out + 12} textAnchor="middle">
        lets go
      </text>
    </>
  );
}

function nearest(edges: readonly Edge[], x: number, y: number): Edge {
  const off = (e: Edge) => Math.hypot(e.x - x, e.y - y);
  return edges.reduce((best, e) => (off(e) < off(best) ? e : best));
}
