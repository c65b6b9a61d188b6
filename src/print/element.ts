/**
 * The smallest thing a printer lays down, as it looks along the span of a blade: a short piece of line is a flat cylinder,
 * one line wide and one layer high. Its shadow on the section is an ellipse (the round of the line) swept along the build
 * direction (the height of the layer). Lengths in m; x lies in the layer, y along the build direction as the section sees it.
 */
export interface Element {
  /** Half the line width: half the shadow across the build direction. */
  readonly half: number;
  /** The round's half height over its half width: 1 where the blade stands upright, 0 where the section does. */
  readonly round: number;
  /** Half the sweep along y. */
  readonly sweep: number;
}

/** Rounds flatter than this are taken as none: the shadow is then a rectangle. */
const FLAT = 0.02;

/**
 * The element of a printer. `alongSpan` is |cosine| of the angle between build direction and span: 0 for a rotor printed
 * flat on the bed (a rectangle, line width by layer), 1 for a blade printed upright (a disc, one line width across).
 */
export function elementOf(lineWidth: number, layer: number, alongSpan: number): Element {
  const round = Math.min(1, Math.abs(alongSpan));
  return {
    half: lineWidth / 2,
    round: round < FLAT ? 0 : round,
    sweep: (layer / 2) * Math.sqrt(Math.max(0, 1 - round * round)),
  };
}

/** How the opening asks an element. Coordinates are those of `toElement`. */
export interface Probe {
  /** Factor on y that makes the element a rectangle, or a disc swept along y. */
  readonly scaleY: number;
  /** How far it reaches to each side. */
  readonly reachX: number;
  readonly reachY: number;
  /** Point of the element furthest along (nx, ny), into `out`. */
  readonly touch: (nx: number, ny: number, out: Float64Array) => void;
  /** Whether the element at (x, y), a hair smaller, overlaps the edge from (ax, ay) to (bx, by). */
  readonly meets: (x: number, y: number, ax: number, ay: number, bx: number, by: number) => boolean;
  /** Points of the element's rim from offset (x0, y0) anticlockwise to (x1, y1), both left out, in turn to `put`. */
  readonly rim: (x0: number, y0: number, x1: number, y1: number, put: (x: number, y: number) => void) => void;
}

/** The element is shrunk by this share before it is tried, so that the facets of a smooth curve do not stop it. */
const HAIR = 0.004;

export const probeOf = (element: Element): Probe =>
  element.round === 0 ? rectangle(element.half, element.sweep) : capsule(element);

/** Turn from one direction anticlockwise to another, 0..2 pi; a hair backward counts as none. */
function turn(from: number, to: number): number {
  const t = to - from;
  const whole = t < 0 ? t + 2 * Math.PI : t;
  return whole > 1.9 * Math.PI ? 0 : whole;
}

function rectangle(a: number, b: number): Probe {
  const sa = a * (1 - HAIR);
  const sb = b * (1 - HAIR);
  const corners = [
    [a, b],
    [-a, b],
    [-a, -b],
    [a, -b],
  ] as const;
  const angle = (x: number, y: number) => Math.atan2(y / b, x / a);
  return {
    scaleY: 1,
    reachX: a,
    reachY: b,
    touch(nx, ny, out) {
      const size = Math.abs(nx) + Math.abs(ny);
      out[0] = Math.abs(nx) < 1e-9 * size ? 0 : nx > 0 ? a : -a;
      out[1] = Math.abs(ny) < 1e-9 * size ? 0 : ny > 0 ? b : -b;
    },
    meets(x, y, ax, ay, bx, by) {
      const px = ax - x;
      const py = ay - y;
      const qx = bx - x;
      const qy = by - y;
      if ((px >= sa && qx >= sa) || (px <= -sa && qx <= -sa)) return false;
      if ((py >= sb && qy >= sb) || (py <= -sb && qy <= -sb)) return false;
      const nx = qy - py;
      const ny = px - qx;
      return Math.abs(nx * px + ny * py) < sa * Math.abs(nx) + sb * Math.abs(ny);
    },
    rim(x0, y0, x1, y1, put) {
      const from = angle(x0, y0);
      const whole = turn(from, angle(x1, y1));
      const between = corners
        .map(([x, y]) => ({ x, y, at: turn(from, Math.atan2(y / b, x / a)) }))
        .filter(({ at }) => at > 1e-9 && at < whole - 1e-9)
        .sort((p, q) => p.at - q.at);
      for (const { x, y } of between) put(x, y);
    },
  };
}

/** Steps of the rounded ends. */
const RIM_STEP = Math.PI / 20;

function capsule({ half, round, sweep }: Element): Probe {
  const long = sweep / round;
  const near = (half * (1 - HAIR)) ** 2;
  const reach = half + long;
  /** Squared distance of (px, py) from the piece of a line (ax, ay) to (bx, by). */
  const apart = (px: number, py: number, ax: number, ay: number, bx: number, by: number) => {
    const dx = bx - ax;
    const dy = by - ay;
    const length = dx * dx + dy * dy;
    const t = length > 0 ? Math.min(1, Math.max(0, ((px - ax) * dx + (py - ay) * dy) / length)) : 0;
    return (px - ax - t * dx) ** 2 + (py - ay - t * dy) ** 2;
  };
  return {
    scaleY: 1 / round,
    reachX: half,
    reachY: reach,
    touch(nx, ny, out) {
      const size = Math.hypot(nx, ny) || 1;
      out[0] = (half * nx) / size;
      out[1] = (half * ny) / size + (Math.abs(ny) < 1e-9 * size ? 0 : ny > 0 ? long : -long);
    },
    meets(x, y, ax, ay, bx, by) {
      if ((ax > x + half && bx > x + half) || (ax < x - half && bx < x - half)) return false;
      if ((ay > y + reach && by > y + reach) || (ay < y - reach && by < y - reach)) return false;
      if (long === 0) return apart(x, y, ax, ay, bx, by) < near;
      if (ax - x > 0 !== bx - x > 0) {
        const crossing = ay + ((by - ay) * (x - ax)) / (bx - ax);
        if (Math.abs(crossing - y) < long) return true;
      }
      return (
        apart(ax, ay, x, y - long, x, y + long) < near ||
        apart(bx, by, x, y - long, x, y + long) < near ||
        apart(x, y - long, ax, ay, bx, by) < near ||
        apart(x, y + long, ax, ay, bx, by) < near
      );
    },
    rim(x0, y0, x1, y1, put) {
      const strip = (y: number) => (Math.abs(y) <= long ? 0 : y - Math.sign(y) * long);
      const from = Math.atan2(strip(y0), x0);
      const whole = turn(from, Math.atan2(strip(y1), x1));
      const steps = Math.ceil(whole / RIM_STEP);
      for (let k = 1; k < steps; k++) {
        const at = from + (whole * k) / steps;
        const sine = Math.sin(at);
        put(half * Math.cos(at), half * sine + (Math.abs(sine) < 1e-9 ? 0 : Math.sign(sine) * long));
      }
    },
  };
}
