import { checkLip, type LipCheck } from './lip.ts';
import { solveFlow, type FlowCase } from './solve.ts';

export interface LipSearch {
  /** The case with the lip of the given radius [m]; everything else, the duty too, is the caller's to keep. */
  readonly remake: (lipRadius: number) => FlowCase;
  /** Radii between which to look [m]. */
  readonly from: number;
  readonly to: number;
  /** Kinematic viscosity of the air [m2/s]. */
  readonly viscosity: number;
  /** A layer that leaves for good still passes where the stream fills this share of the bore (our choice: 0.95). */
  readonly leastFill?: number;
}

export interface LipAdvice {
  /** Smallest radius whose lip passes [m]; `from` where all pass, null where not even `to` does. */
  readonly radius: number | null;
  /** Checks at a radius that fails and one that passes, closest to the answer. */
  readonly tooSmall: { readonly radius: number; readonly check: LipCheck } | null;
  readonly enough: { readonly radius: number; readonly check: LipCheck } | null;
  readonly words: string;
}

const LEAST_FILL = 0.95;

/** The search stops when the answer is known to this share of itself. */
const CLOSE = 0.03;

/** From a lip whose layer has no start to the next one tried. */
const LARGER = 1.5;

/**
 * The smallest lip that keeps its air at the disc loading of the case: bisection on the radius, which takes the answer as
 * one-sided (a larger lip never worse); both ends are looked at first. About eight solutions. A lip so small that the air
 * comes to rest nowhere ahead of the disc (the whole stream comes in over its edge) has no layer to follow: the search then
 * starts at the next of 1.5, 2.25, ... times `from` that has one. Throws where no lip up to `to` has, or `from` and `to` do not run upward.
 */
export function smallestLip({ remake, from, to, viscosity, leastFill = LEAST_FILL }: LipSearch): LipAdvice {
  if (!(from > 0 && to > from))
    throw new Error(`lip radii must run from above 0 m to more; they were ${from} and ${to} m`);
  const tried = (radius: number) => {
    const flow = remake(radius);
    const check = checkLip(solveFlow(flow).duct, flow.discZ, viscosity);
    return check && { radius, check, passes: check.state !== 'separated' || check.fill >= leastFill };
  };
  const look = (radius: number) => tried(radius) ?? nothingToFollow(radius);
  let low: ReturnType<typeof tried> = null;
  for (let radius = from; !low && radius <= to; radius *= LARGER) low = tried(radius);
  if (!low) return nothingToFollow(to);
  if (low.passes) return advice(null, low);
  let high = look(to);
  if (!high.passes) return advice(high, null);
  while (high.radius - low.radius > CLOSE * high.radius) {
    const middle = look((low.radius + high.radius) / 2);
    if (middle.passes) high = middle;
    else low = middle;
  }
  return advice(low, high);
}

function nothingToFollow(radius: number): never {
  throw new Error(
    `with a lip of ${(radius * 1000).toPrecision(3)} mm no air comes to rest ahead of the rotor, so its boundary layer has no start`,
  );
}

type Look = { readonly radius: number; readonly check: LipCheck };

function advice(tooSmall: Look | null, enough: Look | null): LipAdvice {
  const keep = (look: Look | null) => look && { radius: look.radius, check: look.check };
  return {
    radius: enough ? enough.radius : null,
    tooSmall: keep(tooSmall),
    enough: keep(enough),
    words: adviceWords(tooSmall, enough),
  };
}

function adviceWords(tooSmall: Look | null, enough: Look | null): string {
  const mm = (look: Look) => `${(look.radius * 1000).toPrecision(3)} mm`;
  // Rounded down, so that the lip just too small and the one just large enough do not read the same.
  const fills = (look: Look) =>
    `the stream then fills ${Math.floor(100 * look.check.fill)}\u00a0% of the bore`;
  if (tooSmall && enough) {
    const kept =
      enough.check.state === 'separated' ? `leaves so late that ${fills(enough)}` : 'keeps its air';
    return `A ${mm(tooSmall)} lip at this disc loading separates (${fills(tooSmall)}); ${mm(enough)} ${kept}.`;
  }
  if (tooSmall) return `Even a ${mm(tooSmall)} lip at this disc loading separates; ${fills(tooSmall)}.`;
  return enough ? `A ${mm(enough)} lip, the smallest looked at, keeps its air at this disc loading.` : '';
}
