import type { DuctSurface } from './solve.ts';
import { stratfordLaminar, stratfordTurbulent } from './stratford.ts';
import { laminarLayer, SEPARATION_LAMBDA, SHAPE_AT_SEPARATION, type SpeedRun } from './thwaites.ts';

/**
 * What the air does on the lip: stays laminar and attached; leaves and comes back turbulent within a short bubble; leaves
 * and stays off (or comes back far down the wall).
 */
export type LipState = 'attached' | 'short bubble' | 'separated';

export interface LipCheck {
  readonly state: LipState;
  /** The laminar layer leaves the wall somewhere between the fastest point of the lip and the disc. */
  readonly separates: boolean;
  /** Where it leaves: [z, r] in metres, and the wall's direction there: 0 straight inward on the rim, pi/2 along the bore [rad]. */
  readonly at: { readonly z: number; readonly r: number; readonly angle: number } | null;
  /** By how much the fall of speed past the lip could grow (above 0), or must shrink (below), for the laminar layer to just stay. */
  readonly margin: number;
  /** Greatest speed on the lip, and least from there to the disc [m/s]. */
  readonly peakSpeed: number;
  readonly leastSpeed: number;
  /** Reynolds number of momentum thickness where the layer leaves (or at the fastest point). */
  readonly thicknessReynolds: number;
  /** The second opinion on `separates`: Stratford's criterion. */
  readonly stratfordSeparates: boolean;
  /** Behind a bubble: would a turbulent layer stay on to the disc. */
  readonly turbulentStays: boolean;
  /** The layer already left the wall at an edge before the lip and was pressed back by rising speed. */
  readonly disturbedBefore: boolean;
}

/**
 * Displacement-thickness Reynolds number at laminar separation from which a bubble is short: 400 to 500 divides them.
 * Source: Owen and Klanfer, On the laminar boundary layer separation from the leading edge of a thin airfoil, ARC CP 220, 1953.
 */
const SHORT_BUBBLE = 450;

/** Margins beyond this are not told apart. */
const MOST_MARGIN = 10;

/**
 * Laminar layer from the stagnation point round the lip to the disc (Thwaites), whether it leaves, and whether it is
 * likely to come back. Potential flow gives the speeds: a layer that separates for good changes them, so past that point
 * this is a verdict, not a flow field. `viscosity` is kinematic [m2/s]; 1.5e-5 for air at 20 degrees.
 * Null where the duct's surface has no stagnation point ahead of the disc.
 */
export function checkLip(duct: DuctSurface, discZ: number, viscosity: number): LipCheck | null {
  if (!(viscosity > 0)) throw new Error(`kinematic viscosity must be above 0 m2/s; it was ${viscosity}`);
  const run = runToDisc(duct, discZ);
  if (!run) return null;
  const n = run.s.length;
  const peak = lastPeak(run);
  let least = peak;
  for (let i = peak; i < n; i++) if (run.speed[i] < run.speed[least]) least = i;
  const leaves = separation(run, peak, 1, viscosity);
  const layer = laminarLayer(run, viscosity);
  const where = leaves ?? peak;
  const thicknessReynolds = (run.speed[where] * layer.momentumThickness[where]) / viscosity;
  const turbulentStays = stratfordTurbulent(run, where, layer.momentumThickness[where], viscosity) === null;
  const short = SHAPE_AT_SEPARATION * thicknessReynolds >= SHORT_BUBBLE;
  return {
    state: leaves === null ? 'attached' : short && turbulentStays ? 'short bubble' : 'separated',
    separates: leaves !== null,
    at: leaves === null ? null : { z: run.z[leaves], r: run.r[leaves], angle: direction(run, leaves) },
    margin: margin(run, peak, viscosity),
    peakSpeed: run.speed[peak],
    leastSpeed: run.speed[least],
    thicknessReynolds,
    stratfordSeparates: stratfordLaminar(run, peak) !== null,
    turbulentStays,
    disturbedBefore: layer.lambda.slice(0, peak).some((value) => value <= SEPARATION_LAMBDA),
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
  const speeds = pick(speed);
  speeds[0] = 0;
  return { z: pick(z), r: pick(r), s: along.map((value) => value - from), speed: speeds };
}

/** The last hill of speed before the disc: its top stands 3 % above what lies on either side of it. */
function lastPeak({ speed }: WallRun): number {
  let peak = speed.length - 1;
  for (let i = peak; i >= 0 && speed[i] > 0.97 * speed[peak]; i--) if (speed[i] > speed[peak]) peak = i;
  return peak;
}

/** First point behind the peak where lambda falls to its limit, with the fall of speed behind the peak stretched by `stretch`. */
function separation(run: WallRun, peak: number, stretch: number, viscosity: number): number | null {
  const top = run.speed[peak];
  const speed = run.speed.map((q, i) => (i <= peak ? q : Math.max(top - stretch * (top - q), 1e-3 * top)));
  const { lambda } = laminarLayer({ ...run, speed }, viscosity);
  for (let i = peak + 1; i < speed.length; i++) if (lambda[i] <= SEPARATION_LAMBDA) return i;
  return null;
}

function margin(run: WallRun, peak: number, viscosity: number): number {
  const stays = (stretch: number) => separation(run, peak, stretch, viscosity) === null;
  if (stays(1 + MOST_MARGIN)) return MOST_MARGIN;
  let low = 0;
  let high = 1 + MOST_MARGIN;
  for (let i = 0; i < 30; i++) {
    const middle = (low + high) / 2;
    if (stays(middle)) low = middle;
    else high = middle;
  }
  return low - 1;
}

function direction({ z, r }: WallRun, i: number): number {
  const a = Math.max(0, i - 1);
  const b = Math.min(z.length - 1, i + 1);
  return Math.atan2(z[b] - z[a], -(r[b] - r[a]));
}
