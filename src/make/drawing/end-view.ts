import type { Project } from '../../project/schema.ts';
import { bladeAt, bladeCurves } from '../../shape/blade.ts';
import type { FanLayout } from '../../shape/layout.ts';
import { lugPlaces } from '../../shape/lugs.ts';
import { circle, path, text, type Mark, type Point } from './sheet.ts';

/** The first blade stands up on the page [rad]. */
const UPWARD = -Math.PI / 2;

/** The fan seen with the air stream, from the lip: duct, lugs, blades of a right-hand rotor, hub. `r` paper mm a metre. */
export function endView(project: Project, layout: FanLayout, [x, y]: Point, r: number): Mark[] {
  const { fan } = project;
  const marks: Mark[] = [];
  const reach = layout.ducted ? layout.outerRadius : layout.tipRadius;
  if (layout.ducted) {
    marks.push(circle('wide', [x, y], r * layout.outerRadius), circle('wide', [x, y], r * layout.boreRadius));
    for (const mark of lugPlaces(layout, fan).flatMap(lugMarks)) marks.push(placed(mark, x, y, r));
  }
  marks.push(circle('wide', [x, y], r * layout.hubRadius));
  if (layout.hubBoreRadius > 0) marks.push(circle('narrow', [x, y], r * layout.hubBoreRadius));
  if (layout.ringHalfHeight > 0) marks.push(circle('narrow', [x, y], r * layout.tipRadius));
  for (let i = 0; i < fan.bladeCount; i++) {
    const turn = (2 * Math.PI * i) / fan.bladeCount + UPWARD;
    marks.push(
      path(
        'wide',
        blade(project, turn).map(([u, v]): Point => [x + r * u, y + r * v]),
        true,
      ),
    );
  }
  const over = r * reach + 4;
  marks.push(
    path('centre', [
      [x - over, y],
      [x + over, y],
    ]),
    path('centre', [
      [x, y - over],
      [x, y + over],
    ]),
    text(
      [x, y + r * reach + 9],
      `${fan.bladeCount} blades, right-hand as drawn; left-hand is the mirror image`,
      2.2,
      'middle',
    ),
  );
  return marks;
}

/** Front edge from hub to tip, back edge from tip to hub, as seen along the axis [m], y down the page. */
function blade({ fan }: Project, turn: number): Point[] {
  const curves = bladeCurves(fan);
  const side = (share: number): Point[] =>
    Array.from({ length: 25 }, (_, i) => {
      const radius = curves.hubRadius + ((curves.tipRadius - curves.hubRadius) * i) / 24;
      const at = bladeAt(curves, radius);
      const angle = turn + (share * at.chord * Math.cos(at.angle)) / radius;
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    });
  const [front, back] = [side(-0.5), side(0.5)];
  const tip = roundAbout(front.at(-1)!, back.at(-1)!);
  return [...front, ...tip, ...back.reverse(), ...roundAbout(back.at(-1)!, front[0])];
}

/** The arc about the axis between two points at one distance from it, without them. */
function roundAbout([ax, ay]: Point, [bx, by]: Point): Point[] {
  const radius = Math.hypot(ax, ay);
  const from = Math.atan2(ay, ax);
  const turn = Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
  return Array.from({ length: 11 }, (_, i): Point => {
    const a = from + (turn * (i + 1)) / 12;
    return [radius * Math.cos(a), radius * Math.sin(a)];
  });
}

type Lug = ReturnType<typeof lugPlaces>[number];

/** A lug and its hole [m]. */
function lugMarks({ angle, radius, halfWidth, holeRadius, wallRadius }: Lug): Mark[] {
  const [c, s] = [Math.cos(angle + UPWARD), Math.sin(angle + UPWARD)];
  const at = (out: number, aside: number): Point => [out * c - aside * s, out * s + aside * c];
  const from = Math.sqrt(Math.max(0, wallRadius ** 2 - halfWidth ** 2));
  const round = Array.from({ length: 25 }, (_, i): Point => {
    const a = -Math.PI / 2 + (Math.PI * i) / 24;
    return at(radius + halfWidth * Math.cos(a), halfWidth * Math.sin(a));
  });
  return [
    path('wide', [at(from, -halfWidth), ...round, at(from, halfWidth)]),
    circle('wide', at(radius, 0), holeRadius),
  ];
}

function placed(mark: Mark, x: number, y: number, r: number): Mark {
  const move = ([u, v]: Point): Point => [x + r * u, y + r * v];
  return mark.kind === 'text' ? { ...mark, at: move(mark.at) } : { ...mark, points: mark.points.map(move) };
}
