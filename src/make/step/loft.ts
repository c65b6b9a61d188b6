import type { TopoDS_Shape } from 'replicad-opencascadejs';
import type { LoftPoints } from '../loft.ts';
import type { Keep, StepKernel } from './kernel.ts';
import { basisThrough, meanParameters, type Basis } from './spline.ts';

type Place = readonly [number, number, number];

const LINE: Basis = {
  degree: 1,
  knots: [0, 1],
  multiplicities: [2, 2],
  interpolate: (values) => [...values],
};

/** Faces that meet do so to within this [mm]. */
const SEAM = 1e-4;

/**
 * The closed solid through the sections of a loft: per side of the section one surface from tail to nose, a strip for the
 * back edge, and the two ends. Along the span the surfaces follow a cubic where the sections are as drawn, and run
 * straight from row to row through a blend; the blend's outermost feather, where it would touch the hub at no angle, is
 * left off so that the two cut each other cleanly.
 */
export function loftSolid(oc: StepKernel, keep: Keep, through: LoftPoints): TopoDS_Shape {
  const { around, positions, grow } = through;
  const place = (row: number, i: number): Place => {
    const at = 3 * (row * around + i);
    return [positions[at], positions[at + 1], positions[at + 2]];
  };
  const rows = grow
    .map((_, row) => row)
    .filter((row) => row === 0 || grow[row] === 0 || grow[row] !== grow[row - 1]);
  const nose = (around - 1) / 2;
  const side = (row: number, upper: boolean): Place[] =>
    Array.from({ length: nose + 1 }, (_, i) => place(row, upper ? i : around - 1 - i));
  const uppers = rows.map((row) => side(row, true));
  const lowers = rows.map((row) => side(row, false));
  const along = basisThrough(meanParameters([...uppers, ...lowers]));
  const poles = (row: Place[]): Place[] => {
    const [x, y, z] = [0, 1, 2].map((axis) => along.interpolate(row.map((p) => p[axis])));
    return x.map((value, i): Place => [value, y[i], z[i]]);
  };
  const upperPoles = uppers.map(poles);
  const lowerPoles = lowers.map(poles);
  const tails = rows.map((_, k): Place[] => [lowers[k][0], uppers[k][0]]);
  const sewing = keep(new oc.BRepBuilderAPI_Sewing(SEAM, true, true, true, false));
  const add = (grid: Place[][], across: Basis, up: Basis) =>
    sewing.Add(keep(face(oc, keep, grid, across, up)));

  const plain = rows.findIndex((row) => grow[row] === 0);
  const straight = plain < 0 ? rows.length - 1 : plain;
  for (let k = 0; k < straight; k++)
    for (const [grid, across] of [
      [upperPoles, along],
      [lowerPoles, along],
      [tails, LINE],
    ] as const)
      add([grid[k], grid[k + 1]], across, LINE);
  if (straight < rows.length - 1) {
    const spans = [0, nose].flatMap((i) =>
      [uppers, lowers].map((rowsOf) => rowsOf.slice(straight).map((row) => row[i])),
    );
    const up = basisThrough(meanParameters(spans));
    for (const [grid, across] of [
      [upperPoles, along],
      [lowerPoles, along],
      [tails, LINE],
    ] as const)
      add(interpolatedUp(grid.slice(straight), up), across, up);
  }
  for (const k of [0, rows.length - 1]) add([lowerPoles[k], upperPoles[k]], along, LINE);

  sewing.Perform(keep(new oc.Message_ProgressRange()));
  const shell = keep(sewing.SewedShape());
  const solid = keep(keep(new oc.BRepBuilderAPI_MakeSolid(keep(oc.TopoDS.Shell(shell)))).Solid());
  oc.BRepLib.OrientClosedSolid(solid);
  return solid;
}

function interpolatedUp(rows: Place[][], up: Basis): Place[][] {
  const grid: number[][][] = rows.map((row) => row.map(() => [0, 0, 0]));
  for (let i = 0; i < rows[0].length; i++)
    for (let axis = 0; axis < 3; axis++)
      up.interpolate(rows.map((row) => row[i][axis])).forEach((value, k) => (grid[k][i][axis] = value));
  return grid as unknown as Place[][];
}

/** A B-spline face from its control points, row after row. */
function face(oc: StepKernel, keep: Keep, grid: Place[][], across: Basis, up: Basis) {
  const poles = keep(new oc.NCollection_Array2_gp_Pnt(1, grid[0].length, 1, grid.length));
  grid.forEach((row, v) =>
    row.forEach((p, u) => poles.SetValue(u + 1, v + 1, keep(new oc.gp_Pnt(p[0], p[1], p[2])))),
  );
  const reals = (values: readonly number[]) => {
    const array = keep(new oc.NCollection_Array1_double(1, values.length));
    values.forEach((value, i) => array.SetValue(i + 1, value));
    return array;
  };
  const wholes = (values: readonly number[]) => {
    const array = keep(new oc.NCollection_Array1_int(1, values.length));
    values.forEach((value, i) => array.SetValue(i + 1, value));
    return array;
  };
  const surface = keep(
    new oc.Geom_BSplineSurface(
      poles,
      reals(across.knots),
      reals(up.knots),
      wholes(across.multiplicities),
      wholes(up.multiplicities),
      across.degree,
      up.degree,
      false,
      false,
    ),
  );
  return keep(new oc.BRepBuilderAPI_MakeFace(surface, 1e-6)).Face();
}
