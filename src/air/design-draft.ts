import type { Fan } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import {
  atStations,
  chordOfDepth,
  heldChord,
  placesOf,
  smoothed,
  spansOf,
  STATION_SPANS,
  stationsOf,
} from './design-blade.ts';
import { flowForThrust, gapShareIn, type DesignRings, type WantedFlow } from './design-flow.ts';
import type { DesignRequest } from './design-request.ts';
import {
  bestWorking,
  largestChord,
  leastChord,
  shapeOn,
  workingAt,
  type BladePlace,
  type Working,
} from './design-section.ts';
import type { Blade, Drawn, SetUp } from './design-parts.ts';
import { printableBlade } from './design-printable.ts';
import { rotorOfFan } from './rotor.ts';

/** Share of the largest lift left unused where nobody asks for another. Common practice, no source. */
const STALL_MARGIN = 0.15;

/** Drag to lift the first pass assumes [rad]. */
const FIRST_DRAG = 0.08;

/** Angle of attack assumed where only the room for the blade is asked [rad]. */
const USUAL_ATTACK = 0.09;

/** Power of the radius with which a printable blade's pressure grows outward, to begin with. Our choice. */
export const FIRST_OUTBOARD = 0.6;

export function setUp(request: DesignRequest): SetUp {
  const rotor = rotorOfFan(request.fan);
  const placeAt = placesOf(request.fan, rotor, request.leastThickness);
  const height = rotor.tipRadius - rotor.hubRadius;
  return {
    rings: Array.from(rotor.radius, placeAt),
    stations: STATION_SPANS.map((span) => placeAt(rotor.hubRadius + span * height)),
    spans: spansOf(rotor),
    rotor,
    stallMargin: request.stallMargin ?? STALL_MARGIN,
  };
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

/** A blade of these chords [m] in the rings: held and rounded at the stations, then flow and angles for what came out. */
export function bladeOf(
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

export interface Draft {
  readonly best: Drawn;
  readonly blade: Blade;
}

/** Steps 1 to 3 of `designBlade`. */
export function draft(request: DesignRequest, setup: SetUp, keep: Float64Array): Draft {
  const best = bestDrawn(request, setup, keep);
  if (request.loading === 'printable')
    return {
      best,
      blade: printableBlade(request, setup, best, (chords, outboard) =>
        bladeOf(request, setup, keep, chords, best, 3, outboard),
      ),
    };
  const chords = smoothed(
    setup.spans,
    setup.rotor.width,
    best.working.map((w) => w.chord),
  );
  return { best, blade: bladeOf(request, setup, keep, chords, best, 6) };
}
