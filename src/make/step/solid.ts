import type { TopoDS_Face, TopoDS_Shape, TopoDS_Wire, gp_Pnt } from 'replicad-opencascadejs';
import type { Keep, StepKernel } from './kernel.ts';
import { loftSolid } from './loft.ts';
import type { Contour, Recipe } from './recipe.ts';
import { traced, type Piece } from './trace.ts';

type ToSpace = (x: number, y: number) => gp_Pnt;

/** Radius and height of the cylinder that stands for all space beyond a plane [mm]. */
const FAR = 5e3;

/** Points nearer than this are one in a Boolean operation [mm]. */
const FUZZ = 1e-5;

/** Builds the exact solid of a recipe [mm]; what occurs in it twice is built once. `keep`'s owner frees what it makes. */
export function exactSolid(oc: StepKernel, keep: Keep, recipe: Recipe): TopoDS_Shape {
  const built = new Map<Recipe, TopoDS_Shape>();
  const build = (of: Recipe): TopoDS_Shape => {
    const solid = built.get(of) ?? solidFrom(oc, keep, of, build);
    built.set(of, solid);
    return solid;
  };
  const whole = build(recipe);
  if (!('of' in recipe)) return whole;
  const joined = keep(new oc.ShapeUpgrade_UnifySameDomain(whole, true, true, false));
  joined.Build();
  return keep(joined.Shape());
}

function solidFrom(
  oc: StepKernel,
  keep: Keep,
  recipe: Recipe,
  build: (of: Recipe) => TopoDS_Shape,
): TopoDS_Shape {
  const space = (x: number, y: number, z: number) => keep(new oc.gp_Pnt(x, y, z));
  switch (recipe.op) {
    case 'loft':
      return loftSolid(oc, keep, recipe.through);
    case 'extrude': {
      const from = recipe.centred ? -recipe.height / 2 : 0;
      const up = keep(new oc.gp_Vec(0, 0, recipe.height));
      const faces = facesOf(oc, keep, recipe.contours, (x, y) => space(x, y, from));
      return united(
        oc,
        keep,
        faces.map((face) => keep(keep(new oc.BRepPrimAPI_MakePrism(face, up)).Shape())),
      );
    }
    case 'revolve': {
      const axis = keep(new oc.gp_Ax1(space(0, 0, 0), keep(new oc.gp_Dir(0, 0, 1))));
      const faces = facesOf(oc, keep, recipe.contours, (x, y) => space(x, 0, y));
      const angle = (recipe.degrees * Math.PI) / 180;
      return united(
        oc,
        keep,
        faces.map((face) =>
          keep(
            keep(
              recipe.degrees >= 360
                ? new oc.BRepPrimAPI_MakeRevol(face, axis)
                : new oc.BRepPrimAPI_MakeRevol(face, axis, angle),
            ).Shape(),
          ),
        ),
      );
    }
    case 'cone': {
      const { height, low, high, centred } = recipe;
      const [from, to] = centred ? [-height / 2, height / 2] : [0, height];
      const side: Contour = [
        [0, from],
        [low, from],
        [high, to],
        [0, to],
      ];
      const contour = side.filter(([r], i) => r > 0 || i === 0 || i === 3);
      return build({ op: 'revolve', contours: [contour], degrees: 360 });
    }
    case 'box': {
      const [x, y, z] = recipe.size;
      const solid = keep(keep(new oc.BRepPrimAPI_MakeBox(x, y, z)).Shape());
      return recipe.centred ? moved(oc, keep, solid, shift(-x / 2, -y / 2, -z / 2)) : solid;
    }
    case 'ball':
      return keep(keep(new oc.BRepPrimAPI_MakeSphere(recipe.radius)).Shape());
    case 'union':
      return united(oc, keep, recipe.of.map(build));
    case 'difference':
    case 'intersection': {
      const [first, ...rest] = recipe.of.map(build);
      if (rest.length === 0) return first;
      if (recipe.op === 'difference') return operated(oc, keep, new oc.BRepAlgoAPI_Cut(), [first], rest);
      return rest.reduce(
        (left, right) => operated(oc, keep, new oc.BRepAlgoAPI_Common(), [left], [right]),
        first,
      );
    }
    case 'moved':
      return moved(oc, keep, build(recipe.of), recipe.by);
    case 'trimmed': {
      const [x, y, z] = recipe.normal;
      const length = Math.hypot(x, y, z);
      const at = recipe.offset / length;
      const frame = keep(
        new oc.gp_Ax2(
          space((x / length) * at, (y / length) * at, (z / length) * at),
          keep(new oc.gp_Dir(x, y, z)),
        ),
      );
      const beyond = keep(keep(new oc.BRepPrimAPI_MakeCylinder(frame, FAR, FAR)).Shape());
      return operated(oc, keep, new oc.BRepAlgoAPI_Common(), [build(recipe.of)], [beyond]);
    }
    case 'facets':
      throw new Error(`Its surface comes from ${recipe.why}, which is known by facets only.`);
  }
}

const shift = (x: number, y: number, z: number) => [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, x, y, z, 1];

/** A solid moved, turned or mirrored by a 4 by 4 matrix, column after column. */
export function moved(oc: StepKernel, keep: Keep, solid: TopoDS_Shape, m: readonly number[]): TopoDS_Shape {
  const by = transformOf(oc, keep, m);
  return keep(keep(new oc.BRepBuilderAPI_Transform(solid, by, true, false)).Shape());
}

export function transformOf(oc: StepKernel, keep: Keep, m: readonly number[]) {
  const by = keep(new oc.gp_Trsf());
  by.SetValues(m[0], m[4], m[8], m[12], m[1], m[5], m[9], m[13], m[2], m[6], m[10], m[14]);
  return by;
}

type Operation = InstanceType<StepKernel['BRepAlgoAPI_Fuse' | 'BRepAlgoAPI_Cut' | 'BRepAlgoAPI_Common']>;

function operated(
  oc: StepKernel,
  keep: Keep,
  operation: Operation,
  arguments_: readonly TopoDS_Shape[],
  tools: readonly TopoDS_Shape[],
): TopoDS_Shape {
  keep(operation);
  const listed = (shapes: readonly TopoDS_Shape[]) => {
    const list = keep(new oc.NCollection_List_TopoDS_Shape());
    for (const shape of shapes) list.Append(shape);
    return list;
  };
  operation.SetArguments(listed(arguments_));
  operation.SetTools(listed(tools));
  operation.SetFuzzyValue(FUZZ);
  operation.Build(keep(new oc.Message_ProgressRange()));
  if (!operation.IsDone() || operation.HasErrors())
    throw new Error('The kernel of exact solids could not join its surfaces.');
  return keep(operation.Shape());
}

function united(oc: StepKernel, keep: Keep, solids: readonly TopoDS_Shape[]): TopoDS_Shape {
  if (solids.length === 1) return solids[0];
  return operated(oc, keep, new oc.BRepAlgoAPI_Fuse(), solids.slice(0, 1), solids.slice(1));
}

/** Plane faces inside the contours: those that run anticlockwise are outlines, the others holes in them. */
function facesOf(oc: StepKernel, keep: Keep, contours: readonly Contour[], at: ToSpace): TopoDS_Face[] {
  const outlines = contours.filter((contour) => area(contour) > 0);
  const holes = contours.filter((contour) => area(contour) < 0);
  return outlines.map((outline) => {
    const face = keep(new oc.BRepBuilderAPI_MakeFace(wireOf(oc, keep, outline, at), true));
    for (const hole of holes) {
      const around = outlines.filter((other) => inside(hole[0], other));
      const nearest = around.sort((a, b) => area(a) - area(b))[0];
      if (nearest === outline) face.Add(keep(oc.TopoDS.Wire(keep(wireOf(oc, keep, hole, at).Reversed()))));
    }
    return fixed(oc, keep, face.Face());
  });
}

/** Turns the holes of a face the right way round, whichever way the face looks. */
function fixed(oc: StepKernel, keep: Keep, face: TopoDS_Face): TopoDS_Face {
  const fix = keep(new oc.ShapeFix_Face(keep(face)));
  fix.FixOrientation();
  return keep(fix.Face());
}

function wireOf(oc: StepKernel, keep: Keep, contour: Contour, at: ToSpace): TopoDS_Wire {
  const wire = keep(new oc.BRepBuilderAPI_MakeWire());
  for (const piece of traced(contour)) wire.Add(keep(edgeOf(oc, keep, piece, at)));
  return keep(wire.Wire());
}

function edgeOf(oc: StepKernel, keep: Keep, piece: Piece, at: ToSpace) {
  switch (piece.kind) {
    case 'line':
      return keep(new oc.BRepBuilderAPI_MakeEdge(at(...piece.from), at(...piece.to))).Edge();
    case 'arc': {
      const arc = keep(new oc.GC_MakeArcOfCircle(at(...piece.from), at(...piece.over), at(...piece.to)));
      return keep(new oc.BRepBuilderAPI_MakeEdge(keep(arc.Value()))).Edge();
    }
    case 'circle': {
      const [x, y] = piece.centre;
      const [centre, a, b] = [at(x, y), at(x + 1, y), at(x, y + 1)];
      const across = keep(new oc.gp_Dir(keep(new oc.gp_Vec(centre, a))));
      const normal = keep(
        new oc.gp_Dir(keep(keep(new oc.gp_Vec(centre, a)).Crossed(keep(new oc.gp_Vec(centre, b))))),
      );
      const circle = keep(new oc.gp_Circ(keep(new oc.gp_Ax2(centre, normal, across)), piece.radius));
      return keep(new oc.BRepBuilderAPI_MakeEdge(circle)).Edge();
    }
    case 'curve': {
      const array = keep(new oc.NCollection_Array1_gp_Pnt(1, piece.points.length));
      piece.points.forEach((p, i) => array.SetValue(i + 1, at(...p)));
      const points = keep(new oc.NCollection_HArray1_gp_Pnt(array));
      const through = keep(new oc.GeomAPI_Interpolate(points, false, 1e-6));
      through.Perform();
      return keep(new oc.BRepBuilderAPI_MakeEdge(keep(through.Curve()))).Edge();
    }
  }
}

function area(contour: Contour): number {
  let twice = 0;
  for (let i = contour.length - 1, j = 0; j < contour.length; i = j++)
    twice += contour[i][0] * contour[j][1] - contour[j][0] * contour[i][1];
  return twice / 2;
}

function inside([x, y]: readonly [number, number], contour: Contour): boolean {
  let within = false;
  for (let i = contour.length - 1, j = 0; j < contour.length; i = j++) {
    const [[ax, ay], [bx, by]] = [contour[i], contour[j]];
    if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) within = !within;
  }
  return within;
}
