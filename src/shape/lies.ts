import type { Fan, Lie } from '../project/schema.ts';
import { bladeAt, bladeCurves } from './blade.ts';

/** A direction of length 1 in a fan's own axes: x out along blade number one, z downstream. */
export type FanDirection = readonly [x: number, y: number, z: number];

/** The radius whose chord lies flat, over the span: most of the air's load is outward of the middle. */
const FLAT_AT = 0.7;

/** What of a kind of part faces the bed where the project lays it itself; null: as usual. */
export function chosenDown(fan: Pick<Fan, 'lies' | 'bladesPrinted'>, part: Lie['part']): FanDirection | null {
  // Blades apart have ways of their own, and the list counts only where they say so.
  if (part === 'blade' && fan.bladesPrinted !== 'as laid') return null;
  const lie = fan.lies.find((one) => one.part === part);
  if (!lie) return null;
  const length = Math.hypot(lie.downX, lie.downY, lie.downZ);
  return length > 1e-6 ? [lie.downX / length, lie.downY / length, lie.downZ / length] : null;
}

/**
 * What of a blade apart faces the bed. Standing, the foot of its key; lying, its pressure side, with the chord at 70 % of
 * the span flat: the chord runs along (0, cos, sin) in the fan and the pressure side faces downstream of it.
 */
export function bladeDown(fan: Fan): FanDirection {
  const chosen = chosenDown(fan, 'blade');
  if (chosen) return chosen;
  return fan.bladesPrinted === 'lying' ? lyingDown(fan) : STANDING_DOWN;
}

export const STANDING_DOWN: FanDirection = [-1, 0, 0];

export function lyingDown(fan: Fan): FanDirection {
  const curves = bladeCurves(fan);
  const { angle } = bladeAt(curves, curves.hubRadius + FLAT_AT * (curves.tipRadius - curves.hubRadius));
  return [0, -Math.sin(angle), Math.cos(angle)];
}

/**
 * Build direction as a blade along x of the fan sees it. In a rotor laid askew each blade sees another; this is then the
 * one that stands most, which prints worst and holds least.
 */
export function bladeUp(fan: Fan): FanDirection {
  if (fan.rotorParts === 'blades apart') {
    const [x, y, z] = bladeDown(fan);
    return [-x, -y, -z];
  }
  const [x, y, z] = chosenDown(fan, 'rotor') ?? [0, 0, -1];
  return [Math.hypot(x, y), 0, -z];
}

/** A blade whose span leans out of the layers by more than 30 degrees is taken to hold as one across them: the safe side. */
export const standsAcross = (fan: Fan): boolean => Math.abs(bladeUp(fan)[0]) > 0.5;

/** Directions this near (cosine) are the same lie. */
const SAME = 0.9998;

const same = (a: FanDirection, b: FanDirection) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2] > SAME;

/** The fan with one kind of part laid so; null, or its usual lie `usual`, takes the choice back. */
export function withLie(fan: Fan, part: Lie['part'], down: FanDirection | null, usual?: FanDirection): Fan {
  const others = fan.lies.filter((one) => one.part !== part);
  const without: Fan = { ...fan, lies: others };
  const laid = (): Fan => {
    const [downX, downY, downZ] = down!.map((value) => Number(value.toFixed(5)) + 0);
    return { ...fan, lies: [...others, { part, downX, downY, downZ }] };
  };
  if (part === 'blade') {
    if (!down || same(down, STANDING_DOWN)) return { ...without, bladesPrinted: 'standing' };
    if (same(down, lyingDown(fan))) return { ...without, bladesPrinted: 'lying' };
    return { ...laid(), bladesPrinted: 'as laid' };
  }
  return !down || (usual && same(down, usual)) ? without : laid();
}
