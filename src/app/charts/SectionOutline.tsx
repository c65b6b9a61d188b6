import type { Project } from '../../project/schema.ts';
import { degreesFromRadians, metresFromMillimetres } from '../../quantities/units.ts';
import { formatNumber } from '../../quantities/format.ts';
import { printedSection } from '../../print/printed-fan.ts';
import { bladeAt, bladeCurves } from '../../shape/blade.ts';
import { useSize } from '../frame/useSize.ts';
import { linePath } from './scale.ts';

interface Props {
  readonly project: Project;
  /** Place along the blade: 0 at the hub, 1 at the tip. */
  readonly span: number;
}

/** The blade section at one place along the blade, at its angle, as drawn (dashed) and as the printer makes it. */
export function SectionOutline({ project, span }: Props) {
  const [watch, size] = useSize();
  const at = sectionAt(project, span);
  const { drawn, printed } = printedSection(project.fan, project.printer, at.radius);
  const mm = (metres: number, digits = 3) => `${formatNumber(metres * 1000, digits)} mm`;
  return (
    <>
      <div className="plot" ref={watch}>
        {size && size.height > 30 && <Drawing project={project} span={span} {...size} />}
      </div>
      <p className="facts">
        {mm(at.chord)} wide, {mm(at.thickness * at.chord, 2)} thick,{' '}
        {formatNumber(degreesFromRadians(at.angle))}°;{' '}
        {printed
          ? `as printed ${mm(at.chord * (printed.chord / drawn.chord))} wide, ${mm(at.thickness * at.chord * (printed.thickness / drawn.thickness), 2)} thick, ${formatNumber(degreesFromRadians(at.angle + printed.turn - drawn.turn))}°`
          : 'nothing of it comes out of this printer'}
      </p>
    </>
  );
}

function sectionAt(project: Project, span: number) {
  const curves = bladeCurves(project.fan);
  return bladeAt(curves, curves.hubRadius + span * (curves.tipRadius - curves.hubRadius));
}

function Drawing({ project, span, width, height }: Props & { width: number; height: number }) {
  const { fan } = project;
  const at = sectionAt(project, span);
  const { drawnOutline, outline } = printedSection(fan, project.printer, at.radius);
  const deepest = fan.blade.reduce((most, s) => Math.max(most, s.chord_mm), 0);
  const scale = Math.min(
    (width - 40) / metresFromMillimetres(deepest),
    (height - 24) / metresFromMillimetres(deepest),
  );
  const cos = Math.cos(at.angle);
  const sin = Math.sin(at.angle);
  const centre = { x: width / 2, y: height / 2 };
  // Blade moves to the left, air comes from above: the front edge stands left and high.
  const place = (u: number, v: number): readonly [number, number] => {
    const along = (u - 0.5) * at.chord * scale;
    const up = v * at.chord * scale;
    return [centre.x + along * cos + up * sin, centre.y + along * sin - up * cos];
  };
  const points = (of: typeof drawnOutline) =>
    Array.from(of.x, (u, i) => place(u / at.chord, of.y[i] / at.chord));
  return (
    <svg
      width={width}
      height={height}
      role="img"
      aria-label={`Blade section at radius ${formatNumber(at.radius * 1000)} mm: as printed, its drawing dashed over it`}
    >
      <path className="axis" d={`M12 ${centre.y}H${width - 12}`} />
      <path className="axis" d={linePath([place(-0.25, 0), place(1.25, 0)])} />
      {outline && <path className="turning section" d={linePath(points(outline), true)} />}
      <path className="as-drawn" d={linePath(points(drawnOutline), true)} />
      <path className="air-line" markerEnd="url(#air)" d={`M${centre.x - width * 0.3} 8V30`} />
    </svg>
  );
}
