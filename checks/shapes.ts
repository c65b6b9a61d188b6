import { interpolateLinear } from '../src/numerics/interpolate.ts';
import { sectionOutline } from '../src/shape/section.ts';
import type { Topic } from './check.ts';

/** Chord place and half thickness of NACA 0012, both in percent of the chord. */
const ORDINATES = [
  [1.25, 1.894],
  [2.5, 2.615],
  [5, 3.555],
  [10, 4.683],
  [20, 5.738],
  [30, 6.002],
  [40, 5.803],
  [50, 5.294],
  [60, 4.563],
  [70, 3.664],
  [80, 2.623],
  [90, 1.448],
  [95, 0.807],
  [100, 0.126],
] as const;

/** Points a side: enough that straight lines between them stay within a thousandth of a percent. */
const POINTS = 400;

/** Upper side of the outline, nose to tail. */
function upperSide() {
  const { x, y } = sectionOutline(
    {
      family: 'four-digit',
      thickness: 0.12,
      camber: 0,
      camberPosition: 0.4,
      trailingEdge: 0.00252,
    },
    POINTS,
  );
  return { x: x.slice(0, POINTS + 1).reverse(), y: y.slice(0, POINTS + 1).reverse() };
}

export const shapeTopic: Topic = {
  id: 'shapes',
  title: 'Section outline',
  intro: 'The outline that physics, drawing and solids share, against a printed table of ordinates.',
  checks: [
    {
      id: 'shape-0012',
      title: 'Half thickness of NACA 0012',
      unit: '% chord',
      source:
        'Abbott and von Doenhoff, Theory of Wing Sections, Dover 1959, appendix of basic thickness forms; form by Jacobs, Ward and Pinkerton, NACA Report 460, 1933.',
      status: 'from memory',
      points: () => {
        const { x, y } = upperSide();
        return ORDINATES.map(([place, half]) => ({
          at: `${place} % of the chord`,
          ours: 100 * interpolateLinear(x, y, place / 100),
          theirs: half,
        }));
      },
      target: { absolute: 0.002 },
    },
  ],
};
