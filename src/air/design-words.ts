import type { BladeStation } from '../project/schema.ts';
import { formatNumber as n, formatPercent } from '../quantities/format.ts';
import { rpmFromAngularSpeed } from '../quantities/units.ts';
import type { DesignRequest } from './design-request.ts';
import type { ChordBound } from './design-blade.ts';
import type { Wanted, WantedFlow } from './design-flow.ts';
import { thicknessFor, type BladePlace, type Working } from './design-section.ts';
import type { RotorAir } from './rotor.ts';

/** Something that held the designed blade, and where. Radii in m, spans 0 at the hub and 1 at the tip. */
export interface DesignBound {
  readonly kind:
    'printer chord' | 'printer thickness' | 'neighbours' | 'hub height' | 'vanes' | 'lift' | 'swirl';
  readonly fromRadius: number;
  readonly toRadius: number;
  readonly fromSpan: number;
  readonly toSpan: number;
  readonly text: string;
}

/** What keeps a request from being looked at, in sentences; empty: nothing. */
export function unfitRequest({
  thrust,
  omega,
  fan,
  air,
  lift,
  leastThickness,
  stallMargin,
}: DesignRequest): string[] {
  const reasons: string[] = [];
  if (!(thrust > 0 && thrust < 1e4))
    reasons.push('The thrust to design for must be above 0 and below 10 000 N.');
  if (!(omega > 0 && omega < 1e5))
    reasons.push('The speed to design for must be above 0 and below 950 000 rpm.');
  if (lift !== null && lift !== undefined && !(lift >= 0.05 && lift <= 3))
    reasons.push('The lift coefficient to design for must lie between 0.05 and 3.');
  if (stallMargin !== undefined && !(stallMargin >= 0 && stallMargin <= 0.8))
    reasons.push('The margin to the stall must lie between 0 and 0.8 of the largest lift.');
  if (!(leastThickness >= 0 && leastThickness < 0.1))
    reasons.push('The least blade thickness must lie between 0 and 100 mm.');
  if (!(fan.hubDiameter_mm < 0.98 * fan.tipDiameter_mm))
    reasons.push(
      `The hub is ${n(fan.hubDiameter_mm)} mm across and the tips ${n(fan.tipDiameter_mm)} mm, which leaves no blade to design.`,
    );
  if (omega > 0 && (omega * fan.tipDiameter_mm * 1e-3) / 2 > 0.9 * air.soundSpeed)
    reasons.push(
      `At ${n(rpmFromAngularSpeed(omega))} rpm the tips would run at ${n((omega * fan.tipDiameter_mm * 1e-3) / 2)} m/s, close to the speed of sound. Below ${n(rpmFromAngularSpeed((1.2 * air.soundSpeed) / (fan.tipDiameter_mm * 1e-3)))} rpm would do.`,
    );
  return reasons;
}

const mm = (radius: number) => n(radius * 1000, 3);

/** The stretches of a blade where `is` holds, as places of its rings. */
function stretch(rotor: RotorAir, is: (i: number) => boolean): { low: number; high: number } | null {
  const held = Array.from(rotor.radius.keys()).filter(is);
  return held.length === 0 ? null : { low: held[0], high: held[held.length - 1] };
}

/** Why a thrust is out of reach, with what would do. */
export function outOfReach({ thrust, omega }: DesignRequest, rotor: RotorAir, wanted: Wanted): string {
  const lift = stretch(rotor, (i) => wanted.rings[i].held === 'lift');
  const swirl = stretch(rotor, (i) => wanted.rings[i].held === 'swirl');
  const causes: string[] = [];
  if (lift)
    causes.push(
      `from ${mm(rotor.radius[lift.low])} to ${mm(rotor.radius[lift.high])} mm from the axis the lift coefficient would pass its margin to the stall on the widest chord that fits`,
    );
  if (swirl)
    causes.push(
      `from ${mm(rotor.radius[swirl.low])} to ${mm(rotor.radius[swirl.high])} mm from the axis the blade turns too slowly for that pressure`,
    );
  const why = causes.length > 0 ? `: ${causes.join(', and ')}` : '';
  const most =
    wanted.thrust < thrust
      ? `, which with its limits kept gives about ${n(Math.max(0, wanted.thrust))} N`
      : '';
  return (
    `${n(thrust)} N at ${n(rpmFromAngularSpeed(omega), 3)} rpm is out of reach of this rotor${most}${why}. ` +
    `More speed, a larger diameter, a more cambered section or more blades would do.`
  );
}

/** The sentence for a blade that no turn brings to its thrust. */
export const unmet = ({ thrust, omega }: DesignRequest, gives: number): string =>
  `No turn of this blade brings it to ${n(thrust)} N at ${n(rpmFromAngularSpeed(omega), 3)} rpm: it gives ${n(gives)} N. Another speed, loading or number of blades would do.`;

/** The sentence for an asked lift coefficient that the section does not reach on most of the blade; null where it does. */
export function liftBeyondStall(
  { lift }: DesignRequest,
  rotor: RotorAir,
  working: readonly Working[],
  margin: number,
): string | null {
  if (lift === null || lift === undefined) return null;
  // Where the chord is free, the design sits at the asked lift; where the stall is in the way, at the largest it may have.
  const under = working.filter((w) => w.cl < 0.97 * lift && w.mostCx < 1.02 * w.cx).length;
  if (under < working.length / 2) return null;
  const middle = working[working.length >> 1];
  return (
    `A lift coefficient of ${n(lift, 2)} is beyond the stall of this section: ${mm(rotor.radius[working.length >> 1])} mm from the axis ` +
    `it may have ${n(middle.cl, 2)}, with ${formatPercent(margin)} of its largest lift kept in hand. A smaller lift coefficient or more camber would do.`
  );
}

/** The sentence for a place whose neighbours leave no room for a blade thick enough to print; null where all have it. */
export function tooThin(
  { leastThickness }: DesignRequest,
  places: readonly BladePlace[],
  stations: readonly BladeStation[],
): string | null {
  const k = stations.findIndex((s) => s.chord_mm * s.thickness_ratio < 985 * leastThickness);
  if (k < 0) return null;
  return (
    `${mm(places[k].radius)} mm from the axis its neighbours leave room for a chord of ${n(stations[k].chord_mm)} mm, ` +
    `too narrow for the ${n(leastThickness * 1000, 2)} mm of thickness that print. Fewer blades or a larger hub would do.`
  );
}

/** What held the finished blade. */
export function boundsOf(
  request: DesignRequest,
  places: readonly BladePlace[],
  stations: readonly BladeStation[],
  chords: readonly ChordBound[],
  rotor: RotorAir,
  wanted: Wanted,
): DesignBound[] {
  const list: DesignBound[] = [];
  const least = n(request.leastThickness * 1000, 2);
  const byStation = (
    kind: DesignBound['kind'],
    is: (k: number) => boolean,
    text: (where: string) => string,
  ) => {
    const at = stations.map((_, k) => k).filter(is);
    if (at.length === 0) return;
    const [from, to] = [at[0], at[at.length - 1]];
    list.push({
      kind,
      fromRadius: places[from].radius,
      toRadius: places[to].radius,
      fromSpan: stations[from].span_ratio,
      toSpan: stations[to].span_ratio,
      text: text(whereIs(places[from].radius, places[to].radius)),
    });
  };
  byStation(
    'printer chord',
    (k) => chords[k] === 'printer',
    (where) =>
      `The chord is the least on which ${least} mm of thickness still makes a blade ${where}; a narrower one would have less drag.`,
  );
  byStation(
    'printer thickness',
    (k) =>
      stations[k].thickness_ratio > places[k].section.thickness + 0.0015 &&
      thicknessFor(places[k], stations[k].chord_mm * 1e-3) > places[k].section.thickness,
    (where) => `The blade is thickened to ${least} mm, the least that prints, ${where}.`,
  );
  byStation(
    'neighbours',
    (k) => chords[k] === 'neighbours',
    (where) =>
      `The chord is as wide as its neighbours leave room for ${where}; fewer blades or a larger hub would give it room.`,
  );
  byStation(
    'hub height',
    (k) => chords[k] === 'hub height',
    (where) => `The root is as deep as the hub is high ${where}; a higher hub would take a wider root.`,
  );
  byStation(
    'vanes',
    (k) => chords[k] === 'vanes',
    (where) =>
      `The blade is as deep as what stands behind it leaves room for ${where}; shorter vanes or a deeper rotor would take a wider blade.`,
  );
  const byRing = (kind: DesignBound['kind'], held: WantedFlow['held'], text: (where: string) => string) => {
    const at = stretch(rotor, (i) => wanted.rings[i].held === held);
    if (!at) return;
    const height = rotor.tipRadius - rotor.hubRadius;
    const span = (r: number) => (r - rotor.hubRadius) / height;
    const [from, to] = [rotor.radius[at.low], rotor.radius[at.high]];
    list.push({
      kind,
      fromRadius: from,
      toRadius: to,
      fromSpan: span(from),
      toSpan: span(to),
      text: text(whereIs(from, to)),
    });
  };
  byRing(
    'lift',
    'lift',
    (where) =>
      `The blade is at its margin to the stall ${where}, so it carries less there than the loading asks and more elsewhere.`,
  );
  byRing(
    'swirl',
    'swirl',
    (where) =>
      `The blade turns too slowly for the wanted pressure ${where}, so it carries what it can and more elsewhere.`,
  );
  return list;
}

const whereIs = (from: number, to: number) =>
  to - from < 1e-6 ? `${mm(from)} mm from the axis` : `from ${mm(from)} to ${mm(to)} mm from the axis`;
