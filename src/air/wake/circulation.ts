import { liftDragInto, type SectionStream } from '../section.ts';

/** A blade as the lifting line sees it: lengths over R, speeds over Omega R. */
export interface LiftingLine {
  readonly r: Float64Array;
  readonly chord: Float64Array;
  readonly angle: Float64Array;
  readonly streams: readonly SectionStream[];
}

/** Velocities at station i from unit circulation of station k, row by row. */
export interface LineMatrix {
  readonly axial: Float64Array;
  readonly swirl: Float64Array;
}

const STEPS = 30;
const DIFFERENCE = 1e-5;

/** No rotor moves its air faster than this, over Omega R; what a runaway trial asks beyond it is not followed. */
const FASTEST = 2;
const held = (speed: number) => (speed > FASTEST ? FASTEST : speed < -FASTEST ? -FASTEST : speed);

/** Circulation c W C_l / 2 that station i's section gives in the inflow `w` (down) and swirl `u` (with the rotation). */
function sectionCirculation(line: LiftingLine, i: number, w: number, u: number, force: Float64Array): number {
  const along = line.r[i] - u;
  liftDragInto(line.streams[i], line.angle[i] - Math.atan2(w, along), force);
  return 0.5 * line.chord[i] * Math.hypot(w, along) * force[0];
}

/**
 * Solves the lifting line: circulation at every station equal to what its section gives in the flow all circulations
 * induce. Newton steps with the section's own slopes, shortened where they do not bring the misfit down. `gamma` holds
 * the guess and takes the answer; `w` and `u` take the velocities there. Returns whether the largest misfit fell below
 * `tolerance` of the largest circulation. Never throws; every output is finite for finite input.
 */
export function solveCirculation(
  line: LiftingLine,
  matrix: LineMatrix,
  gamma: Float64Array,
  w: Float64Array,
  u: Float64Array,
  tolerance = 1e-8,
): boolean {
  const n = gamma.length;
  const force = new Float64Array(2);
  const misfit = new Float64Array(n);
  const trial = new Float64Array(n);
  const system = new Float64Array(n * n);
  const step = new Float64Array(n);

  const misfitOf = (g: Float64Array): number => {
    let most = 0;
    for (let i = 0; i < n; i++) {
      let wi = 0;
      let ui = 0;
      for (let k = 0; k < n; k++) {
        wi += matrix.axial[i * n + k] * g[k];
        ui += matrix.swirl[i * n + k] * g[k];
      }
      w[i] = held(wi);
      u[i] = held(ui);
      misfit[i] = sectionCirculation(line, i, w[i], u[i], force) - g[i];
      most = Math.max(most, Math.abs(misfit[i]));
    }
    return most;
  };

  let size = misfitOf(gamma);
  for (let round = 0; round < STEPS; round++) {
    let largest = 1e-9;
    for (const g of gamma) largest = Math.max(largest, Math.abs(g));
    if (size <= tolerance * largest) return true;
    for (let i = 0; i < n; i++) {
      const d = DIFFERENCE;
      const byW =
        (sectionCirculation(line, i, w[i] + d, u[i], force) -
          sectionCirculation(line, i, w[i] - d, u[i], force)) /
        (2 * d);
      const byU =
        (sectionCirculation(line, i, w[i], u[i] + d, force) -
          sectionCirculation(line, i, w[i], u[i] - d, force)) /
        (2 * d);
      for (let k = 0; k < n; k++)
        system[i * n + k] = (i === k ? 1 : 0) - byW * matrix.axial[i * n + k] - byU * matrix.swirl[i * n + k];
      step[i] = misfit[i];
    }
    if (!eliminate(system, step, n)) break;
    let share = 1;
    let better = false;
    for (let half = 0; half < 8; half++) {
      for (let i = 0; i < n; i++) trial[i] = gamma[i] + share * step[i];
      const now = misfitOf(trial);
      if (now < size) {
        size = now;
        better = true;
        break;
      }
      share /= 2;
    }
    if (!better) break;
    gamma.set(trial);
  }
  return relax(gamma, misfit, misfitOf, tolerance);
}

/** Where Newton's steps find no way down (stall): small steps toward what the sections give. */
function relax(
  gamma: Float64Array,
  misfit: Float64Array,
  misfitOf: (g: Float64Array) => number,
  tolerance: number,
): boolean {
  const loose = Math.max(tolerance, 1e-5);
  for (let round = 0; round < 150; round++) {
    const size = misfitOf(gamma);
    let largest = 1e-9;
    for (const g of gamma) largest = Math.max(largest, Math.abs(g));
    if (size <= loose * largest) return true;
    for (let i = 0; i < gamma.length; i++) gamma[i] += 0.05 * misfit[i];
  }
  misfitOf(gamma);
  return false;
}

/** Gaussian elimination with row exchange, in place: `b` becomes the solution. False where the matrix is singular. */
function eliminate(a: Float64Array, b: Float64Array, n: number): boolean {
  for (let c = 0; c < n; c++) {
    let pivot = c;
    for (let i = c + 1; i < n; i++) if (Math.abs(a[i * n + c]) > Math.abs(a[pivot * n + c])) pivot = i;
    const p = a[pivot * n + c];
    if (!(Math.abs(p) > 1e-14)) return false;
    if (pivot !== c) {
      for (let k = c; k < n; k++) {
        const swap = a[c * n + k];
        a[c * n + k] = a[pivot * n + k];
        a[pivot * n + k] = swap;
      }
      const swap = b[c];
      b[c] = b[pivot];
      b[pivot] = swap;
    }
    for (let i = c + 1; i < n; i++) {
      const f = a[i * n + c] / p;
      if (f === 0) continue;
      for (let k = c; k < n; k++) a[i * n + k] -= f * a[c * n + k];
      b[i] -= f * b[c];
    }
  }
  for (let i = n - 1; i >= 0; i--) {
    let s = b[i];
    for (let k = i + 1; k < n; k++) s -= a[i * n + k] * b[k];
    b[i] = s / a[i * n + i];
  }
  return true;
}
