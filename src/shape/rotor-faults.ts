import type { Fan, Motor } from '../project/schema.ts';
import { formatNumber } from '../quantities/format.ts';
import { metresFromMillimetres, millimetresFromMetres } from '../quantities/units.ts';
import { bladeCurves } from './blade.ts';
import type { GeometryFault } from './fault.ts';
import { headRadius, nutRadius, type FanLayout } from './layout.ts';
import { hubHeightFor, platformRoom, rootKey } from './root-key.ts';
import { spinnerSeat, underSpinner } from './spinner.ts';

/** Least wall around a hole or between two [m], and least neck of a key. Common practice, no source. */
const LEAST_WALL = 0.0006;
const LEAST_NECK = 0.001;

/** What a printer may open or close of a hole or gap, kept free for it [m]. Common practice, no source. */
const FIT_ROOM = 0.0003;

const mm = (length: number): string => `${formatNumber(millimetresFromMetres(length), 3)} mm`;

/** What keeps the hub from being held as drawn, or its spinner from sitting. */
export function hubFaults(fan: Fan, motor: Motor, layout: FanLayout): GeometryFault[] {
  const faults: GeometryFault[] = [];
  const add = (path: string, text: string) => faults.push({ path, text });
  const { hubRadius, hubBoreRadius, hubOpen } = layout;
  const apart = fan.rotorParts === 'blades apart';
  if (fan.hub.hold === 'threaded shaft' && nutRadius(fan) > hubRadius)
    add(
      'fan.hub.thread_mm',
      `The nut of a shaft with ${formatNumber(fan.hub.thread_mm)} mm thread is ${mm(2 * nutRadius(fan))} across its corners, the hub only ${mm(2 * hubRadius)}. A hub at least as wide as the nut would do.`,
    );
  if (fan.hub.hold === 'bell screws' || (apart && fan.hub.hold === 'press fit')) {
    const at = metresFromMillimetres(fan.hub.screwCircle_mm) / 2;
    const hole = 0.55 * metresFromMillimetres(fan.hub.screw_mm) + FIT_ROOM / 2;
    const inner = hubBoreRadius + LEAST_WALL + hole;
    const key = rootKey(fan, layout);
    const outer = Math.min(
      apart ? key.footRadius - FIT_ROOM - LEAST_WALL - hole : Infinity,
      (hubOpen === 'upstream' ? layout.hubRimRadius : hubRadius) - headRadius(fan),
      fan.hub.hold === 'bell screws' ? layout.motorRadius - hole : Infinity,
    );
    if (at < inner || at > outer)
      add(
        'fan.hub.screwCircle_mm',
        `The screws of the hub stand on a circle of ${mm(2 * at)}, ${at < inner ? 'where they run into the hole in the middle' : whereOutside(fan, layout)}. ` +
          (inner <= outer
            ? `A circle of ${mm(2 * inner)} to ${mm(2 * outer)} would do.`
            : 'A larger hub or thinner screws would do.'),
      );
    const between = 2 * at * Math.sin(Math.PI / fan.hub.screwCount) - 2 * headRadius(fan);
    if (between < 0)
      add(
        'fan.hub.screwCount',
        `The heads of ${fan.hub.screwCount} screws of ${formatNumber(fan.hub.screw_mm)} mm overlap on a circle of ${mm(2 * at)}. Fewer or thinner screws, or a wider circle, would do.`,
      );
  }
  if (fan.hub.spinner) {
    const seat = spinnerSeat(layout);
    const least = Math.max(underSpinner(fan, layout).radius, boreEdge(fan, layout)) + FIT_ROOM;
    if (seat.innerRadius < least)
      add(
        'fan.hub.spinner',
        `The spinner's rim needs room outside ${mm(2 * least)}, and its inside is ${mm(2 * seat.innerRadius)} across. A hub at least ${mm(2 * (hubRadius + least - seat.innerRadius))} across, or no spinner, would do.`,
      );
  }
  return faults;

  function whereOutside(from: Fan, { motorRadius }: FanLayout): string {
    if (from.hub.hold === 'bell screws' && metresFromMillimetres(from.hub.screwCircle_mm) / 2 > motorRadius)
      return `outside the bell of ${formatNumber(motor.canDiameter_mm)} mm`;
    return apart ? 'where they run into the keys of the blades' : 'where their heads do not fit in the hub';
  }
}

/** What the groove of a spinner must stay outside of on the face of the hub: the bore, or in a cup the screw heads. */
function boreEdge(fan: Fan, layout: FanLayout): number {
  if (layout.hubOpen !== 'upstream') return layout.hubBoreRadius + LEAST_WALL;
  return metresFromMillimetres(fan.hub.screwCircle_mm) / 2 + headRadius(fan);
}

/** What keeps blades apart from being held in the hub. */
export function apartFaults(fan: Fan, layout: FanLayout): GeometryFault[] {
  if (fan.rotorParts !== 'blades apart') return [];
  const faults: GeometryFault[] = [];
  const add = (path: string, text: string) => faults.push({ path, text });
  if (fan.bladeCount < 2) add('fan.bladeCount', 'A single blade is printed with its hub, in one piece.');
  if (fan.tipRing_mm > 0)
    add(
      'fan.tipRing_mm',
      'A ring joins the tips of a rotor in one piece; blades apart cannot have it. No ring, or one piece, would do.',
    );
  const { hubRadius, hubBoreRadius } = layout;
  const key = rootKey(fan, layout);
  const wider = (by: number) => `A hub of about ${mm(2 * hubRadius * by)} or fewer blades would do.`;
  const foot = key.footRadius - FIT_ROOM - LEAST_WALL;
  if (foot < hubBoreRadius) {
    add(
      'fan.hubDiameter_mm',
      `The keys of the blades reach ${mm(key.footRadius)} from the axis, into the hole of ${mm(2 * hubBoreRadius)} in the hub. A wider hub would do.`,
    );
    return faults;
  }
  if (key.neckWidth < LEAST_NECK)
    add(
      'fan.hubDiameter_mm',
      `The keys of ${fan.bladeCount} blades would be ${mm(key.neckWidth)} wide at their necks in a hub of ${mm(2 * hubRadius)}, at least ${mm(LEAST_NECK)} is needed. ${wider(LEAST_NECK / key.neckWidth)}`,
    );
  if (platformRoom(fan, layout, bladeCurves(fan)) * hubRadius < FIT_ROOM)
    add(
      'fan.rotorParts',
      `Each blade takes up more of the hub's rim than the ${mm((2 * Math.PI * hubRadius) / fan.bladeCount)} it could carry with it. Fewer blades, a narrower or steeper root, or a rotor in one piece would do.`,
    );
  return faults;
}

/** Height of a hub whose rim takes up a root of `depth` [m]. */
export const hubHeightForRoot = (fan: Fan, depth: number): number =>
  fan.rotorParts === 'blades apart' ? hubHeightFor(fan, depth + 2 * FIT_ROOM) : depth;

/** Height of the rim that a blade's root may take up [m]. */
export function rootRoom(fan: Fan, layout: FanLayout): number {
  const height = layout.hubBottomZ - layout.hubTopZ;
  if (fan.rotorParts !== 'blades apart') return height;
  return height - 2 * rootKey(fan, layout).flange - 2 * FIT_ROOM;
}
