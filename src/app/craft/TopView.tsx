import type { Placement } from '../../craft/placement.ts';
import type { Project } from '../../project/schema.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import { millimetresFromMetres as mm } from '../../quantities/units.ts';
import { useSize } from '../frame/useSize.ts';

const EDGE = 26;
/** Boxes worth drawing; the small ones in the middle would only cover each other. */
const DRAWN = new Set(['battery', 'payload']);

/** The craft from above, nose up: rims, which way each rotor turns, battery, payload and the centre of mass. */
export function TopView({
  placement,
  project,
}: {
  readonly placement: Placement;
  readonly project: Project;
}) {
  const [watch, size] = useSize();
  const { length, width, circle, whole, rotorZ } = placement;
  const [cx, cy, cz] = whole.centre;
  const below = mm(cz - rotorZ);
  const off =
    Math.hypot(cx, cy) > 0.0005 ? `${n(mm(Math.hypot(cx, cy)), 2)} mm off the middle` : 'in the middle';
  const height = `${n(Math.abs(below), 2)} mm ${below >= 0 ? 'below' : 'above'} the rotors`;
  const story = `The craft from above: ${project.craft.fanCount} fans, ${n(mm(length))} mm long and ${n(mm(width))} mm wide. Its centre of mass lies ${off}, ${height}.`;
  return (
    <figure className="top-view" aria-label={story}>
      <div className="plot" ref={watch}>
        {size && size.height > 60 && size.width > 60 && <Drawing placement={placement} {...size} />}
      </div>
      <dl className="figures">
        <div>
          <dt>Long by wide</dt>
          <dd>
            {n(mm(length))} × {n(mm(width))} mm
          </dd>
        </div>
        <div>
          <dt>Circle round it all</dt>
          <dd>{n(mm(circle))} mm</dd>
        </div>
        <div>
          <dt>Centre of mass</dt>
          <dd>
            {off}, {height}
          </dd>
        </div>
        <div>
          <dt>Inertia: roll, pitch, yaw</dt>
          <dd>{[whole.roll, whole.pitch, whole.yaw].map((i) => n(i * 1e6, 3)).join(', ')} kg mm²</dd>
        </div>
      </dl>
    </figure>
  );
}

function Drawing({ placement, width, height }: { placement: Placement; width: number; height: number }) {
  const { fans, solids, whole, rimDiameter } = placement;
  const scale = Math.min((width - 2 * EDGE) / placement.width, (height - 2 * EDGE) / placement.length);
  const middle = (pick: (f: (typeof fans)[number]) => number) =>
    (Math.max(...fans.map(pick)) + Math.min(...fans.map(pick))) / 2;
  const [mx, my] = [middle((f) => f.x), middle((f) => f.y)];
  const across = (y: number) => width / 2 + (y - my) * scale;
  const down = (x: number) => height / 2 - (x - mx) * scale;
  const rim = (rimDiameter / 2) * scale;
  const tip = 0.8 * rim;
  const [gx, gy] = [across(whole.centre[1]), down(whole.centre[0])];
  return (
    <svg width={width} height={height} aria-hidden="true">
      {fans.map(({ x, y, turns }, i) => (
        <g key={i} transform={`translate(${across(y).toFixed(1)} ${down(x).toFixed(1)}) scale(${turns} 1)`}>
          <circle className="rim" r={rim} />
          <path
            className="turns"
            d={`M${-0.7 * tip} ${-0.45 * tip}A${0.83 * tip} ${0.83 * tip} 0 0 1 ${0.7 * tip} ${-0.45 * tip}`}
          />
          <path className="turns-head" d={`M${0.7 * tip + 3} ${-0.45 * tip + 6}l-9 -4l6 -5z`} />
        </g>
      ))}
      {solids
        .filter(({ name, mass }) => DRAWN.has(name) && mass > 0)
        .map(({ name, at, shape }, i) =>
          shape.kind === 'box' ? (
            <g key={i}>
              <rect
                className={`box ${name}`}
                x={across(at[1] - shape.width / 2)}
                y={down(at[0] + shape.length / 2)}
                width={shape.width * scale}
                height={shape.length * scale}
              />
            </g>
          ) : null,
        )}
      <path className="mass-cross" d={`M${gx - 9} ${gy}h18M${gx} ${gy - 9}v18`} />
      <circle className="mass-ring" cx={gx} cy={gy} r={5} />
      <text className="soft" x={width / 2} y={14} textAnchor="middle">
        front
      </text>
      <text className="soft" x={width / 2} y={height - 5} textAnchor="middle">
        solid: battery, dashed: payload, cross: centre of mass
      </text>
    </svg>
  );
}
