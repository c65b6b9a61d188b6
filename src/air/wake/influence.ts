import { cylinderVelocity } from './cylinder.ts';
import { drawnIn, sheetDepth, sheetLater, tipDepth, tipRadius, type WakePath } from './path.ts';
import { addBladeVelocities, type Filament } from './segment.ts';

/** How finely the wake is cut. Angles in radians of age. */
export interface WakeCut {
  /** Age at which the vorticity outboard of the largest circulation has rolled up into the tip vortex. */
  readonly rollUp: number;
  /** Turns of tip vortex and of sheet before the vortex cylinders take over. */
  readonly tipTurns: number;
  readonly sheetTurns: number;
  /** Step before the end of the first turn, and after it. */
  readonly stepNear: number;
  readonly stepFar: number;
  /** Core radius of the tip vortex over R. */
  readonly tipCore: number;
}

/**
 * Velocities at the stations (row i) for unit circulation trailed from each edge (column j), over Omega R and R:
 * `axial` downward through the disc, `swirl` in the sense of rotation. As sheet filaments all the way (`sheet`),
 * as the part of an outer filament before roll-up (`outer`), and of the rolled-up tip vortex (`tip`, one column).
 */
export interface Influence {
  readonly sheetAxial: Float64Array;
  readonly sheetSwirl: Float64Array;
  readonly outerAxial: Float64Array;
  readonly outerSwirl: Float64Array;
  readonly tipAxial: Float64Array;
  readonly tipSwirl: Float64Array;
}

/** Ages of a filament's points from `start` to `end`: short steps first where it lies near a blade. */
function ages(start: number, end: number, cut: WakeCut): number[] {
  const out = [start];
  const turn = Math.min(end, 2 * Math.PI);
  if (start < turn) {
    const n = Math.max(1, Math.ceil((turn - start) / cut.stepNear - 1e-9));
    for (let k = 1; k <= n; k++) out.push(start + ((turn - start) * k) / n);
  }
  const from = out[out.length - 1];
  if (end > from + 1e-9) {
    const n = Math.max(1, Math.ceil((end - from) / cut.stepFar - 1e-9));
    for (let k = 1; k <= n; k++) out.push(from + ((end - from) * k) / n);
  }
  return out;
}

function filament(
  psi: readonly number[],
  radius: (psi: number) => number,
  depth: (psi: number) => number,
  core: (psi: number) => number,
): Filament {
  const n = psi.length;
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  const z = new Float64Array(n);
  const cores = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    const r = radius(psi[k]);
    x[k] = r * Math.cos(psi[k]);
    y[k] = -r * Math.sin(psi[k]);
    z[k] = -depth(psi[k]);
    if (k > 0) cores[k - 1] = core((psi[k] + psi[k - 1]) / 2);
  }
  return { x, y, z, core: cores, count: n };
}

/** The wake of one blade as filaments of unit circulation, one for each edge and the rolled-up tip vortex. */
export interface Wake {
  readonly blades: number;
  readonly edges: Float64Array;
  readonly sheets: readonly Filament[];
  readonly outers: readonly Filament[];
  readonly tip: Filament;
  /** Ages of the tip vortex's points. */
  readonly tipAges: readonly number[];
  readonly tipCore: number;
  /** Descent of the tip vortex per radian before and after the first passage. */
  readonly descent: readonly [number, number];
  readonly sheetEnds: readonly Cylinder[];
  readonly tipEnd: Cylinder;
}

/** What is left of the helices below their last turn: a cylinder of rings, `strength` B / (2 pi pitch) a length. */
export interface Cylinder {
  readonly radius: number;
  readonly depth: number;
  readonly strength: number;
}

/**
 * Lays the wake out along `path`; `edges` (one more than stations) is where circulation is trailed. `sheetOf`: a wake of
 * the same rotor and (nearly) the same thrust, whose sheet is taken as it is; only the tip vortex is laid anew.
 */
export function layWake(
  path: WakePath,
  blades: number,
  edges: Float64Array,
  cut: WakeCut,
  sheetOf?: Wake,
): Wake {
  const rollUp = Math.min(cut.rollUp, path.firstPassage / 2);
  const tipEnd = 2 * Math.PI * cut.tipTurns;
  const near = ages(0, rollUp, cut);
  const tipAges = ages(rollUp, tipEnd, cut);
  const rollRadius = tipRadius(path, rollUp);
  const rollDepth = tipDepth(path, rollUp);
  const { sheets, sheetEnds } = sheetOf ?? laySheet(path, blades, edges, cut, rollUp, near);
  const outers = Array.from(edges, (edge) =>
    filament(
      near,
      (psi) => edge + ((rollRadius - edge) * psi) / rollUp,
      (psi) => (rollDepth * psi) / rollUp,
      () => 0,
    ),
  );
  return {
    blades,
    edges,
    sheets,
    outers,
    tip: filament(
      tipAges,
      (psi) => tipRadius(path, psi),
      (psi) => tipDepth(path, psi),
      () => cut.tipCore,
    ),
    tipAges,
    tipCore: cut.tipCore,
    descent: [path.tipFirst, path.tipLater],
    sheetEnds,
    tipEnd: {
      radius: tipRadius(path, tipEnd),
      depth: tipDepth(path, tipEnd),
      strength: ringStrength(blades, path.tipLater),
    },
  };
}

const ringStrength = (blades: number, pitch: number) => blades / (2 * Math.PI * pitch);

function laySheet(
  path: WakePath,
  blades: number,
  edges: Float64Array,
  cut: WakeCut,
  rollUp: number,
  near: readonly number[],
): Pick<Wake, 'sheets' | 'sheetEnds'> {
  const m = edges.length;
  const sheetEnd = 2 * Math.PI * cut.sheetTurns;
  const whole = [...near, ...ages(rollUp, sheetEnd, cut).slice(1)];
  const sheets: Filament[] = [];
  const sheetEnds: Cylinder[] = [];
  for (let j = 0; j < m; j++) {
    const edge = edges[j];
    // A sheet cut into filaments is smoothed over its own spacing once it is no longer the blade's own trail.
    const spacing = (edges[Math.min(m - 1, j + 1)] - edges[Math.max(0, j - 1)]) / 2;
    sheets.push(
      filament(
        whole,
        (psi) => edge * drawnIn(path, psi),
        (psi) => sheetDepth(path, edge, psi),
        (psi) => (psi > rollUp ? spacing : 0),
      ),
    );
    sheetEnds.push({
      radius: edge * drawnIn(path, sheetEnd),
      depth: sheetDepth(path, edge, sheetEnd),
      strength: ringStrength(blades, sheetLater(path, edge)),
    });
  }
  return { sheets, sheetEnds };
}

/** A wake and its influence, kept for the next round. */
export interface Known {
  readonly wake: Wake;
  readonly influence: Influence;
}

/** Influence of the wake on the stations `r` of a blade. */
export function wakeInfluence(wake: Wake, r: Float64Array, known?: Known): Influence {
  const n = r.length;
  const m = wake.edges.length;
  const { blades } = wake;
  const sameSheet = known?.wake.sheets === wake.sheets ? known.influence : undefined;
  const out: Influence = {
    sheetAxial: sameSheet?.sheetAxial ?? new Float64Array(n * m),
    sheetSwirl: sameSheet?.sheetSwirl ?? new Float64Array(n * m),
    outerAxial: new Float64Array(n * m),
    outerSwirl: new Float64Array(n * m),
    tipAxial: new Float64Array(n),
    tipSwirl: new Float64Array(n),
  };
  for (let j = 0; j < m; j++) {
    addBladeVelocities(wake.outers[j], blades, r, out.outerAxial, out.outerSwirl, j, m);
    if (sameSheet) continue;
    addBladeVelocities(wake.sheets[j], blades, r, out.sheetAxial, out.sheetSwirl, j, m);
    addCylinder(out.sheetAxial, j, m, wake.sheetEnds[j], r);
  }
  addBladeVelocities(wake.tip, blades, r, out.tipAxial, out.tipSwirl, 0, 1);
  addCylinder(out.tipAxial, 0, 1, wake.tipEnd, r);
  // Velocities came out along +z; the disc's inflow is along -z.
  turnOver(out.outerAxial);
  turnOver(out.tipAxial);
  if (!sameSheet) turnOver(out.sheetAxial);
  return out;
}

function turnOver(axial: Float64Array): void {
  for (let k = 0; k < axial.length; k++) axial[k] = -axial[k];
}

function addCylinder(
  axial: Float64Array,
  offset: number,
  stride: number,
  end: Cylinder,
  r: Float64Array,
): void {
  for (let i = 0; i < r.length; i++)
    axial[offset + i * stride] -= end.strength * cylinderVelocity(end.radius, end.depth, r[i]);
}
