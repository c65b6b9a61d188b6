import type { Kernel, Solid } from '../kernel.ts';
import { loftPointsOf } from '../loft.ts';
import { combined } from '../placement.ts';
import type { Contour, Recipe } from './recipe.ts';

type Section = InstanceType<Kernel['CrossSection']>;
type Method = (...args: unknown[]) => unknown;

/** A kernel that does what the given one does and notes how every solid came about. */
export interface Recorder {
  readonly kernel: Kernel;
  /** How the solid was built whose surface was taken out last; null before the first. */
  readonly last: () => Recipe | null;
}

/**
 * Wraps the mesh kernel, so that the functions that mesh a part also say how it is built. The exact solids are made from
 * these notes: one description of each part serves both, and none can fall behind the other.
 */
export function recorder(kernel: Kernel): Recorder {
  const recipes = new WeakMap<object, Recipe>();
  const real = new WeakMap<object, object>();
  const meshes = new WeakMap<object, Float32Array>();
  let last: Recipe | null = null;

  const unwrap = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(unwrap);
    return value instanceof Object ? (real.get(value) ?? value) : value;
  };
  const recipeOf = (wrapped: unknown): Recipe =>
    recipes.get(wrapped as object) ?? { op: 'facets', why: 'a solid of unknown origin' };
  const isSolid = (value: unknown): value is Solid => value instanceof kernel.Manifold;

  function wrapped(solid: Solid, recipe: Recipe): Solid {
    const proxy: Solid = new Proxy(solid, {
      get(target, key) {
        const method: unknown = Reflect.get(target, key);
        if (typeof method !== 'function') return method;
        return (...args: unknown[]) => {
          const given = args.map(unwrap);
          if (key === 'getMesh') last = recipe;
          const result: unknown = (method as Method).apply(target, given);
          if (isSolid(result)) return wrapped(result, after(recipe, String(key), args));
          if (Array.isArray(result) && result.every(isSolid))
            return result.map((piece) =>
              wrapped(piece, { op: 'facets', why: `a piece left by "${String(key)}"` }),
            );
          return result;
        };
      },
    });
    recipes.set(proxy, recipe);
    real.set(proxy, solid);
    return proxy;
  }

  function after(of: Recipe, method: string, args: unknown[]): Recipe {
    const moved = (by: readonly number[]): Recipe =>
      of.op === 'moved' ? { op: 'moved', by: combined(by, of.by), of: of.of } : { op: 'moved', by, of };
    switch (method) {
      case 'simplify':
      case 'asOriginal':
      case 'setProperties':
      case 'calculateNormals':
      case 'refine':
        return of;
      case 'translate':
        return moved(translation(vector(args, 0)));
      case 'rotate':
        return moved(rotation(vector(args, 0)));
      case 'scale': {
        const by = typeof args[0] === 'number' ? [args[0], args[0], args[0]] : vector(args, 1);
        return moved([by[0], 0, 0, 0, 0, by[1], 0, 0, 0, 0, by[2], 0, 0, 0, 0, 1]);
      }
      case 'mirror':
        return moved(reflection(vector(args, 0)));
      case 'transform':
        return moved(args[0] as number[]);
      case 'add':
        return { op: 'union', of: [of, recipeOf(args[0])] };
      case 'subtract':
        return { op: 'difference', of: [of, recipeOf(args[0])] };
      case 'intersect':
        return { op: 'intersection', of: [of, recipeOf(args[0])] };
      case 'trimByPlane':
        return {
          op: 'trimmed',
          normal: args[0] as [number, number, number],
          offset: args[1] as number,
          of,
        };
      default:
        return { op: 'facets', why: `the result of "${method}"` };
    }
  }

  const contoursOf = (section: unknown): Contour[] => {
    const given = unwrap(section);
    if (given instanceof kernel.CrossSection) return given.toPolygons();
    const list = given as Contour | Contour[];
    const scratch = new kernel.CrossSection(
      list as ConstructorParameters<Kernel['CrossSection']>[0],
      'Positive',
    );
    try {
      return scratch.toPolygons();
    } finally {
      scratch.delete();
    }
  };
  const extruded = (section: unknown, [height, , twist, top, centred]: readonly unknown[]): Recipe => {
    const scaled =
      top !== undefined && (typeof top === 'number' ? [top, top] : (top as number[])).some((s) => s !== 1);
    if (twist || scaled) return { op: 'facets', why: 'a twisted or tapered plate' };
    return {
      op: 'extrude',
      contours: contoursOf(section),
      height: height as number,
      centred: centred === true,
    };
  };
  const revolved = (section: unknown, [, degrees]: readonly unknown[]): Recipe => ({
    op: 'revolve',
    contours: contoursOf(section),
    degrees: (degrees as number | undefined) ?? 360,
  });

  function wrappedSection(section: Section): Section {
    const proxy: Section = new Proxy(section, {
      get(target, key) {
        const method: unknown = Reflect.get(target, key);
        if (typeof method !== 'function') return method;
        return (...args: unknown[]) => {
          const result: unknown = (method as Method).apply(target, args.map(unwrap));
          if (isSolid(result))
            return wrapped(result, key === 'extrude' ? extruded(target, args) : revolved(target, args));
          return result instanceof kernel.CrossSection ? wrappedSection(result) : result;
        };
      },
    });
    real.set(proxy, section);
    return proxy;
  }

  const list = (args: unknown[]): Recipe[] => (Array.isArray(args[0]) ? args[0] : args).map(recipeOf);
  const made: Record<string, (args: unknown[]) => Recipe> = {
    union: (args) => ({ op: 'union', of: list(args) }),
    compose: (args) => ({ op: 'union', of: list(args) }),
    difference: (args) => ({ op: 'difference', of: list(args) }),
    intersection: (args) => ({ op: 'intersection', of: list(args) }),
    extrude: (args) => extruded(args[0], args.slice(1)),
    revolve: (args) => revolved(args[0], args.slice(1)),
    cylinder: ([height, low, high, , centred]) => ({
      op: 'cone',
      height: height as number,
      low: low as number,
      high: high === undefined || (high as number) < 0 ? (low as number) : (high as number),
      centred: centred === true,
    }),
    cube: ([size, centred]) => ({
      op: 'box',
      size: (Array.isArray(size) ? size : [size ?? 1, size ?? 1, size ?? 1]) as [number, number, number],
      centred: centred === true,
    }),
    sphere: ([radius]) => ({ op: 'ball', radius: radius as number }),
  };

  const Manifold = new Proxy(kernel.Manifold, {
    construct(target, [mesh]: object[]) {
      const solid = new target(mesh as ConstructorParameters<typeof target>[0]);
      const positions = meshes.get(mesh);
      const through = positions && loftPointsOf(positions);
      return wrapped(
        solid,
        through ? { op: 'loft', through } : { op: 'facets', why: 'a surface of triangles' },
      );
    },
    get(target, key) {
      const method: unknown = Reflect.get(target, key);
      if (typeof method !== 'function' || key === 'prototype') return method;
      return (...args: unknown[]) => {
        const result: unknown = (method as Method).apply(target, args.map(unwrap));
        if (!isSolid(result)) return result;
        const recipe = made[String(key)]?.(args) ?? { op: 'facets', why: `the result of "${String(key)}"` };
        return wrapped(result, recipe);
      };
    },
  });
  const CrossSection = new Proxy(kernel.CrossSection, {
    construct: (target, args) => wrappedSection(Reflect.construct(target, args.map(unwrap)) as Section),
    get(target, key) {
      const method: unknown = Reflect.get(target, key);
      if (typeof method !== 'function' || key === 'prototype') return method;
      return (...args: unknown[]) => {
        const result: unknown = (method as Method).apply(target, args.map(unwrap));
        return result instanceof kernel.CrossSection ? wrappedSection(result) : result;
      };
    },
  });
  const Mesh = new Proxy(kernel.Mesh, {
    construct(target, [options]: [ConstructorParameters<Kernel['Mesh']>[0]]) {
      const mesh = new target(options);
      meshes.set(mesh, options.vertProperties);
      return mesh;
    },
  });
  return { kernel: { ...kernel, Manifold, CrossSection, Mesh }, last: () => last };
}

/** Three numbers given one by one or as a list. */
function vector(args: unknown[], missing: number): [number, number, number] {
  const given = (Array.isArray(args[0]) ? args[0] : args) as (number | undefined)[];
  return [given[0] ?? missing, given[1] ?? missing, given[2] ?? missing];
}

const translation = ([x, y, z]: readonly number[]) => [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, x, y, z, 1];

/** Turns about x, then y, then z [deg]. */
function rotation(degrees: readonly number[]): number[] {
  const [[cx, sx], [cy, sy], [cz, sz]] = degrees.map((d) => [
    Math.cos((d * Math.PI) / 180),
    Math.sin((d * Math.PI) / 180),
  ]);
  const aboutX = [1, 0, 0, 0, 0, cx, sx, 0, 0, -sx, cx, 0, 0, 0, 0, 1];
  const aboutY = [cy, 0, -sy, 0, 0, 1, 0, 0, sy, 0, cy, 0, 0, 0, 0, 1];
  const aboutZ = [cz, sz, 0, 0, -sz, cz, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1];
  return combined(aboutZ, combined(aboutY, aboutX));
}

function reflection(normal: readonly number[]): number[] {
  const length = Math.hypot(...normal);
  const n = normal.map((value) => value / length);
  const at = (row: number, column: number) => (row === column ? 1 : 0) - 2 * n[row] * n[column];
  return [
    ...[at(0, 0), at(1, 0), at(2, 0), 0],
    ...[at(0, 1), at(1, 1), at(2, 1), 0],
    ...[at(0, 2), at(1, 2), at(2, 2), 0],
    ...[0, 0, 0, 1],
  ];
}
