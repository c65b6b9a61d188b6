import type { Project } from '../../project/schema.ts';
import { bladeAt, bladeCurves } from '../../shape/blade.ts';
import { fanLayout } from '../../shape/layout.ts';
import { vaneSize } from '../../shape/vane.ts';
import { linePath } from '../charts/scale.ts';
import { useSize } from '../frame/useSize.ts';
import { pxPerMetre, scaleBelow, scaleInWords } from './frame.ts';

const SPAN_STEPS = 14;

/** The fan seen from above: duct lip, blades as wide as their sections look from there, vanes below them. */
export function EndView({ project }: { readonly project: Project }) {
  const [watch, size] = useSize();
  return (
    <div className="end-view" ref={watch}>
      {size && size.height > 40 && <Drawing project={project} width={size.width} height={size.height} />}
    </div>
  );
}

function Drawing({ project, width, height }: { project: Project; width: number; height: number }) {
  const { fan, motor } = project;
  const layout = fanLayout(fan, motor);
  const outer = layout.ducted ? layout.outerRadius : layout.tipRadius;
  const room = Math.min(width - 28, height - 44) / 2;
  const scale = scaleBelow(room / outer / pxPerMetre(1));
  const k = pxPerMetre(scale);
  const blade = bladePlan(project, k);
  const turns = Array.from({ length: fan.bladeCount }, (_, i) => (360 * i) / fan.bladeCount);
  const vanes = Array.from({ length: fan.stator.vaneCount }, (_, i) => (360 * i) / fan.stator.vaneCount);
  const size = vaneSize(fan);
  const vaneWidth = Math.max(size.thickness, size.chord * Math.cos(size.angle)) * k;
  const cross = outer * k + 10;
  const arrow = layout.hubRadius * k * 0.62;
  return (
    <svg
      width={width}
      height={height}
      role="img"
      aria-label={`Seen from above: ${fan.bladeCount} blades, ${fan.stator.vaneCount} vanes`}
    >
      <g transform={`translate(${width / 2} ${(height - 20) / 2})`}>
        {layout.ducted && (
          <>
            <circle className="printed" r={outer * k} />
            <circle className="paper" r={layout.boreRadius * k} />
          </>
        )}
        <path className="axis" d={`M${-cross} 0H${cross}M0 ${-cross}V${cross}`} />
        {layout.ducted &&
          vanes.map((turn) => (
            <rect
              key={turn}
              className="printed below"
              x={layout.vaneInnerRadius * k}
              width={Math.max(0, layout.boreRadius - layout.vaneInnerRadius) * k}
              y={-vaneWidth / 2}
              height={vaneWidth}
              transform={`rotate(${turn})`}
            />
          ))}
        {turns.map((turn) => (
          <path key={turn} className="turning" d={blade} transform={`rotate(${turn})`} />
        ))}
        <circle className="turning" r={layout.hubRadius * k} />
        <circle className="paper" r={layout.shaftRadius * k} />
        <path
          className="turn"
          markerEnd="url(#air)"
          d={`M${arrow * 0.7} ${arrow * 0.7}A${arrow} ${arrow} 0 0 0 ${arrow * 0.7} ${-arrow * 0.7}`}
        />
      </g>
      <text className="soft" x={width / 2} y={height - 8} textAnchor="middle">
        from above, {scaleInWords(scale)}
      </text>
    </svg>
  );
}

/** One blade seen along the axis, about the x axis [px]; sections lie on cylinders and turn with y upwards leading. */
function bladePlan(project: Project, k: number): string {
  const curves = bladeCurves(project.fan);
  const front: [number, number][] = [];
  const back: [number, number][] = [];
  for (let i = 0; i <= SPAN_STEPS; i++) {
    const radius = curves.hubRadius + ((curves.tipRadius - curves.hubRadius) * i) / SPAN_STEPS;
    const { chord, angle } = bladeAt(curves, radius);
    const half = (chord * Math.cos(angle)) / 2 / Math.max(radius, 1e-6);
    front.push([radius * k * Math.cos(half), -radius * k * Math.sin(half)]);
    back.push([radius * k * Math.cos(half), radius * k * Math.sin(half)]);
  }
  return linePath([...front, ...back.reverse()], true);
}
