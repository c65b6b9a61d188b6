import { factor, type Factored } from './lu.ts';
import { panelStream } from './panel.ts';
import type { Nodes } from './spacing.ts';

/** Duct and centre body as one list of nodes; a panel joins node i to i + 1 except where a body ends. */
export interface Bodies {
  readonly z: Float64Array;
  readonly r: Float64Array;
  /** Nodes of the duct come first: 0 .. ductNodes - 1, the first and the last at the same place. 0: no duct. */
  readonly ductNodes: number;
  /** First node of each panel. */
  readonly panels: Int32Array;
  /** The exit edge is a corner against dead air, not a sharp trailing edge. */
  readonly bluntExit: boolean;
  /** Stream function at node i of unit strength at node j, `influence[i * nodes + j]`. */
  readonly influence: Float64Array;
  readonly system: Factored | null;
}

/** Between the exit's faces, from this included angle on the outer side of the jet is dead at the edge [rad]. */
const BLUNT = (60 * Math.PI) / 180;

/**
 * The system of the surface vorticity gamma (linear between nodes), which equals the surface speed because the air inside
 * a body stands still: the stream function is one constant on the duct and zero on the centre body, at every node.
 * First kind with a logarithmic kernel: well posed for walls as thin as they come, and without the leak of circulation
 * that the second-kind form (velocity along the wall) has to have corrected; its equations never become dependent.
 *   duct nodes:  sum psi_ij gamma_j - psi_duct = -psi_outside(i),    exit edge: gamma_first + gamma_last = gamma_jet,
 *   and gamma_first = 0 at a blunt exit (stagnant corner outside the jet), else equal curvature of both faces' speeds.
 * Source of the surface vorticity model (chapters from memory): Lewis 1991, ch. 1 and 4. The stream-function form and its
 * arrangement are ours.
 */
export function assembleBodies(duct: Nodes | null, centre: Nodes | null): Bodies {
  const ductNodes = duct ? duct.z.length : 0;
  const centreNodes = centre ? centre.z.length : 0;
  const n = ductNodes + centreNodes;
  const z = new Float64Array(n);
  const r = new Float64Array(n);
  for (const [part, from] of [
    [duct, 0],
    [centre, ductNodes],
  ] as const) {
    if (!part) continue;
    z.set(part.z, from);
    r.set(part.r, from);
  }
  const starts: number[] = [];
  for (let i = 0; i + 1 < n; i++) if (i !== ductNodes - 1) starts.push(i);
  const panels = Int32Array.from(starts);
  const influence = new Float64Array(n * n);
  const ends = new Float64Array(2);
  for (const p of panels) {
    const [z0, r0, z1, r1] = [z[p], r[p], z[p + 1], r[p + 1]];
    for (let i = 0; i < n; i++) {
      if (r[i] === 0) continue;
      panelStream(z[i], r[i], z0, r0, z1, r1, ends);
      influence[i * n + p] += ends[0];
      influence[i * n + p + 1] += ends[1];
    }
  }
  const bluntExit = duct ? exitAngle(duct) > BLUNT : false;
  const bodies = { z, r, ductNodes, panels, bluntExit, influence, system: null };
  return n === 0 ? bodies : { ...bodies, system: factor(matrix(bodies), n + (duct ? 1 : 0)) };
}

function matrix({ z, r, ductNodes, influence, bluntExit }: Omit<Bodies, 'system'>): Float64Array {
  const n = z.length;
  const size = n + (ductNodes > 0 ? 1 : 0);
  const cells = new Float64Array(size * size);
  const scale = r.reduce((most, value) => Math.max(most, value), 0);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) cells[i * size + j] = influence[i * n + j];
    if (i < ductNodes) cells[i * size + n] = -1;
    if (r[i] === 0) cells[i * size + i] = scale;
  }
  if (ductNodes === 0) return cells;
  const last = ductNodes - 1;
  cells.fill(0, last * size, (last + 1) * size);
  cells[last * size] = scale;
  cells[last * size + last] = scale;
  const row = n * size;
  if (bluntExit) cells[row] = scale;
  else
    [1, -2, 1].forEach((weight, k) => {
      cells[row + k] += scale * weight;
      cells[row + last - k] -= scale * weight;
    });
  return cells;
}

/** Right-hand side for an outside stream function at the nodes and a jet of strength `jet` at the exit edge. */
export function rightSide(bodies: Bodies, outside: Float64Array, jet: number): Float64Array {
  const { z, r, ductNodes } = bodies;
  const n = z.length;
  const right = new Float64Array(n + (ductNodes > 0 ? 1 : 0));
  for (let i = 0; i < n; i++) right[i] = r[i] === 0 ? 0 : -outside[i];
  if (ductNodes > 0) right[ductNodes - 1] = jet * r.reduce((most, value) => Math.max(most, value), 0);
  return right;
}

/** Angle of material between the two faces at the exit edge [rad]. */
function exitAngle({ z, r }: Nodes): number {
  const last = z.length - 1;
  const a = Math.atan2(r[1] - r[0], z[1] - z[0]);
  const b = Math.atan2(r[last - 1] - r[last], z[last - 1] - z[last]);
  const turn = Math.abs(a - b) % (2 * Math.PI);
  return Math.min(turn, 2 * Math.PI - turn);
}
