import type { Design } from '../../project/schema.ts';
import { fanLayout, type FanLayout } from '../../shape/layout.ts';
import type { Mesh } from '../mesh.ts';
import type { PartKind } from '../part.ts';
import { airFaceOf, onBed } from './aerodynamic.ts';
import type { Direction } from './lie.ts';
import type { LyingPart } from './orientation.ts';
import type { Span } from './span.ts';
import type { CheckedPart } from './types.ts';

interface Placed extends Mesh {
  readonly kind: PartKind;
  readonly placement: readonly number[];
}

/** Parts whose blades are weighed along their span. */
const WITH_BLADES: readonly PartKind[] = ['rotor', 'blade'];

/** Parts that their own turning pulls apart on all sides. */
const TURNING: readonly PartKind[] = ['rotor', 'hub', 'hubCap', 'spinner'];

/** A made part ready for the layer check. */
export function checkedPart(part: Placed & { readonly name: string }, design: Design): CheckedPart {
  const m = part.placement;
  const layout = fanLayout(design.fan, design.motor);
  return {
    name: part.name,
    positions: part.positions,
    indices: part.indices,
    airFace: onBed(airFaceOf(part.kind, layout), m),
    span: WITH_BLADES.includes(part.kind) ? spanOf(m, layout) : null,
  };
}

/** A made part ready for the search of its best lie; a blade by itself is loaded along its span, a rotor every way outward. */
export function lyingPart(part: Placed, design: Design): LyingPart {
  const m = part.placement;
  return {
    positions: part.positions,
    indices: part.indices,
    airFace: onBed(airFaceOf(part.kind, fanLayout(design.fan, design.motor)), m),
    loadAxis: part.kind === 'blade' ? spanOnBed(m) : null,
    ...(TURNING.includes(part.kind) && { turnAxis: axisOnBed(m) }),
  };
}

function spanOf(m: readonly number[], layout: FanLayout): Span {
  const radiusAt = (x: number, y: number, z: number) =>
    Math.hypot(m[0] * x + m[4] * y + m[8] * z + m[12], m[1] * x + m[5] * y + m[9] * z + m[13]);
  const upright = Math.abs(m[10]) > 0.999999 && Math.hypot(m[12], m[13]) < 1e-6;
  return {
    from: 1e3 * layout.hubRadius,
    to: 1e3 * layout.tipRadius,
    radiusAt,
    stands: upright ? 'upright' : { along: spanOnBed(m), origin: m[12] },
  };
}

const axisOnBed = (m: readonly number[]): Direction => [m[2], m[6], m[10]];

/** The fan's x, along which blade number one stands, on the bed: the first row of the placement's rotation. */
const spanOnBed = (m: readonly number[]): Direction => [m[0], m[4], m[8]];
