import { COUPON } from '../print/coupon.ts';
import { sound, withSolids, type Kernel, type Solid } from './kernel.ts';
import { meshOf, type Mesh } from './mesh.ts';

/** Facets of the round features. */
const FACETS = 96;

/** Room between two features and to the edge [mm]. */
const ROOM = 4;

/** Notch in the edge at the end where a row begins, and the smaller ones under every feature [mm]. */
const START_NOTCH = 2;
const NOTCH = 0.8;

/** Where each feature stands on the base [mm]: middle in x and y. Rows from the front edge: holes, pins, slots, fins and leans. */
export function couponPlaces() {
  const row = (sizes: readonly number[], y: number, pitch: number, from = ROOM) => {
    let x = from;
    return sizes.map((size) => {
      const at = { size, x: x + size / 2, y };
      x += size + pitch;
      return at;
    });
  };
  const { fins, gaps, leans, pins, holes } = COUPON;
  return {
    holes: row(holes, 8, 5),
    pins: row(pins.diameter, 8, 3.2, 57),
    gaps: row(
      gaps.width.map((w) => w + gaps.block),
      19,
      0,
    ).map((at, i) => ({ ...at, size: gaps.width[i] })),
    fins: row(fins.thickness, 19, 3.4, 44),
    leans: row(
      leans.angle.map(() => leans.width),
      32,
      5,
    ).map((at, i) => ({ ...at, size: leans.angle[i] })),
  };
}

/**
 * The coupon [mm], base down, as it prints: holes and pins, slots between blocks, fins, leaning walls. A large notch in the
 * left edge marks where each row begins, a small one in the front or back edge each feature of the row next to it; the cut
 * corner is front left, so that the rows cannot be read the wrong way round.
 */
export function couponMesh(kernel: Kernel): Mesh {
  const { base, fins, gaps, leans, pins } = COUPON;
  const places = couponPlaces();
  return withSolids((keep) => {
    const box = (x: number, y: number, z: number, dx: number, dy: number, dz: number): Solid =>
      keep(keep(kernel.Manifold.cube([dx, dy, dz])).translate([x, y, z]));
    const round = (d: number, x: number, y: number, z: number, h: number): Solid =>
      keep(keep(kernel.Manifold.cylinder(h, d / 2, d / 2, FACETS)).translate([x, y, z]));
    /** A prism of triangular plan that cuts a notch of depth `d` around (x, y). */
    const notch = (x: number, y: number, d: number): Solid =>
      keep(
        keep(keep(kernel.Manifold.cylinder(base.height + 2, d, d, 4)).rotate([0, 0, 0])).translate([
          x,
          y,
          -1,
        ]),
      );
    const top = base.height;
    // Features sink a little into the base, so that they are one with it.
    const sunk = 0.2;
    const added: Solid[] = [box(0, 0, 0, base.length, base.width, base.height)];
    const cut: Solid[] = [notch(0, 0, 2 * START_NOTCH)];
    for (const { size, x, y } of places.pins) added.push(round(size, x, y, top - sunk, pins.height + sunk));
    for (const { size, x, y } of places.holes) cut.push(round(size, x, y, -1, top + 2));
    for (const { size, x, y } of places.fins)
      added.push(box(x - size / 2, y - fins.length / 2, top - sunk, size, fins.length, fins.height + sunk));
    const height = gaps.height + sunk;
    const first = places.gaps[0];
    added.push(
      box(
        first.x - (first.size + gaps.block) / 2,
        first.y - gaps.length / 2,
        top - sunk,
        gaps.block,
        gaps.length,
        height,
      ),
    );
    for (const { size, x, y } of places.gaps) {
      const blockFrom = x - (size + gaps.block) / 2 + gaps.block + size;
      added.push(box(blockFrom, y - gaps.length / 2, top - sunk, gaps.block, gaps.length, height));
    }
    for (const { size, x, y } of places.leans) {
      const reach = leans.height * Math.tan((size * Math.PI) / 180);
      const wide = leans.thickness / Math.cos((size * Math.PI) / 180);
      // In the plane of y and z: a strip that leans back, standing on the base.
      const strip = keep(
        new kernel.CrossSection([
          [
            [0, -sunk],
            [wide, -sunk],
            [wide, 0],
            [wide + reach, leans.height],
            [reach, leans.height],
            [0, 0],
          ],
        ]),
      );
      const along = keep(kernel.Manifold.extrude(strip, leans.width));
      // x and y of the strip become y and z, the extrusion x.
      const stood = keep(along.transform([0, 1, 0, 0, 0, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0, 1]));
      added.push(keep(stood.translate([x - leans.width / 2, y, top])));
    }
    for (const y of [places.holes[0].y, places.gaps[0].y, places.leans[0].y])
      cut.push(notch(0, y, START_NOTCH));
    for (const { x } of [...places.holes, ...places.pins]) cut.push(notch(x, 0, NOTCH));
    for (const { x } of places.leans) cut.push(notch(x, base.width, NOTCH));
    const whole = keep(kernel.Manifold.union(added));
    const tool = keep(kernel.Manifold.union(cut));
    return meshOf(sound(keep(whole.subtract(tool)), 'coupon'));
  });
}
