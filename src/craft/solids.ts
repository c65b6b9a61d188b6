/** A place or a direction [m]: x forward, y to the right, z down, the way the air goes. */
export type Vector = readonly [x: number, y: number, z: number];

/** A thing aboard as a simple solid of even density, its edges and axis along x, y, z. */
export interface Solid {
  readonly name: string;
  /** [kg] */
  readonly mass: number;
  /** Its middle [m] */
  readonly at: Vector;
  readonly shape:
    | { readonly kind: 'box'; readonly length: number; readonly width: number; readonly height: number }
    | { readonly kind: 'tube'; readonly inner: number; readonly outer: number; readonly height: number };
}

/** Mass, centre of mass and inertia about it, of a whole made of solids. */
export interface MassProperties {
  /** [kg] */
  readonly mass: number;
  /** [m] */
  readonly centre: Vector;
  /** Moments about axes through the centre of mass [kg m2] */
  readonly roll: number;
  readonly pitch: number;
  readonly yaw: number;
  /** Products, the sums of m x y and so on [kg m2]; 0 where the craft is symmetric. */
  readonly products: { readonly xy: number; readonly xz: number; readonly yz: number };
}

/**
 * Moments about the solid's own middle [kg m2]: box m (b^2 + h^2) / 12; tube about its axis m (r^2 + R^2) / 2, across it
 * m (3 (r^2 + R^2) + h^2) / 12. Source: any text of mechanics; e.g. Meriam and Kraige, Dynamics, table D/4 (from memory).
 */
function ownMoments({ mass, shape }: Solid): Vector {
  if (shape.kind === 'box') {
    const [l, w, h] = [shape.length ** 2, shape.width ** 2, shape.height ** 2];
    return [(mass * (w + h)) / 12, (mass * (l + h)) / 12, (mass * (l + w)) / 12];
  }
  const radii = shape.inner ** 2 + shape.outer ** 2;
  const across = (mass * (3 * radii + shape.height ** 2)) / 12;
  return [across, across, (mass * radii) / 2];
}

/** Adds solids up by the parallel-axes theorem (Steiner). Without mass everything is 0. */
export function massProperties(solids: readonly Solid[]): MassProperties {
  const mass = solids.reduce((sum, s) => sum + s.mass, 0);
  const mean = (i: number) => (mass > 0 ? solids.reduce((sum, s) => sum + s.mass * s.at[i], 0) / mass : 0);
  const centre: Vector = [mean(0), mean(1), mean(2)];
  let roll = 0;
  let pitch = 0;
  let yaw = 0;
  const products = { xy: 0, xz: 0, yz: 0 };
  for (const solid of solids) {
    const own = ownMoments(solid);
    const [x, y, z] = solid.at.map((at, i) => at - centre[i]);
    roll += own[0] + solid.mass * (y * y + z * z);
    pitch += own[1] + solid.mass * (x * x + z * z);
    yaw += own[2] + solid.mass * (x * x + y * y);
    products.xy += solid.mass * x * y;
    products.xz += solid.mass * x * z;
    products.yz += solid.mass * y * z;
  }
  return { mass, centre, roll, pitch, yaw, products };
}
