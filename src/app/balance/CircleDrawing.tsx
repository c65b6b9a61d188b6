import type { TrialAnswer } from '../../balance/trial-runs.ts';
import { on } from './round.ts';

/** Size of the drawing, and what stays free at its edge. */
const SIZE = 250;
const EDGE = 10;

type Found = Extract<TrialAnswer, { ok: true }>;

/**
 * The circle construction: the first reading as a circle, each trial reading as a circle about its place on it. They meet
 * where the trial mass would take the vibration; the correction lies that way.
 */
export function CircleDrawing({ trial }: { readonly trial: Found }) {
  const { circles, original, effect, correction } = trial;
  const around = [
    { x: 0, y: 0, radius: original },
    { ...on(correction.angle_deg, effect), radius: 0 },
    ...circles.map(({ angle_deg, radius }) => ({ ...on(angle_deg, original), radius })),
  ];
  const left = Math.min(...around.map((c) => c.x - c.radius));
  const right = Math.max(...around.map((c) => c.x + c.radius));
  const top = Math.min(...around.map((c) => c.y - c.radius));
  const bottom = Math.max(...around.map((c) => c.y + c.radius));
  const scale = (SIZE - 2 * EDGE) / Math.max(right - left, bottom - top);
  const view = [
    left * scale - EDGE,
    top * scale - EDGE,
    (right - left) * scale + 2 * EDGE,
    (bottom - top) * scale + 2 * EDGE,
  ];
  const meet = on(correction.angle_deg, effect * scale);
  const story = `Circle construction: the circles of ${circles.length} trial runs meet ${Math.round(correction.angle_deg)}° past the mark; add the correction there.`;
  return (
    <figure className="round-drawing">
      <svg viewBox={view.join(' ')} role="img" aria-label={story}>
        <circle className="first-run" r={original * scale} />
        {circles.map(({ angle_deg, radius }) => {
          const middle = on(angle_deg, original * scale);
          const text = on(angle_deg, original * scale - 15);
          return (
            <g key={angle_deg}>
              <circle className="trial-run" cx={middle.x} cy={middle.y} r={radius * scale} />
              <circle className="axis" cx={middle.x} cy={middle.y} r="2" />
              <text className="mass" textAnchor="middle" x={text.x} y={text.y + 4}>
                {Math.round(angle_deg)}°
              </text>
            </g>
          );
        })}
        <line className="heavy-side" x1="0" y1="0" x2={meet.x} y2={meet.y} />
        <circle className="heavy-end" cx={meet.x} cy={meet.y} r="4" />
        <circle className="axis" r="2.5" />
      </svg>
      <figcaption>
        Clockwise from the top. Full circle: the rotor as it came. Broken: the trial runs about their places.
        The line points to where mass is to be added.
      </figcaption>
    </figure>
  );
}
