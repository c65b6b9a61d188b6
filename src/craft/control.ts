import { formatNumber as n } from '../quantities/format.ts';
import { radiansFromDegrees } from '../quantities/units.ts';
import type { Placement } from './placement.ts';

/** What one fan can do while the craft hangs on all of them. */
export interface FanReach {
  /** Least and most thrust the fan is held to [N] */
  readonly least: number;
  readonly most: number;
  /** Torque over thrust [m] */
  readonly torqueOverThrust: number;
}

/** The axes a craft is steered about by fans that run at different speeds. */
export type Axis = 'roll' | 'pitch' | 'yaw';
const AXES: readonly Axis[] = ['roll', 'pitch', 'yaw'];

/** What the differences between the fans' thrusts can do. */
export interface Control {
  /** Thrust of each fan when nothing turns [N]; it holds the weight where `holds`. */
  readonly trim: readonly number[];
  /** Whether every fan is within its reach at trim. */
  readonly holds: boolean;
  /** Moment [Nm] that is free both ways about each axis, the lift and the other axes held; 0: none. */
  readonly moment: Readonly<Record<Axis, number>>;
  /** The same over the inertia [rad/s2] */
  readonly acceleration: Readonly<Record<Axis, number>>;
  /** Axes the fans can't be told apart by, so that only vanes or leaning fans could turn the craft about them. */
  readonly without: readonly Axis[];
}

/** Moments asked of the fans beside holding the craft up [Nm], about the centre of mass. */
export type Load = Partial<Readonly<Record<Axis, number>>>;

/** Rows smaller than this beside the largest are rounding, not authority. */
const NEGLIGIBLE = 1e-9;

/**
 * Lift and moments about the centre of mass for one newton on each fan: rows lift, roll, pitch, yaw.
 * M = (p - c) x t, and about the thrust the rotor's drag, against its turning: k T with k torque over thrust.
 */
function effects(placement: Placement, torqueOverThrust: number): number[][] {
  const [cx, cy, cz] = placement.whole.centre;
  const columns = placement.fans.map(({ x, y, thrust: [tx, ty, tz], turns }) => {
    const [px, py, pz] = [x - cx, y - cy, placement.rotorZ - cz];
    // Seen from above with the clock is positive about z (down); the craft is turned the other way, along turns * thrust.
    const drag = turns * torqueOverThrust;
    return [-tz, py * tz - pz * ty + drag * tx, pz * tx - px * tz + drag * ty, px * ty - py * tx + drag * tz];
  });
  return [0, 1, 2, 3].map((row) => columns.map((column) => column[row]));
}

const dot = (a: readonly number[], b: readonly number[]) => a.reduce((sum, x, i) => sum + x * b[i], 0);

/**
 * Thrust pattern of least squares that gives 1 on row `k` and 0 on all other rows: row k less its projection on the others,
 * over its square. null: the others span it, so it can't be had without them.
 */
function patternFor(rows: readonly (readonly number[])[], k: number): number[] | null {
  const base: number[][] = [];
  const without = (row: readonly number[]) =>
    base.reduce((left, b) => left.map((x, i) => x - dot(left, b) * b[i]), [...row]);
  rows.forEach((row, i) => {
    if (i === k) return;
    const rest = without(row);
    const size = Math.sqrt(dot(rest, rest));
    if (size > NEGLIGIBLE * Math.sqrt(dot(row, row)) && size > 0) base.push(rest.map((x) => x / size));
  });
  const rest = without(without(rows[k]));
  const square = dot(rest, rest);
  if (!(square > 1e-6 ** 2 * dot(rows[k], rows[k])) || square === 0) return null;
  return rest.map((x) => x / square);
}

/**
 * Trim and control about the centre of mass by differences of thrust alone, shared among the fans by least squares.
 * `lift`: upward force wanted [N]; `load`: moments to be held besides. Axes that can't be steered alone are left out, yaw
 * first, then pitch: three fans and a row of fans have such.
 * Each fan's reach is taken as that at full throttle of all: the pack sags less when only some strain, so a little more
 * is there.
 */
export function controlOf(placement: Placement, reach: FanReach, lift: number, load: Load = {}): Control {
  const all = effects(placement, reach.torqueOverThrust);
  const scale = Math.hypot(...all[0]) * Math.max(placement.pitch, placement.rimDiameter);
  const kept: number[] = [0];
  for (const row of [1, 2, 3]) {
    const large = Math.hypot(...all[row]) > 1e-6 * scale;
    const rows = [...kept, row].map((i) => all[i]);
    if (large && rows.every((_, i) => patternFor(rows, i) !== null)) kept.push(row);
  }
  const rows = kept.map((i) => all[i]);
  const patterns = rows.map((_, i) => patternFor(rows, i) ?? rows[i].map(() => 0));
  const wanted = kept.map((row) => (row === 0 ? lift : (load[AXES[row - 1]] ?? 0)));
  const trim = placement.fans.map((_, fan) =>
    dot(
      patterns.map((p) => p[fan]),
      wanted,
    ),
  );
  const slack = 1e-9 * Math.max(1, lift);
  const holds = trim.every((t) => t <= reach.most + slack && t >= reach.least - slack);
  const free = (pattern: readonly number[]) => {
    let most = Infinity;
    pattern.forEach((share, fan) => {
      if (Math.abs(share) < 1e-12) return;
      const room = Math.max(0, Math.min(reach.most - trim[fan], trim[fan] - reach.least));
      most = Math.min(most, room / Math.abs(share));
    });
    return Number.isFinite(most) ? most : 0;
  };
  const momentOf = (axis: number) => {
    const place = kept.indexOf(axis + 1);
    return place < 0 ? 0 : free(patterns[place]);
  };
  const moment = { roll: momentOf(0), pitch: momentOf(1), yaw: momentOf(2) };
  const { roll, pitch, yaw } = placement.whole;
  const over = (m: number, inertia: number) => (inertia > 0 ? m / inertia : 0);
  return {
    trim,
    holds,
    moment,
    acceleration: {
      roll: over(moment.roll, roll),
      pitch: over(moment.pitch, pitch),
      yaw: over(moment.yaw, yaw),
    },
    without: AXES.filter((_, i) => !kept.includes(i + 1)),
  };
}

/** Share of the thrust that a lean takes from the lift: 1 - cos(tilt). */
export const tiltLoss = (tilt_deg: number): number => 1 - Math.cos(radiansFromDegrees(tilt_deg));

/** Tipping slower than this is sluggish indoors or in a breeze [s for 10 degrees]. Common practice, no source. */
const SLUGGISH = 0.25;

/** Time to turn through 10 degrees from rest at full authority [s]. */
const timeForTen = (acceleration: number) => Math.sqrt((2 * radiansFromDegrees(10)) / acceleration);

/** The control left at hover in sentences. */
export function controlWords(control: Control): string[] {
  if (!control.holds)
    return ['It cannot hang level on its fans within their reach, so there is no control to speak of.'];
  const words: string[] = [];
  const tipping = (['roll', 'pitch'] as const).filter((axis) => control.acceleration[axis] > 0);
  if (tipping.length > 0) {
    const weaker = tipping.reduce((a, b) => (control.acceleration[a] <= control.acceleration[b] ? a : b));
    const time = timeForTen(control.acceleration[weaker]);
    words.push(
      `In hover the thrust left lets it ${weaker === 'roll' ? 'roll' : 'pitch'} at ${n(control.acceleration[weaker], 2)} rad/s², 10 degrees in ${n(time, 2)} s if the motors answered at once${time > SLUGGISH ? ': sluggish, a gust will carry it off' : ''}.`,
    );
  }
  if (control.acceleration.yaw > 0)
    words.push(
      `By the torques alone it turns about its upright axis at ${n(control.acceleration.yaw, 2)} rad/s², 10 degrees in ${n(timeForTen(control.acceleration.yaw), 2)} s.`,
    );
  for (const axis of control.without)
    words.push(
      `Fans that stand so can't steer it in ${axis} by their speeds alone; it takes vanes in the jet or a fan that leans.`,
    );
  const spread = Math.max(...control.trim) / Math.min(...control.trim);
  if (spread > 1.02)
    words.push(
      `Its centre of mass is off the middle of the fans: the hardest-worked fan carries ${n((spread - 1) * 100, 2)}\u00a0% more than the least.`,
    );
  return words;
}
