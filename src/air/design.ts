import type { BladeStation, Fan } from '../project/schema.ts';
import {
  atStations,
  chordOfDepth,
  heldChord,
  placesOf,
  smoothed,
  spansOf,
  STATION_SPANS,
  stationsOf,
  type ChordBound,
} from './design-blade.ts';
import { flowForThrust, gapShareIn, type DesignRings, type Wanted, type WantedFlow } from './design-flow.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import { analyse, pressures, refine, type Analysed, type Point } from './design-refine.ts';
import {
  bestWorking,
  largestChord,
  leastChord,
  shapeOn,
  workingAt,
  type BladePlace,
  type Working,
} from './design-section.ts';
import type { DesignRequest, Loading } from './design-request.ts';
import {
  boundsOf,
  liftBeyondStall,
  outOfReach,
  tooThin,
  unfitRequest,
  type DesignBound,
} from './design-words.ts';
import { runFan, type FanAir } from './fan.ts';
import { loadingLimits, type LoadingLimit } from './limits.ts';
import { rotorOfFan, type RotorAir } from './rotor.ts';

export type { DesignBound, DesignRequest, Loading };

/** One point off the design. */
export interface DesignCurvePoint {
  readonly omega: number;
  readonly thrust: number;
  readonly torque: number;
  readonly shaftPower: number;
  readonly figureOfMerit: number;
}

export interface BladeDesign {
  readonly ok: true;
  /** The fan with the designed blade, stations in the project's form. */
  readonly fan: Fan;
  readonly stations: readonly BladeStation[];
  readonly rotor: RotorAir;
  /** The designed blade as the fan's own calculation sees it at the wanted speed. */
  readonly run: FanAir;
  /** Pressure rise of the blades in each ring [Pa]: as wanted, and as analysed. */
  readonly wantedPressure: Float64Array;
  readonly pressure: Float64Array;
  /** What held the blade, and where. */
  readonly bounds: readonly DesignBound[];
  readonly limits: readonly LoadingLimit[];
  readonly curve: readonly DesignCurvePoint[];
}

export type DesignResult =
  | BladeDesign
  | {
      readonly ok: false;
      /** Why not, and what would do. */
      readonly reasons: readonly string[];
      /** The most thrust found at this speed [N]; null where none was looked for. */
      readonly mostThrust: number | null;
    };

const STALL_MARGIN = 0.15;

/** Thrust is met to this share of the wanted. */
export const THRUST_TOLERANCE = 0.005;

/** Rounds in which Prandtl's factor of an open rotor is read off the blade: it moves little from one blade to the next. */
const KEEP_ROUNDS = 2;

/** Drag to lift the first pass assumes [rad]. */
const FIRST_DRAG = 0.08;

/** Angle of attack assumed where only the room for the blade is asked [rad]. */
const USUAL_ATTACK = 0.09;

/**
 * What is tried for a printable blade: chord at the tip less that at the root over the mean, width over what would lift
 * best, and the power of the radius with which the pressure grows outward. Our choice.
 */
const TAPERS = [-0.5, -0.4, -0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3, 0.4, 0.5];
const WIDTHS = [0.5, 0.58, 0.66, 0.74, 0.82, 0.88, 0.94, 1, 1.06, 1.12, 1.2, 1.3, 1.45, 1.7, 2.1];
const OUTBOARD = [0, 0.2, 0.4, 0.6, 0.8, 1, 1.2, 1.4, 1.6, 1.8, 2];
const FIRST_OUTBOARD = 0.6;

/** Speeds of the off-design curve over the design speed. */
const CURVE = [0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.1, 1.2, 1.3];

/**
 * A blade for a wanted thrust at a wanted speed (the inverse of `runFan`).
 *
 * 1. The flow that gives the thrust with the loading wanted, ring by ring (`design-flow.ts`).
 * 2. In each ring the chord whose section carries its share with the least drag, at its own Reynolds number, thickness and
 *    distance from the stall (`design-section.ts`); evened out, held to what prints and clears, and rounded.
 * 3. With these chords the flow again, and the angle in each ring: inflow angle plus angle of attack.
 * 4. The blade is analysed with `runFan` and turned station by station until it agrees (`design-refine.ts`).
 *
 * Loadings: `uniform`: the same pressure rise everywhere (open rotor: the same inflow, so the pressure falls at tip and
 * root as Prandtl's factor); `free vortex`: r V_t the same everywhere; `printable`: uniform where lift allows, on a chord
 * that is straight from root to tip. Thrust is met within 0.5 % or the answer says why not. At rest only. Never throws for
 * finite input. Sources: the equations of `annulus.ts`; method: Wallis, Axial Flow Fans and Ducts, 1983, in its outline.
 */
export function designBlade(request: DesignRequest): DesignResult {
  const unfit = unfitRequest(request);
  if (unfit.length > 0) return { ok: false, reasons: unfit, mostThrust: null };
  const setup = setUp(request);
  let keep = new Float64Array(setup.rings.length).fill(1);
  for (let round = 0; round < KEEP_ROUNDS && !request.passage; round++) {
    const { fan } = draft(request, setup, keep).blade;
    keep = Float64Array.from(analyse(fan, pointOf(request, setup)).run.annuli, (state) => state.tipFactor);
  }
  return finish(request, setup, draft(request, setup, keep));
}

interface SetUp {
  readonly placeAt: (radius: number) => BladePlace;
  readonly rings: readonly BladePlace[];
  readonly stations: readonly BladePlace[];
  readonly spans: Float64Array;
  readonly rotor: RotorAir;
  readonly stallMargin: number;
}

function setUp(request: DesignRequest): SetUp {
  const rotor = rotorOfFan(request.fan);
  const placeAt = placesOf(request.fan, rotor, request.leastThickness);
  const height = rotor.tipRadius - rotor.hubRadius;
  return {
    placeAt,
    rings: Array.from(rotor.radius, placeAt),
    stations: STATION_SPANS.map((span) => placeAt(rotor.hubRadius + span * height)),
    spans: spansOf(rotor),
    rotor,
    stallMargin: request.stallMargin ?? STALL_MARGIN,
  };
}

/** Flow and sections of a blade, each ring. */
interface Drawn {
  readonly wanted: Wanted;
  readonly reached: boolean;
  readonly working: readonly Working[];
}

type Choose = (
  i: number,
  flow: WantedFlow,
  need: number,
  last: boolean,
) => { readonly working: Working; readonly mostWork: number };

/** Flow and sections found in turns, since the drag moves the flow and the flow the drag. */
function drawn(
  request: DesignRequest,
  setup: SetUp,
  keep: Float64Array,
  passes: number,
  outboard: number,
  choose: Choose,
  from: readonly Working[] | null = null,
): Drawn {
  const { rotor, rings: places } = setup;
  const drag = Float64Array.from(places, (_, i) => from?.[i].drag ?? FIRST_DRAG);
  const mostWork = new Float64Array(places.length).fill(Infinity);
  let gapShare = 0;
  for (let pass = 1; ; pass++) {
    const rings: DesignRings = {
      radius: rotor.radius,
      width: rotor.width,
      tipRadius: rotor.tipRadius,
      omega: request.omega,
      density: request.air.density,
      passage: request.passage,
      keep,
      drag,
      gapShare,
      outboard,
      mostWork,
    };
    const { wanted, reached } = flowForThrust(rings, request.loading, request.thrust);
    gapShare = gapShareIn(rings, wanted.rings);
    const working = places.map((place, i) => {
      const need = (wanted.rings[i].work * 2 * Math.PI * place.radius) / place.bladeCount;
      const chosen = choose(i, wanted.rings[i], need, pass === passes);
      drag[i] = chosen.working.drag;
      mostWork[i] = chosen.mostWork;
      return chosen.working;
    });
    if (pass === passes) return { wanted, reached, working };
  }
}

/** Solidity of one metre of chord at a place. */
const solidityOfMetre = (place: BladePlace) => place.bladeCount / (2 * Math.PI * place.radius);

/** Flow and best chord in each ring. */
function bestDrawn(request: DesignRequest, setup: SetUp, keep: Float64Array): Drawn {
  const { air, lift = null } = request;
  const { rings, stallMargin } = setup;
  return drawn(request, setup, keep, 4, FIRST_OUTBOARD, (i, flow, need, last) => {
    const place = rings[i];
    const most = largestChord(place, flow.phi + USUAL_ATTACK);
    const least = Math.min(leastChord(place), most);
    const working = bestWorking(place, flow, need, least, most, air, stallMargin, lift, last ? 3 : 1);
    const widest = workingAt(place, shapeOn(place, most), most, flow, need, air, stallMargin);
    return { working, mostWork: solidityOfMetre(place) * most * widest.mostCx };
  });
}

interface Blade {
  readonly fan: Fan;
  readonly bounds: readonly ChordBound[];
  readonly drawn: Drawn;
}

/** A blade of these chords [m] in the rings: held and rounded at the stations, then flow and angles for what came out. */
function bladeOf(
  request: DesignRequest,
  setup: SetUp,
  keep: Float64Array,
  chords: readonly number[],
  first: Drawn,
  passes: number,
  outboard = FIRST_OUTBOARD,
): Blade {
  const { rings, stations: places, spans, stallMargin } = setup;
  const firstAngles = atStations(
    spans,
    first.wanted.rings.map((flow, i) => flow.phi + first.working[i].alpha),
  );
  const hubHeight = metresFromMillimetres(request.fan.hubHeight_mm);
  const root = chordOfDepth(places[0], firstAngles[0], hubHeight);
  const deepest = request.deepest ?? Infinity;
  const held = atStations(spans, chords).map((chord, k) =>
    heldChord(places[k], STATION_SPANS[k], firstAngles[k], chord, root, deepest),
  );
  const fanAt = (angles: readonly number[]): Fan => ({
    ...request.fan,
    blade: stationsOf(
      places,
      held.map((h) => h.chord_mm),
      angles,
    ),
  });
  const rotor = rotorOfFan(fanAt(firstAngles));
  const choose: Choose = (i, flow, need) => {
    const place = rings[i];
    const chord = rotor.chord[i];
    const working = workingAt(place, rotor.sections[i], chord, flow, need, request.air, stallMargin);
    return { working, mostWork: solidityOfMetre(place) * chord * working.mostCx };
  };
  const found = drawn(request, setup, keep, passes, outboard, choose, first.working);
  const angles = atStations(
    spans,
    found.wanted.rings.map((flow, i) => flow.phi + found.working[i].alpha),
  );
  return { fan: fanAt(angles), bounds: held.map((h) => h.bound), drawn: found };
}

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
function printableBlade(request: DesignRequest, setup: SetUp, keep: Float64Array, best: Drawn): Blade {
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
    const blade = bladeOf(request, setup, keep, chords, best, 3, outboard);
    // A blade that falls short ranks behind all that do not, and the less the shorter.
    const short = 1 - blade.drawn.wanted.thrust / request.thrust;
    const cost = blade.drawn.reached ? powerOf(request, setup, blade.drawn) : 1e12 * (1 + short);
    const now = { blade, cost };
    tried.set(key, now);
    return now;
  };
  let form: Form = [TAPERS.indexOf(0), WIDTHS.indexOf(1), OUTBOARD.indexOf(FIRST_OUTBOARD)];
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

interface Draft {
  readonly best: Drawn;
  readonly blade: Blade;
}

/** Steps 1 to 3. */
function draft(request: DesignRequest, setup: SetUp, keep: Float64Array): Draft {
  const best = bestDrawn(request, setup, keep);
  if (request.loading === 'printable') return { best, blade: printableBlade(request, setup, keep, best) };
  const chords = smoothed(
    setup.spans,
    setup.rotor.width,
    best.working.map((w) => w.chord),
  );
  return { best, blade: bladeOf(request, setup, keep, chords, best, 6) };
}

/** Step 4, or why it is not to be had. */
function finish(request: DesignRequest, setup: SetUp, { best, blade }: Draft): DesignResult {
  const { rotor, stallMargin } = setup;
  const { wanted, reached } = blade.drawn;
  if (!reached)
    return { ok: false, reasons: [outOfReach(request, rotor, wanted)], mostThrust: wanted.thrust };
  const beyond = liftBeyondStall(request, rotor, best.working, stallMargin);
  if (beyond) return { ok: false, reasons: [beyond], mostThrust: null };
  const thin = tooThin(request, setup.stations, blade.fan.blade);
  if (thin) return { ok: false, reasons: [thin], mostThrust: null };
  const target = Float64Array.from(wanted.rings, (flow) => flow.pressure);
  const analysed = refine(blade.fan, target, request.thrust, pointOf(request, setup));
  return conclude(request, setup, blade, target, analysed);
}

const pointOf = (request: DesignRequest, { stallMargin }: SetUp): Point => ({ ...request, stallMargin });

function conclude(
  request: DesignRequest,
  setup: SetUp,
  blade: Blade,
  target: Float64Array,
  analysed: Analysed,
): DesignResult {
  const { fan, rotor, run } = analysed;
  const miss = run.thrust / request.thrust - 1;
  if (!(Math.abs(miss) <= THRUST_TOLERANCE)) {
    return {
      ok: false,
      reasons: [outOfReach(request, setup.rotor, { ...blade.drawn.wanted, thrust: run.thrust })],
      mostThrust: run.thrust,
    };
  }
  const half = request.air.density / 2;
  return {
    ok: true,
    fan,
    stations: fan.blade,
    rotor,
    run,
    wantedPressure: target.map((q) => q * half),
    pressure: pressures(analysed).map((q) => q * half),
    bounds: boundsOf(request, setup.stations, fan.blade, blade.bounds, rotor, blade.drawn.wanted),
    limits: loadingLimits(run, rotor, request.air),
    curve: CURVE.map((share) => {
      const omega = share * request.omega;
      const at = runFan(rotor, request.passage, request.air, { omega, axialSpeed: 0 });
      return {
        omega,
        thrust: at.thrust,
        torque: at.torque,
        shaftPower: at.shaftPower,
        figureOfMerit: at.shaftPower > 0 ? at.idealPower / at.shaftPower : 0,
      };
    }),
  };
}
