import { findRoot } from '../numerics/root.ts';
import { bladeClearance } from '../shape/root.ts';
import type { Air } from './atmosphere.ts';
import type { WantedFlow } from './design-flow.ts';
import { stallOf } from './limits.ts';
import { liftDrag, sectionStream, type SectionShape } from './section.ts';

/** One place on the blade, as far as it is not for the design to choose. SI. */
export interface BladePlace {
  readonly radius: number;
  readonly bladeCount: number;
  /** Family, camber and camber position count; thickness is the wanted one over chord. */
  readonly section: SectionShape;
  /** Thickness of the back edge [m] */
  readonly trailingEdge: number;
  /** Least thickness that prints [m] */
  readonly leastThickness: number;
}

/** How a section works at one place. */
export interface Working {
  readonly chord: number;
  readonly alpha: number;
  readonly cl: number;
  readonly cd: number;
  /** Drag to lift as an angle [rad] */
  readonly drag: number;
  /** Axial force coefficient, and the most it may be with the stall margin kept. */
  readonly cx: number;
  readonly mostCx: number;
  /** The wanted force asks for more lift than the margin to the stall leaves. */
  readonly short: boolean;
}

/** Largest thickness over chord a section is thickened to so that it prints: beyond, it is a bar. Our choice. */
export const THICKEST = 0.16;

/** Largest solidity of a designed blade: past about 1 blades are a channel the section model does not know. Our choice. */
const MOST_SOLID = 0.95;

/** Room kept between neighbouring blades, over the pitch. Common practice, no source. */
const ROOM = 0.04;

/** Chords tried between least and largest, in each round in which the range closes in on the best. */
const CHORDS = 8;

/** Lowest angle of attack looked at below zero lift [rad]. */
const BELOW_ZERO_LIFT = 0.12;

/** Thickness over chord that prints on `chord` [m]: the wanted one or more. */
export const thicknessFor = (place: BladePlace, chord: number): number =>
  Math.max(place.section.thickness, Math.min(THICKEST, place.leastThickness / chord));

/** Least chord [m] on which the least thickness is not more than a section can take. */
export const leastChord = (place: BladePlace): number =>
  place.leastThickness / Math.max(THICKEST, place.section.thickness);

/** Largest chord [m] at which blades at angle `angle` [rad] clear each other, and solidity stays below 0.95. */
export function largestChord(place: BladePlace, angle: number): number {
  const pitch = (2 * Math.PI * place.radius) / place.bladeCount;
  const room = (chord: number) =>
    bladeClearance(
      {
        radius: place.radius,
        chord,
        angle,
        thickness: thicknessFor(place, chord),
        camber: place.section.camber,
      },
      place.bladeCount,
    ) -
    ROOM * pitch;
  const widest = MOST_SOLID * pitch;
  if (room(widest) >= 0) return widest;
  const least = 1e-3 * pitch;
  return room(least) <= 0 ? least : findRoot(room, least, widest, 1e-6 * pitch);
}

/**
 * The angle of attack at which a blade of `chord` carries `need` = chord times axial force coefficient [m], no closer to
 * the stall than `stallMargin` (share of the largest lift left unused).
 */
export function workingAt(
  place: BladePlace,
  shape: SectionShape,
  chord: number,
  flow: Pick<WantedFlow, 'phi' | 'relativeSpeed'>,
  need: number,
  air: Air,
  stallMargin: number,
): Working {
  const { phi, relativeSpeed } = flow;
  const stream = sectionStream(
    shape,
    (air.density * relativeSpeed * chord) / air.viscosity,
    relativeSpeed / air.soundSpeed,
    chord / place.radius,
  );
  const axial = (alpha: number) => {
    const { cl, cd } = liftDrag(stream, alpha);
    return cl * Math.cos(phi) - cd * Math.sin(phi);
  };
  const stall = stallOf(stream);
  const mostLift = stall.cl * (1 - stallMargin);
  const lowest = stream.zeroLift - BELOW_ZERO_LIFT;
  const lift = (alpha: number) => liftDrag(stream, alpha).cl - mostLift;
  const highest = lift(lowest) >= 0 ? stall.alpha : findRoot(lift, lowest, stall.alpha, 1e-7);
  const mostCx = axial(highest);
  const wanted = need / chord;
  const short = wanted > mostCx;
  const from = axial(lowest);
  const alpha = short
    ? highest
    : from >= wanted
      ? lowest
      : findRoot((a) => axial(a) - wanted, lowest, highest, 1e-8);
  const { cl, cd } = liftDrag(stream, alpha);
  return {
    chord,
    alpha,
    cl,
    cd,
    drag: Math.min(1, Math.atan2(cd, Math.max(cl, 1e-3))),
    cx: axial(alpha),
    mostCx,
    short,
  };
}

/** The section of a place on another chord: thick enough to print, its back edge as thick as drawn. */
export function shapeOn(place: BladePlace, chord: number): SectionShape {
  return {
    ...place.section,
    thickness: thicknessFor(place, chord),
    trailingEdge: place.trailingEdge / chord,
  };
}

/**
 * The chord between `least` and `most` [m] that carries `need` with the least drag force: lift coefficient against
 * Reynolds number and thickness, each chord at its own. With `lift`, the chord that works at that lift coefficient.
 */
export function bestWorking(
  place: BladePlace,
  flow: WantedFlow,
  need: number,
  least: number,
  most: number,
  air: Air,
  stallMargin: number,
  lift: number | null,
  rounds: number,
): Working {
  const at = (chord: number) => workingAt(place, shapeOn(place, chord), chord, flow, need, air, stallMargin);
  if (most <= least) return at(most);
  const misfit = (w: Working) =>
    lift === null ? w.chord * w.cd : Math.abs(Math.log(Math.max(w.cl, 1e-3) / lift));
  // What falls short ranks behind all that does not, the wider the better.
  const worse = (a: Working, b: Working) =>
    a.short !== b.short ? a.short : a.short ? a.chord < b.chord : misfit(a) > misfit(b);
  let low = Math.log(least);
  let high = Math.log(most);
  let best = at(most);
  for (let round = 0; round < rounds; round++) {
    const step = (high - low) / (CHORDS - 1);
    for (let k = 0; k < CHORDS; k++) {
      const tried = at(Math.exp(low + k * step));
      if (worse(best, tried)) best = tried;
    }
    const middle = Math.log(best.chord);
    low = Math.max(Math.log(least), middle - step);
    high = Math.min(Math.log(most), middle + step);
  }
  return best;
}
