import { formatNumber as n } from '../../quantities/format.ts';
import { useSize } from '../frame/useSize.ts';
import { linePath } from './scale.ts';
import type { Triangle } from './triangle.ts';

const PAD = { left: 18, right: 82, top: 34, bottom: 26 };

/** Radius of the arc that marks the inflow angle [px]. */
const ARC = 44;

/** Speeds at one radius as the blade meets them: it moves to the left, the air comes from above. */
export function VelocityTriangle({ air }: { readonly air: Triangle }) {
  const [watch, size] = useSize();
  return (
    <div className="plot" ref={watch}>
      {size && size.width > 120 && <Drawing air={air} width={size.width} height={size.height} />}
    </div>
  );
}

function Drawing({ air, width, height }: { air: Triangle; width: number; height: number }) {
  const { blade_mps: u, axial_mps: vx, swirl_mps: vt, relative_mps: w, inflow_deg, attack_deg } = air;
  const across = Math.max(u, u - vt, 1e-9);
  const scale = Math.min(
    (width - PAD.left - PAD.right) / across,
    (height - PAD.top - PAD.bottom) / Math.max(Math.abs(vx), 1e-9),
  );
  const spare = (height - PAD.top - PAD.bottom - Math.abs(vx) * scale) / 2;
  const top = vx >= 0 ? PAD.top + spare : height - PAD.bottom - spare;
  const down = vx >= 0 ? 1 : -1;
  const x = (speed: number) => PAD.left + speed * scale;
  const foot = [x(u - vt / 2), top + vx * scale] as const;
  const radians = (degrees: number) => (degrees * Math.PI) / 180;
  const ray = (degrees: number, length: number) =>
    [PAD.left + length * Math.cos(radians(degrees)), top + length * Math.sin(radians(degrees))] as const;
  const arc = ray(inflow_deg, ARC);
  const lean = Math.abs(Math.sin(radians(inflow_deg + attack_deg)));
  const roomDown = (down > 0 ? height - top : top) - 20;
  const chord = ray(inflow_deg + attack_deg, Math.min(0.8 * w * scale, roomDown / Math.max(lean, 1e-6)));
  return (
    <svg
      width={width}
      height={height}
      role="img"
      aria-label={`The blade moves at ${n(u)} m/s and meets the air at ${n(w)} m/s, ${n(inflow_deg)} degrees to the disc`}
    >
      <path className="axis" d={linePath([[PAD.left, top], chord])} />
      <path
        className="air-line"
        markerEnd="url(#air)"
        d={linePath([
          [x(0), top],
          [x(u), top],
        ])}
      />
      <path className="air-line" markerEnd="url(#air)" d={linePath([[foot[0], top], foot])} />
      <path className="air-line met" markerEnd="url(#air)" d={linePath([[x(0), top], foot])} />
      <path
        className="air-line"
        markerEnd="url(#air)"
        d={linePath([
          [x(u), top - 8],
          [x(u - vt), top - 8],
        ])}
      />
      <path
        className="extension"
        d={
          linePath([
            [x(u), top - 13],
            [x(u), top],
          ]) +
          linePath([
            [x(u - vt), top - 13],
            [x(u - vt), top],
          ])
        }
      />
      <path
        className="dimension-line"
        d={`M${PAD.left + ARC} ${top}A${ARC} ${ARC} 0 0 ${down > 0 ? 1 : 0} ${arc[0].toFixed(1)} ${arc[1].toFixed(1)}`}
      />
      <text x={x(0.3 * u)} y={top - 7} textAnchor="middle">
        U {n(u)} m/s
      </text>
      <text x={x(u) + 2} y={top - 18} textAnchor="middle">
        V<Low>t</Low> {n(vt, 2)} m/s
      </text>
      <text x={foot[0] + 7} y={(top + foot[1]) / 2 + 4}>
        V<Low>x</Low> {n(vx)} m/s
      </text>
      <text x={foot[0] - 9} y={top + 0.4 * vx * scale + 4} textAnchor="end">
        W {n(w)} m/s
      </text>
      <text className="soft" x={chord[0] - 4} y={chord[1] + (down > 0 ? 15 : -8)} textAnchor="end">
        chord
      </text>
      <text x={PAD.left + ARC + 6} y={top + (down > 0 ? 13 : -5)}>
        φ {n(inflow_deg)}°
      </text>
    </svg>
  );
}

const Low = ({ children }: { readonly children: string }) => (
  <>
    <tspan className="low" dy={3}>
      {children}
    </tspan>
    <tspan dy={-3}>{'\u200b'}</tspan>
  </>
);
