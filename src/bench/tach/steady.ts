export interface TrackPoint {
  readonly t_s: number;
  readonly rpm: number;
  /** Chance that this point is right, 0 to 1. */
  readonly confidence: number;
}

/** The longest stretch of a track at one speed. */
export interface Steady {
  readonly from_s: number;
  readonly to_s: number;
  readonly rpm: number;
  /** Half the range that holds nine in ten of its points, over its speed. */
  readonly scatter: number;
  /** False: the speed changes all through; this is the stretch in which it changes least. */
  readonly level: boolean;
}

/** Change of speed that still counts as steady: a fiftieth in a second [1/s]. */
const STEADY_SLOPE = 0.02;
/** A fan with its inertia changes its speed smoothly: by no more than this from one frame to the next but one, past a line. */
const SMOOTH = 0.02;
const LEAST_S = 0.4;
/** An unbroken run this long, or this share of a short recording, is asked for: voices hold no pitch so long. */
const RUN_S = 1.2;
const RUN_SHARE = 0.6;

/**
 * The steady part of a track: among points with `least` confidence or more, the longest stretch with a slope below 2 % a
 * second, measured over half a second; else the half second that changes least. Null where no stretch of 0.4 s holds
 * together: sounds that come and go, or wander from frame to frame.
 */
export function steadyPart(track: readonly TrackPoint[], least: number): Steady | null {
  if (track.length < 3) return null;
  const hop = track[1].t_s - track[0].t_s;
  const runs = unbroken(track, least, Math.max(2, Math.round(LEAST_S / hop)));
  const lasting = Math.min(RUN_S / hop, RUN_SHARE * track.length);
  if (!runs.some((run) => run.length >= lasting)) return null;
  if (runs.length === 0) return null;
  const arm = Math.max(1, Math.round(0.25 / hop));
  let best: readonly TrackPoint[] = [];
  let flattest: { readonly points: readonly TrackPoint[]; readonly slope: number } | null = null;
  for (const run of runs) {
    let stretch: TrackPoint[] = [];
    for (let i = 0; i < run.length; i++) {
      const from = Math.max(0, i - arm);
      const to = Math.min(run.length - 1, i + arm);
      const slope = Math.abs(slopeOf(run.slice(from, to + 1)));
      if (!flattest || slope < flattest.slope) flattest = { points: run.slice(from, to + 1), slope };
      const near = stretch.length === 0 || Math.abs(run[i].rpm / medianOf(stretch.slice(-40)) - 1) < SMOOTH;
      if (slope < STEADY_SLOPE && near) stretch.push(run[i]);
      else stretch = slope < STEADY_SLOPE ? [run[i]] : [];
      if (stretch.length > best.length) best = [...stretch];
    }
  }
  const level = best.length * hop >= LEAST_S * 0.75;
  const points = level ? best : flattest!.points;
  const speeds = points.map(({ rpm }) => rpm).sort((a, b) => a - b);
  const at = (share: number) => speeds[Math.min(speeds.length - 1, Math.floor(share * speeds.length))];
  const rpm = medianOf(points);
  return {
    from_s: points[0].t_s,
    to_s: points[points.length - 1].t_s,
    rpm,
    scatter: (at(0.95) - at(0.05)) / 2 / rpm,
    level,
  };
}

/** Runs of `length` points or more, none faint twice on end, none off the line through its neighbours. */
function unbroken(track: readonly TrackPoint[], least: number, length: number): TrackPoint[][] {
  const runs: TrackPoint[][] = [];
  let run: TrackPoint[] = [];
  let faint = 0;
  const end = () => {
    if (run.length >= length) runs.push(run);
    run = [];
  };
  for (const point of track) {
    if (point.confidence < least) {
      if (++faint > 2) end();
      continue;
    }
    faint = 0;
    const [before, last] = run.slice(-2);
    const straight = last ? (2 * last.rpm - before.rpm) / point.rpm : before ? before.rpm / point.rpm : 1;
    if (Math.abs(straight - 1) > 2 * SMOOTH && Math.abs((last ?? before).rpm / point.rpm - 1) > SMOOTH) end();
    run.push(point);
  }
  end();
  return runs;
}

/** Relative slope by least squares [1/s]. */
function slopeOf(points: readonly TrackPoint[]): number {
  const t0 = points.reduce((sum, p) => sum + p.t_s, 0) / points.length;
  const mean = points.reduce((sum, p) => sum + p.rpm, 0) / points.length;
  let up = 0;
  let down = 0;
  for (const { t_s, rpm } of points) {
    up += (t_s - t0) * (rpm - mean);
    down += (t_s - t0) ** 2;
  }
  return down > 0 ? up / down / mean : 0;
}

function medianOf(points: readonly TrackPoint[]): number {
  const speeds = points.map(({ rpm }) => rpm).sort((a, b) => a - b);
  const i = speeds.length >> 1;
  return speeds.length % 2 === 1 ? speeds[i] : (speeds[i - 1] + speeds[i]) / 2;
}
