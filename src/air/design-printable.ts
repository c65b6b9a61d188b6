import type { Blade, Drawn, SetUp } from './design-parts.ts';
import type { DesignRequest } from './design-request.ts';

/**
 * What is tried for a printable blade: chord at the tip less that at the root over the mean, width over what would lift
 * best, and the power of the radius with which the pressure grows outward. Our choice.
 */
const TAPERS = [-0.5, -0.4, -0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3, 0.4, 0.5];
const WIDTHS = [0.5, 0.58, 0.66, 0.74, 0.82, 0.88, 0.94, 1, 1.06, 1.12, 1.2, 1.3, 1.45, 1.7, 2.1];
const OUTBOARD = [0, 0.2, 0.4, 0.6, 0.8, 1, 1.2, 1.4, 1.6, 1.8, 2];

/** Shaft power of a drawn blade [W], from its flow. */
function powerOf(request: DesignRequest, { rotor }: SetUp, { wanted, working }: Drawn): number {
  let power = 0;
  wanted.rings.forEach((flow, i) => {
    const ring = 2 * Math.PI * rotor.radius[i] * rotor.width[i];
    power += flow.pressure * Math.tan(flow.phi + working[i].drag) * ring * rotor.radius[i];
  });
  return (request.air.density / 2) * request.omega * power;
}

/** The straight chord, root to tip, that carries the thrust with the least power of those tried, or comes closest. */
export function printableBlade(
  request: DesignRequest,
  setup: SetUp,
  best: Drawn,
  draw: (chords: readonly number[], outboard: number) => Blade,
): Blade {
  const { rings, spans, rotor } = setup;
  // Outside the inner third lies most of the area; the root's wish for a wide chord is not followed.
  const counts = (i: number) => (spans[i] > 0.35 ? rings[i].radius * rotor.width[i] : 0);
  let [sum, weight] = [0, 0];
  best.working.forEach(({ chord }, i) => {
    sum += counts(i) * chord;
    weight += counts(i);
  });
  type Form = readonly [taper: number, width: number, outboard: number];
  const choices = [TAPERS, WIDTHS, OUTBOARD];
  const tried = new Map<string, { readonly blade: Blade; readonly cost: number }>();
  const attempt = (form: Form) => {
    const key = form.join(' ');
    const before = tried.get(key);
    if (before) return before;
    const [taper, width, outboard] = form.map((at, axis) => choices[axis][at]);
    const chords = rings.map((_, i) => ((width * sum) / weight) * (1 + taper * (spans[i] - 0.5)));
    const blade = draw(chords, outboard);
    // A blade that falls short ranks behind all that do not, and the less the shorter.
    const short = 1 - blade.drawn.wanted.thrust / request.thrust;
    const cost = blade.drawn.reached ? powerOf(request, setup, blade.drawn) : 1e12 * (1 + short);
    const now = { blade, cost };
    tried.set(key, now);
    return now;
  };
  let form: Form = [TAPERS.indexOf(0), WIDTHS.indexOf(1), OUTBOARD.indexOf(0.6)];
  let chosen = attempt(form);
  for (let moved = true; moved;) {
    moved = false;
    for (const axis of [1, 2, 0]) {
      // An asked lift coefficient settles the width.
      if (axis === 1 && request.lift && chosen.blade.drawn.reached) continue;
      for (const step of [1, -1]) {
        for (;;) {
          const at = form[axis] + step;
          if (at < 0 || at >= choices[axis].length) break;
          const next = form.with(axis, at) as unknown as Form;
          const now = attempt(next);
          if (now.cost >= chosen.cost * (1 - 1e-6)) break;
          [chosen, form, moved] = [now, next, true];
        }
      }
    }
  }
  return chosen.blade;
}
