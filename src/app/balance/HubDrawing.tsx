import type { OrderAnswer } from '../../balance/types.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import { on } from './round.ts';

const HUB = 34;
const TIP = 88;
const TEXT = 105;

/** The blades in their best order round the hub, and where the heavy side is left. */
export function HubDrawing({ order }: { readonly order: OrderAnswer }) {
  const count = order.order.length;
  const heavy = order.left.angle_deg;
  const mean = order.masses_g.reduce((sum, mass) => sum + mass, 0) / count;
  const end = on(heavy, HUB - 6);
  const story = `Blades round the hub, clockwise from the top: ${order.order.join(', ')}. What is left is heavy ${Math.round(heavy)}° past blade ${order.order[0]}.`;
  return (
    <figure className="round-drawing">
      <svg viewBox="-160 -126 320 260" role="img" aria-label={story}>
        {order.order.map((blade, place) => {
          const angle = (360 * place) / count;
          const mass = order.masses_g[blade - 1];
          const [from, to, text] = [on(angle, HUB), on(angle, TIP), on(angle, TEXT)];
          return (
            <g key={blade}>
              <line
                className={mass > mean ? 'blade heavy' : 'blade'}
                x1={from.x}
                y1={from.y}
                x2={to.x}
                y2={to.y}
              />
              <text className="number" textAnchor={side(text.x)} x={text.x} y={text.y + fall(text)}>
                {blade}
              </text>
              <text className="mass" textAnchor={side(text.x)} x={text.x} y={text.y + fall(text) + 13}>
                {n(mass, 3)} g
              </text>
            </g>
          );
        })}
        <circle className="hub" r={HUB} />
        {order.after_gmm > 1e-9 && (
          <>
            <line className="heavy-side" x1="0" y1="0" x2={end.x} y2={end.y} />
            <circle className="heavy-end" cx={end.x} cy={end.y} r="4" />
          </>
        )}
        <circle className="axis" r="2.5" />
      </svg>
      <figcaption>
        Clockwise from the top. Thick: heavier than the mean. The dot in the hub marks the side left heavy.
      </figcaption>
    </figure>
  );
}

/** Words beside a blade run away from it; above and below they stand in the middle. */
const side = (x: number): 'start' | 'middle' | 'end' => (x > 20 ? 'start' : x < -20 ? 'end' : 'middle');

/** How far the first line sits below the end of the blade's line, so that neither line touches the blade. */
const fall = ({ x, y }: { readonly x: number; readonly y: number }): number =>
  side(x) !== 'middle' ? -1 : y < 0 ? -8 : 8;
