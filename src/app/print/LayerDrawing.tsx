import type { LayerPicture, Outline2 } from '../../make/layers/types.ts';
import type { Box } from '../../make/mesh.ts';
import { formatNumber as n } from '../../quantities/format.ts';

interface Props {
  readonly picture: LayerPicture | null;
  readonly box: Box;
  readonly part: string;
}

/** Room round the part, over its larger side. */
const ROOM = 0.04;

/** One layer seen from above, with what is lost and what hangs marked by pattern. */
export function LayerDrawing({ picture, box: { min, max }, part }: Props) {
  const room = ROOM * Math.max(max[0] - min[0], max[1] - min[1]);
  const [width, height] = [max[0] - min[0] + 2 * room, max[1] - min[1] + 2 * room];
  // Patterns keep their look whatever the size of the part.
  const dot = Math.max(width, height) / 90;
  const story = picture
    ? `The ${part} cut at ${n(picture.z_mm)} mm height: ${outlines(picture.outline.length)}, ${marked(picture.lost, 'lost')}, ${marked(picture.unsupported, 'unsupported')}.`
    : `The layer of the ${part} is being drawn.`;
  return (
    <figure className="layer-drawing">
      <svg
        viewBox={`${min[0] - room} ${-max[1] - room} ${width} ${height}`}
        role="img"
        aria-label={story}
        preserveAspectRatio="xMidYMid meet"
      >
        <defs>
          <pattern id="layer-lost" width={dot} height={dot} patternUnits="userSpaceOnUse">
            <path className="lost-line" strokeWidth={dot / 3} d={`M0 ${dot}L${dot} 0M0 0L${dot} ${dot}`} />
          </pattern>
          <pattern id="layer-hangs" width={dot} height={dot} patternUnits="userSpaceOnUse">
            <circle className="hangs-dot" cx={dot / 2} cy={dot / 2} r={dot / 3.2} />
          </pattern>
        </defs>
        {picture && (
          <>
            <path className="layer-outline" fillRule="evenodd" d={path(picture.outline)} />
            <path className="layer-hangs" fill="url(#layer-hangs)" d={path(picture.unsupported)} />
            <path className="layer-lost" fill="url(#layer-lost)" d={path(picture.lost)} />
          </>
        )}
      </svg>
      <figcaption>
        <span className="layer-key laid">laid down</span>
        <span className="layer-key lost">narrower than a line: lost</span>
        <span className="layer-key hangs">hangs past the limit: unsupported</span>
      </figcaption>
    </figure>
  );
}

const outlines = (count: number) => `${count} ${count === 1 ? 'outline' : 'outlines'}`;
const marked = (found: readonly Outline2[], what: string) =>
  found.length === 0
    ? `nothing ${what}`
    : `${found.length} ${found.length === 1 ? 'place' : 'places'} ${what}`;

/** Closed outlines, y up. */
const path = (all: readonly Outline2[]): string =>
  all
    .map((outline) => `M${outline.map(([x, y]) => `${x.toFixed(3)} ${(-y).toFixed(3)}`).join('L')}Z`)
    .join('');
