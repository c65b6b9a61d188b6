import { evaluateCubic, shapeKeepingCubic } from '../../numerics/interpolate.ts';
import type { DuctSurface } from './solve.ts';
import { CORNER_TURN, turnAt } from './surface.ts';
import { stratfordLaminar, stratfordTurbulent } from './stratford.ts';
import { laminarLayer, SEPARATION_LAMBDA, SHAPE_AT_SEPARATION, type SpeedRun } from './thwaites.ts';

/**
 * What the air does on the lip: stays laminar and attached; leaves, turns turbulent and comes back before the disc; or
 * leaves without coming back before the disc.
 */
export type LipState = 'attached' | 'bubble' | 'separated';

export interface LipCheck {
  readonly state: LipState;
  /** The laminar layer leaves the wall somewhere between the fastest point of the lip and the disc. */
  readonly separates: boolean;
  /** Where it leaves: [z, r] in metres, and the wall's direction there: 0 straight inward on the rim, pi/2 along the bore [rad]. */
  readonly at: { readonly z: number; readonly r: number; readonly angle: number } | null;
  /**
   * Above 0: by how much the fall of speed past the lip could grow before the laminar layer leaves. Below 0: minus the
   * share of the fall that is still to come where it leaves.
   */
  readonly margin: number;
  /** Share of the bore's area that the stream fills if the layer leaves and never comes back; 1 where it stays. */
  readonly fill: number;
  /** Greatest speed on the lip, and least from there to the disc [m/s]. */
  readonly peakSpeed: number;
  readonly leastSpeed: number;
  /** Reynolds number of momentum thickness where the layer leaves (or at the fastest point). */
  readonly thicknessReynolds: number;
  /** The second opinion on `separates`: Stratford's criterion. */
  readonly stratfordSeparates: boolean;
  /** Length the freed layer needs to turn turbulent, and what it has up to the disc [m]; null where it stays. */
  readonly bubble: { readonly needs: number; readonly has: number; readonly turbulentStays: boolean } | null;
  /** The layer already left the wall at an edge before the lip and was pressed back by rising speed. */
  readonly disturbedBefore: boolean;
}

/**
 * Displacement-thickness Reynolds number at laminar separation from which a bubble is short: 400 to 500 divides them.
 * Source: Owen and Klanfer, On the laminar boundary layer separation from the leading edge of a thin airfoil, ARC CP 220,
 * 1953 (from memory).
 */
const SHORT_BUBBLE = 450;

/** Length of the laminar part of a bubble times speed over viscosity. Source: Horton, ARC CP 1073, 1969 (from memory). */
const LAMINAR_BUBBLE = 4e4;

/**
 * Area of a free stream over that of the opening it leaves, by the wall's angle to the axis [rad]: infinite vessel.
 * Source: von Mises 1917, as given in hydraulics texts (from memory).
 */
const CONTRACTION = shapeKeepingCubic(
  [0, Math.PI / 4, Math.PI / 2, (3 * Math.PI) / 4, Math.PI],
  [1, 0.746, 0.611, 0.537, 0.5],
);

/** Margins beyond this are not told apart. */
const MOST_MARGIN = 10;

/**
 * Laminar layer from the stagnation point round the lip to the disc (Thwaites), whether it leaves, and whether it is
 * likely to come back: short by Owen and Klanfer, or turbulent soon enough by Horton, and then able to stay by Stratford.
 * Potential flow gives the speeds: a layer that leaves for good changes them, so past that point this is a verdict, not
 * a flow field. Rules for bubbles come from sections in quiet tunnels; inflow of a fan is rougher, which helps return.
 * `viscosity` is kinematic [m2/s]; 1.5e-5 for air at 20 degrees.
 * Null where the duct's surface has no stagnation point ahead of the disc.
 */
export function checkLip(duct: DuctSurface, discZ: number, viscosity: number): LipCheck | null {
  if (!(viscosity > 0)) throw new Error(`kinematic viscosity must be above 0 m2/s; it was ${viscosity}`);
  const run = runToDisc(duct, discZ);
  if (!run) return null;
  const last = run.s.length - 1;
  const peak = lastPeak(run);
  let least = peak;
  for (let i = peak; i <= last; i++) if (run.speed[i] < run.speed[least]) least = i;
  const peakSpeed = run.speed[peak];
  const leastSpeed = run.speed[least];
  const leaves = separation(run, peak, 1, viscosity);
  const { momentumThickness, lambda } = laminarLayer(run, viscosity);
  const common = {
    peakSpeed,
    leastSpeed,
    stratfordSeparates: stratfordLaminar(run, peak) !== null,
    disturbedBefore: lambda.slice(0, peak).some((value) => value <= SEPARATION_LAMBDA),
  };
  if (leaves === null)
    return {
      state: 'attached',
      separates: false,
      at: null,
      margin: roomLeft(run, peak, viscosity),
      fill: 1,
      thicknessReynolds: (peakSpeed * momentumThickness[peak]) / viscosity,
      bubble: null,
      ...common,
    };
  const at = (values: ArrayLike<number>) => between(values, leaves);
  const speed = at(run.speed);
  const theta = at(momentumThickness);
  const thicknessReynolds = (speed * theta) / viscosity;
  const bubble = {
    needs: (LAMINAR_BUBBLE * viscosity) / speed,
    has: run.s[last] - at(run.s),
    turbulentStays: stratfordTurbulent(run, Math.floor(leaves), theta, viscosity) === null,
  };
  const soon = SHAPE_AT_SEPARATION * thicknessReynolds >= SHORT_BUBBLE || bubble.needs <= bubble.has;
  const angle = leavingAngle(run, peak, leaves);
  return {
    state: bubble.turbulentStays && soon ? 'bubble' : 'separated',
    separates: true,
    at: { z: at(run.z), r: at(run.r), angle },
    margin: (peakSpeed - speed) / (peakSpeed - leastSpeed) - 1,
    fill: Math.min(1, evaluateCubic(CONTRACTION, Math.PI / 2 - angle) * (at(run.r) / run.r[last]) ** 2),
    thicknessReynolds,
    bubble,
    ...common,
  };
}

interface WallRun extends SpeedRun {
  readonly z: Float64Array;
  readonly s: Float64Array;
  readonly speed: Float64Array;
  readonly r: Float64Array;
}

/** From the last point of standstill ahead of the fastest stretch, to the disc. */
function runToDisc({ z, r, s, speed }: DuctSurface, discZ: number): WallRun | null {
  const n = z.length;
  let end = n - 1;
  while (end > 0 && z[end] > discZ * (1 + 1e-9)) end--;
  let fastest = end;
  for (let i = 0; i <= end; i++) if (speed[i] > speed[fastest]) fastest = i;
  let start = fastest;
  while (start >= 0 && speed[start] > 0) start--;
  if (start < 0) return null;
  const u = speed[start] / (speed[start] - speed[start + 1]);
  const pick = (values: Float64Array) => {
    const out = values.slice(start, end + 1);
    out[0] += u * (out[1] - out[0]);
    return out;
  };
  const along = pick(s);
  const from = along[0];
  const speeds = pick(calmed(z, r, speed));
  speeds[0] = 0;
  return { z: pick(z), r: pick(r), s: along.map((value) => value - from), speed: speeds };
}

/** Speeds with the panel-to-panel swing beside a corner averaged out (weights 1/4, 1/2, 1/4 up to three nodes off). */
function calmed(z: Float64Array, r: Float64Array, speed: Float64Array): Float64Array {
  const out = speed.slice();
  for (let c = 1; c + 1 < z.length; c++) {
    if (turnAt(z, r, c) < CORNER_TURN) continue;
    for (let i = Math.max(1, c - 3); i <= Math.min(z.length - 2, c + 3); i++)
      out[i] = (speed[i - 1] + 2 * speed[i] + speed[i + 1]) / 4;
  }
  return out;
}

/** The last hill of speed before the disc: its top stands 3 % above what lies on either side of it. */
function lastPeak({ speed }: WallRun): number {
  let peak = speed.length - 1;
  for (let i = peak; i >= 0 && speed[i] > 0.97 * speed[peak]; i--) if (speed[i] > speed[peak]) peak = i;
  return peak;
}

/**
 * Place (index with fraction) behind the peak where lambda falls to its limit, or null, with the fall of speed behind the
 * peak stretched by `stretch`.
 */
function separation(run: WallRun, peak: number, stretch: number, viscosity: number): number | null {
  const top = run.speed[peak];
  const speed = run.speed.map((q, i) => (i <= peak ? q : Math.max(top - stretch * (top - q), 1e-3 * top)));
  const { lambda } = laminarLayer({ ...run, speed }, viscosity);
  for (let i = peak + 1; i < speed.length; i++) {
    if (lambda[i] > SEPARATION_LAMBDA) continue;
    const before = Math.max(lambda[i - 1], SEPARATION_LAMBDA);
    return i - 1 + (before - SEPARATION_LAMBDA) / (before - lambda[i] || 1);
  }
  return null;
}

/** How much further the fall of speed behind the peak can be stretched before the layer leaves. */
function roomLeft(run: WallRun, peak: number, viscosity: number): number {
  let low = 1;
  let high = 1 + MOST_MARGIN;
  if (separation(run, peak, high, viscosity) === null) return MOST_MARGIN;
  for (let i = 0; i < 30; i++) {
    const middle = (low + high) / 2;
    if (separation(run, peak, middle, viscosity) === null) low = middle;
    else high = middle;
  }
  return low - 1;
}

function between(values: ArrayLike<number>, place: number): number {
  const i = Math.min(Math.floor(place), values.length - 2);
  return values[i] + (place - i) * (values[i + 1] - values[i]);
}

/** The wall's direction where the layer leaves; at a corner the one it had before the corner. */
function leavingAngle(run: WallRun, peak: number, leaves: number): number {
  for (let i = peak; i <= Math.ceil(leaves); i++)
    if (turnAt(run.z, run.r, i) > CORNER_TURN) return direction(run, i - 1, i);
  const first = Math.min(Math.floor(leaves), run.z.length - 2);
  const at = (i: number) => direction(run, Math.max(0, i - 1), Math.min(run.z.length - 1, i + 1));
  return at(first) + (leaves - first) * (at(first + 1) - at(first));
}

function direction({ z, r }: WallRun, a: number, b: number): number {
  return Math.atan2(z[b] - z[a], -(r[b] - r[a]));
}
