import type { Profile } from '../../shape/profiles.ts';
import type { Point } from './curve.ts';

/**
 * The duct's section as an open polyline that starts and ends at the inner edge of its exit: along the exit face, up the
 * outside, round the lip, down the inside. With that sense positive surface vorticity is flow along the walk.
 * Throws where the section has fewer than three points, reaches the axis or holds a value that is not a number.
 */
export function ductWalk(profile: Profile): Point[] {
  const points = checked(profile, 'duct');
  if (points.some(([, r]) => !(r > 0))) throw new Error('the duct section must stay clear of the axis');
  let twice = 0;
  points.forEach(([z, r], i) => {
    const [nextZ, nextR] = points[(i + 1) % points.length];
    twice += r * nextZ - nextR * z;
  });
  if (twice > 0) points.reverse();
  const low = Math.min(...points.map(([z]) => z));
  const high = Math.max(...points.map(([z]) => z));
  let exit = -1;
  points.forEach(([z, r], i) => {
    if (z > high - 1e-6 * (high - low) && (exit < 0 || r < points[exit][1])) exit = i;
  });
  const walk = [...points.slice(exit), ...points.slice(0, exit)];
  return [...walk, walk[0]];
}

/**
 * The centre body's outside as an open polyline from its tail on the axis to its nose on the axis. Takes a closed section
 * or an open line; a bored body is closed over its bore.
 */
export function bodyWalk(profile: Profile): Point[] {
  const points = checked(profile, 'centre body');
  if (points.some(([, r]) => r < -1e-12)) throw new Error('the centre body must not reach across the axis');
  const outline = centreBodyOutline([points]);
  return outline.reverse();
}

/** Length of the dead air behind a blunt base, in base radii: from memory, about what wakes behind discs and steps close in. */
const DEAD_AIR = 2.5;

/**
 * Outside of several turned parts together (hub, motor, seat, tail cone): greatest radius over z, gaps bridged, from nose
 * to tail on the axis [m]. With `closeBase` a blunt base is closed by a cone of dead air, as air does not turn round it.
 */
export function centreBodyOutline(parts: readonly Profile[], closeBase = false): Point[] {
  const stations = [...new Set(parts.flatMap((part) => part.map(([z]) => z)))].sort((a, b) => a - b);
  if (stations.length < 2) throw new Error('a centre body needs length along the axis');
  const out: Point[] = [[stations[0], 0]];
  for (let i = 0; i + 1 < stations.length; i++) {
    const from = stations[i];
    const to = stations[i + 1];
    const nearStart = greatest(parts, from + 1e-6 * (to - from));
    const nearEnd = greatest(parts, to - 1e-6 * (to - from));
    if (nearStart === 0 && nearEnd === 0) continue;
    out.push([from, nearStart], [to, nearEnd]);
  }
  const [lastZ, lastR] = out[out.length - 1];
  out.push([closeBase ? lastZ + DEAD_AIR * lastR : lastZ, 0]);
  const size = stations[stations.length - 1] - stations[0];
  const kept = out.filter(
    ([z, r], i) => i === 0 || Math.hypot(z - out[i - 1][0], r - out[i - 1][1]) > 2e-6 * size,
  );
  kept[0] = [kept[0][0], 0];
  kept[kept.length - 1] = [kept[kept.length - 1][0], 0];
  return kept;
}

function greatest(parts: readonly Profile[], z: number): number {
  let most = 0;
  for (const part of parts)
    for (let i = part.length - 1, j = 0; j < part.length; i = j++) {
      const [z0, r0] = part[i];
      const [z1, r1] = part[j];
      if ((z0 - z) * (z1 - z) > 0 || z0 === z1) continue;
      most = Math.max(most, r0 + ((r1 - r0) * (z - z0)) / (z1 - z0));
    }
  return most;
}

function checked(profile: Profile, what: string): Point[] {
  if (profile.length < 3) throw new Error(`the ${what} section needs at least three points`);
  for (const [z, r] of profile)
    if (!Number.isFinite(z) || !Number.isFinite(r))
      throw new Error(`the ${what} section holds a point that is not a number: [${z}, ${r}]`);
  const size = Math.max(...profile.map(([z, r]) => Math.max(Math.abs(z), Math.abs(r))));
  return profile
    .filter(([z, r], i) => {
      const [lastZ, lastR] = profile[(i || profile.length) - 1];
      return Math.hypot(z - lastZ, r - lastR) > 1e-9 * size;
    })
    .map(([z, r]): Point => [z, r]);
}
