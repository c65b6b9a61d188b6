import type { Project } from '../../project/schema.ts';
import { bladeAt, bladeCurves } from '../../shape/blade.ts';
import { fanProfiles, type FanProfiles, type Profile } from '../../shape/profiles.ts';
import { across, along, leader } from './dimension.ts';
import { endView } from './end-view.ts';
import { hatched } from './hatch.ts';
import { path, text, type Mark, type Point, type Sheet } from './sheet.ts';
import { bladeTable, titleBlock, type TableRow } from './title.ts';

const SCALES = [10, 5, 2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20];
const PAPERS = [
  { paper: 'A4', width_mm: 297, height_mm: 210 },
  { paper: 'A3', width_mm: 420, height_mm: 297 },
] as const;

/** Border, its binding edge, the strip for table and title block, and the room that dimensions take [mm]. */
const BORDER = 10;
const BINDING = 20;
const STRIP = 44;
const ROOM = { left: 30, right: 44, above: 16, below: 24, between: 6 };

/**
 * A drawing of one fan: the section through its axis (upper half cut, lower half from outside), the view against the
 * air stream with blades and lugs, key dimensions, blade table and title block. Paper A4, or A3 where that would be smaller
 * than life; the largest usual scale that fits.
 */
export function fanDrawing(project: Project): Sheet {
  const profiles = fanProfiles(project.fan, project.motor, { arcSteps: 24, bladeSteps: 32 });
  const extent = extentOf(profiles);
  const fits = ({ width_mm, height_mm }: (typeof PAPERS)[number]) =>
    SCALES.find(
      (scale) =>
        scale * (extent.long + extent.wide) + ROOM.left + ROOM.right + ROOM.between <=
          width_mm - BORDER - BINDING &&
        scale * extent.wide + ROOM.above + ROOM.below <= height_mm - 2 * BORDER - STRIP,
    );
  const [a4, a3] = PAPERS.map(fits);
  const [sheet, scale] = a4 !== undefined && a4 >= 1 ? [PAPERS[0], a4] : [PAPERS[1], a3 ?? SCALES.at(-1)!];
  const { width_mm, height_mm } = sheet;
  const spare =
    width_mm - BORDER - BINDING - scale * (extent.long + extent.wide) - ROOM.left - ROOM.right - ROOM.between;
  const axisY = BORDER + ROOM.above + (height_mm - 2 * BORDER - STRIP - ROOM.above - ROOM.below) / 2;
  const originX = BINDING + ROOM.left + spare / 3 - 1e3 * scale * extent.from;
  const middleX = width_mm - BORDER - ROOM.between - spare / 3 - (scale * extent.wide) / 2;
  const shown: View = { scale, axisY, originX, z: (z) => originX + 1e3 * scale * z, r: 1e3 * scale };
  return {
    title: `${project.name || 'unnamed'}, one fan`,
    ...sheet,
    marks: [
      path(
        'wide',
        [
          [BINDING, BORDER],
          [width_mm - BORDER, BORDER],
          [width_mm - BORDER, height_mm - BORDER],
          [BINDING, height_mm - BORDER],
        ],
        true,
      ),
      ...section(profiles, shown),
      ...dimensions(profiles, shown, extent),
      ...endView(project, profiles.layout, [middleX, axisY], 1e3 * scale),
      ...bladeTable([BINDING + 4, height_mm - BORDER - STRIP + 4], stations(project)),
      ...titleBlock([width_mm - BORDER, height_mm - BORDER], project, scale, sheet.paper),
    ],
  };
}

interface View {
  readonly scale: number;
  readonly axisY: number;
  readonly originX: number;
  readonly z: (z: number) => number;
  /** Paper millimetres for a metre. */
  readonly r: number;
}

interface Extent {
  /** [m] */
  readonly from: number;
  readonly to: number;
  /** [mm] */
  readonly long: number;
  readonly wide: number;
}

function extentOf({ layout, ...of }: FanProfiles): Extent {
  const points = Object.values(of).flatMap((profile: Profile | null) => profile ?? []);
  const from = Math.min(...points.map(([z]) => z));
  const to = Math.max(...points.map(([z]) => z));
  const reach = layout.ducted ? layout.outerRadius : layout.tipRadius;
  return { from, to, long: 1e3 * (to - from), wide: 2e3 * reach };
}

function section(profiles: FanProfiles, view: View): Mark[] {
  const { layout, duct, hub, spinner, tipRing, motor, seat, tailCone, vane, blade } = profiles;
  const half = (profile: Profile, side: 1 | -1): Point[] =>
    profile.map(([z, r]) => [view.z(z), view.axisY - side * view.r * r]);
  const marks: Mark[] = [];
  const cut = (profile: Profile | null, left: boolean) => {
    if (!profile) return;
    const outline = half(profile, 1);
    marks.push(...hatched(outline, left ? 1.6 : 2, left), path('wide', outline, true));
  };
  cut(duct, false);
  cut(seat, false);
  cut(tipRing, true);
  cut(spinner, false);
  cut(hub, true);
  cut(tailCone, true);
  if (vane) marks.push(path('narrow', half(vane, 1), true));
  marks.push(path('narrow', half(blade, 1), true));
  // Bought, not made: in dashes, uncut.
  marks.push(path('dashed', half(motor, 1), true));
  if (duct) {
    const outer = silhouette(duct);
    const line = half(outer, -1);
    marks.push(path('wide', line));
    for (const end of [line[0], line.at(-1)!]) marks.push(path('wide', [end, [end[0], view.axisY]]));
    if (layout.lipRadius > 0) {
      const at = outer.reduce((best, p) => (Math.abs(p[0]) < Math.abs(best[0]) ? p : best));
      marks.push(
        path('narrow', [
          [view.z(at[0]), view.axisY + view.r * at[1]],
          [view.z(at[0]), view.axisY],
        ]),
      );
    }
    if (tailCone)
      marks.push(
        path(
          'wide',
          half(
            tailCone.filter(([z]) => z >= layout.exitZ),
            -1,
          ),
        ),
      );
  } else {
    marks.push(path('wide', half(hub, -1), true), path('narrow', half(blade, -1), true));
    if (tipRing) marks.push(path('wide', half(tipRing, -1), true));
    marks.push(path('dashed', half(motor, -1), true));
  }
  const { from, to } = extentOf(profiles);
  marks.push(
    path('centre', [
      [view.z(from) - 6, view.axisY],
      [view.z(to) + 6, view.axisY],
    ]),
  );
  return marks;
}

/** The outermost points along the axis: what is seen of a turned part from the side, upstream end first. */
function silhouette(profile: Profile): [number, number][] {
  const count = 120;
  const low = Math.min(...profile.map(([z]) => z));
  const high = Math.max(...profile.map(([z]) => z));
  return Array.from({ length: count + 1 }, (_, i) => {
    const z = low + (high - low) * (1e-6 + ((1 - 2e-6) * i) / count);
    let most = 0;
    for (let a = profile.length - 1, b = 0; b < profile.length; a = b++) {
      const [[az, ar], [bz, br]] = [profile[a], profile[b]];
      if (az > z !== bz > z) most = Math.max(most, ar + ((z - az) / (bz - az)) * (br - ar));
    }
    return [z, most];
  });
}

const mm = (metres: number): string => String(Number((1e3 * metres).toFixed(2)));

function dimensions({ layout }: FanProfiles, view: View, extent: Extent): Mark[] {
  const { axisY, z, r } = view;
  const [left, right] = [z(extent.from), z(extent.to)];
  const top = axisY - (r * extent.wide) / 2e3;
  const bottom = axisY + (r * extent.wide) / 2e3;
  const marks: Mark[] = [];
  const diameter = (x: number, radius: number, from: number, what = '') =>
    marks.push(...across(x, axisY - r * radius, axisY + r * radius, from, from, `${what}Ø${mm(2 * radius)}`));
  const rotor = z(layout.rotorZ);
  diameter(left - 10, layout.hubRadius, z(layout.hubTopZ), 'hub ');
  if (!layout.ducted) {
    diameter(right + 10, layout.tipRadius, rotor, 'tip ');
    marks.push(
      ...along(
        bottom + 8,
        z(layout.hubTopZ),
        z(layout.hubBottomZ),
        axisY + r * layout.hubRadius,
        axisY + r * layout.hubRadius,
        mm(layout.hubBottomZ - layout.hubTopZ),
      ),
    );
    return marks;
  }
  diameter(left - 20, layout.outerRadius, z(layout.topZ) + 2);
  diameter(right + 10, layout.tipRadius, rotor, 'tip ');
  diameter(right + 19, layout.boreRadius, z(0), 'bore ');
  diameter(right + 28, layout.exitRadius, z(layout.exitZ), 'exit ');
  marks.push(
    ...along(bottom + 8, z(0), rotor, axisY + r * layout.boreRadius, axisY + r * 0, mm(layout.rotorZ)),
    ...along(
      bottom + 16,
      z(layout.topZ),
      z(layout.exitZ),
      bottom - 2,
      axisY + r * layout.exitRadius,
      mm(layout.exitZ - layout.topZ),
    ),
  );
  const lip = layout.lipRadius;
  if (lip > 0) {
    const c = Math.SQRT1_2 * lip;
    marks.push(
      ...leader(
        [z(-c), axisY - r * (layout.boreRadius + lip - c)],
        [left - 6, axisY - r * layout.boreRadius * 0.72],
        `R${mm(lip)}`,
      ),
    );
  }
  marks.push(
    ...leader(
      [rotor, axisY - (r * (layout.turningRadius + layout.boreRadius)) / 2],
      [rotor + 7, top - 3.5],
      `gap ${mm(layout.boreRadius - layout.turningRadius)}`,
    ),
    ...leader(
      [z(0.75 * layout.exitZ), axisY - r * (layout.boreRadius + layout.wall)],
      [Math.max(z(0.75 * layout.exitZ) + 4, rotor + 26), top + 3.5],
      `wall ${mm(layout.wall)}`,
    ),
    text([(left + right) / 2, top - 10], 'Section', 3.5, 'middle'),
  );
  return marks;
}

/** The blade at its own stations, or at eight places where there are more. */
function stations(project: Project): TableRow[] {
  const curves = bladeCurves(project.fan);
  const own = [...new Set(project.fan.blade.map((s) => s.span_ratio))].sort((a, b) => a - b);
  const spans = own.length >= 2 && own.length <= 8 ? own : Array.from({ length: 6 }, (_, i) => i / 5);
  return spans.map((span) => {
    const at = bladeAt(curves, curves.hubRadius + span * (curves.tipRadius - curves.hubRadius));
    return [
      (1e3 * at.radius).toFixed(1),
      (1e3 * at.chord).toFixed(2),
      ((at.angle * 180) / Math.PI).toFixed(1),
      (1e3 * at.chord * at.thickness).toFixed(2),
      (1e3 * at.chord * at.camber).toFixed(2),
    ];
  });
}
