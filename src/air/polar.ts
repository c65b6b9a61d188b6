import { interpolateLinear } from '../numerics/interpolate.ts';

/** One measured point of a section. */
export interface PolarPoint {
  readonly reynolds: number;
  /** [rad] */
  readonly alpha: number;
  readonly cl: number;
  readonly cd: number;
}

/** Lift and drag over angle of attack [rad], angles increasing. */
export interface PolarCurve {
  readonly alpha: Float64Array;
  readonly cl: Float64Array;
  readonly cd: Float64Array;
}

/** A measured section: a curve for each Reynolds number, Reynolds numbers increasing. */
export interface PolarTable {
  readonly reynolds: readonly number[];
  readonly curves: readonly PolarCurve[];
}

/** Whether `points` hold a Reynolds number with the three angles a curve needs. */
export function enoughForPolar(points: readonly PolarPoint[]): boolean {
  const angles = new Map<number, Set<number>>();
  for (const { reynolds, alpha } of points)
    angles.set(reynolds, (angles.get(reynolds) ?? new Set()).add(alpha));
  return [...angles.values()].some((set) => set.size >= 3);
}

/** Points of one angle closer than this are one point [rad]. */
const SAME_ANGLE = 1e-6;

/**
 * A table from measured points in any order. Needs at least one Reynolds number with at least three angles; Reynolds
 * numbers with fewer are dropped. Throws a plain sentence where nothing is left.
 */
export function polarTable(points: readonly PolarPoint[]): PolarTable {
  const byReynolds = new Map<number, PolarPoint[]>();
  for (const point of points) {
    const group = byReynolds.get(point.reynolds);
    if (group) group.push(point);
    else byReynolds.set(point.reynolds, [point]);
  }
  const reynolds: number[] = [];
  const curves: PolarCurve[] = [];
  for (const [re, group] of [...byReynolds].sort(([a], [b]) => a - b)) {
    const sorted = group.toSorted((a, b) => a.alpha - b.alpha);
    const kept = sorted.filter((p, i) => i === 0 || p.alpha - sorted[i - 1].alpha > SAME_ANGLE);
    if (kept.length < 3) continue;
    reynolds.push(re);
    curves.push({
      alpha: Float64Array.from(kept, (p) => p.alpha),
      cl: Float64Array.from(kept, (p) => p.cl),
      cd: Float64Array.from(kept, (p) => Math.max(p.cd, 1e-4)),
    });
  }
  if (reynolds.length === 0) {
    throw new Error('A measured section needs at least three angles of attack at one Reynolds number.');
  }
  return { reynolds, curves };
}

/**
 * The curve at `reynolds`: between two measured ones by the logarithm of the Reynolds number, over the angles both have;
 * held at the lowest and highest.
 */
export function polarAt(table: PolarTable, reynolds: number): PolarCurve {
  const { curves } = table;
  const n = table.reynolds.length;
  if (n === 1 || reynolds <= table.reynolds[0]) return curves[0];
  if (reynolds >= table.reynolds[n - 1]) return curves[n - 1];
  let i = 0;
  while (table.reynolds[i + 1] < reynolds) i++;
  const share = Math.log(reynolds / table.reynolds[i]) / Math.log(table.reynolds[i + 1] / table.reynolds[i]);
  const [a, b] = [curves[i], curves[i + 1]];
  const low = Math.max(a.alpha[0], b.alpha[0]);
  const high = Math.min(a.alpha[a.alpha.length - 1], b.alpha[b.alpha.length - 1]);
  if (!(high > low)) return share < 0.5 ? a : b;
  const inside = (x: number) => x > low + SAME_ANGLE && x < high - SAME_ANGLE;
  const angles = [low, ...[...a.alpha, ...b.alpha].filter(inside).sort((x, y) => x - y), high];
  const alpha = Float64Array.from(angles.filter((x, k) => k === 0 || x - angles[k - 1] > SAME_ANGLE));
  const mix = (pick: (curve: PolarCurve) => Float64Array) =>
    alpha.map(
      (x) =>
        (1 - share) * interpolateLinear(a.alpha, pick(a), x) + share * interpolateLinear(b.alpha, pick(b), x),
    );
  return { alpha, cl: mix((curve) => curve.cl), cd: mix((curve) => curve.cd) };
}

/** Angle over which a measured curve hands over to the model past either end [rad]. */
const HAND_OVER = (4 * Math.PI) / 180;

/** How much of the measured curve counts at `alpha`: 1 within its angles, 0 from 4 degrees past an end, smooth between. */
export function measuredShare(curve: PolarCurve, alpha: number): number {
  const past = Math.max(curve.alpha[0] - alpha, alpha - curve.alpha[curve.alpha.length - 1], 0) / HAND_OVER;
  if (past >= 1) return 0;
  return 1 - past * past * (3 - 2 * past);
}

/** What may be said of a table of measured points that can't be read. */
export type PolarResult =
  | { readonly ok: true; readonly points: readonly PolarPoint[] }
  | { readonly ok: false; readonly message: string };

const HEADS: Record<keyof PolarPoint, RegExp> = {
  reynolds: /^(re|reynolds|reynolds number)$/i,
  alpha: /^(alpha|angle|alpha_deg|angle_deg|angle of attack)( *\[?\(?deg\)?\]?)?$/i,
  cl: /^(cl|c_l|lift coefficient)$/i,
  cd: /^(cd|c_d|drag coefficient)$/i,
};

/**
 * Points from CSV with a header row naming Re, alpha (degrees), Cl and Cd in any order; other columns are ignored, lines
 * that begin with # are comments; comma, semicolon or tab between cells.
 */
export function readPolarCsv(text: string): PolarResult {
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/);
  const rows = lines
    .map((line, i) => ({ line: line.trim(), number: i + 1 }))
    .filter((r) => r.line && !r.line.startsWith('#'));
  if (rows.length === 0)
    return {
      ok: false,
      message: 'The polar table is empty; it needs columns Re, alpha (degrees), Cl and Cd.',
    };
  const separator = [';', '\t', ','].find((s) => rows[0].line.includes(s)) ?? ',';
  const heads = rows[0].line.split(separator).map((cell) => cell.trim());
  const column = {} as Record<keyof PolarPoint, number>;
  for (const key of Object.keys(HEADS) as (keyof PolarPoint)[]) {
    column[key] = heads.findIndex((head) => HEADS[key].test(head));
    if (column[key] < 0) {
      return {
        ok: false,
        message: `Line ${rows[0].number} of the polar table has no column for ${key === 'alpha' ? 'alpha in degrees' : key}; it needs Re, alpha, Cl and Cd.`,
      };
    }
  }
  const points: PolarPoint[] = [];
  for (const { line, number } of rows.slice(1)) {
    const cells = line.split(separator).map((cell) => cell.trim());
    const value = (key: keyof PolarPoint) => (cells[column[key]] ? Number(cells[column[key]]) : Number.NaN);
    const point = {
      reynolds: value('reynolds'),
      alpha: (value('alpha') * Math.PI) / 180,
      cl: value('cl'),
      cd: value('cd'),
    };
    const bad = (Object.keys(point) as (keyof PolarPoint)[]).find((key) => !Number.isFinite(point[key]));
    if (bad) return { ok: false, message: `Line ${number} of the polar table has no number for ${bad}.` };
    if (!(point.reynolds > 0))
      return {
        ok: false,
        message: `Line ${number} of the polar table has Re ${point.reynolds}; it must be above 0.`,
      };
    points.push(point);
  }
  return { ok: true, points };
}
