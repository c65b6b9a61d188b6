import type { Profile } from '../../shape/profiles.ts';
import { findRoot } from '../../numerics/root.ts';
import { assembleBodies } from './bodies.ts';
import { smoothCurve, type Point } from './curve.ts';
import { discRings, meetDisc } from './disc.ts';
import { bodyWalk, ductWalk } from './outline.ts';
import { bodySurfaces, inflowProfile, lipThrust, type SetUp } from './read-out.ts';
import { relax, streamAt } from './relax.ts';
import { straightSheet, type Sheet } from './sheet.ts';
import { spaceNodes } from './spacing.ts';
import { ductPlaces, pressureThrust, type DuctPlace, type Surface } from './surface.ts';

/** What the disc is asked for: mean total pressure rise [Pa], thrust of everything [N], or mass flow through it [kg/s]. */
export type DiscDuty =
  { readonly pressureRise: number } | { readonly thrust: number } | { readonly massFlow: number };

/** An axisymmetric duct and centre body with an actuator disc, z downstream [m]. */
export interface FlowCase {
  /** Closed section of the duct, which must pass outside the disc. */
  readonly duct: Profile;
  /** Closed section or open line of the body on the axis, or null. */
  readonly centreBody: Profile | null;
  /** Plane of the disc, which reaches from the centre body (or the axis) to the duct's wall. */
  readonly discZ: number;
  readonly duty: DiscDuty;
  /** Relative total pressure rise of rings of equal width, hub to tip; uniform if left out. */
  readonly loading?: readonly number[];
  /** Air density [kg/m3] and flight speed V_0 along the axis, from 0 up [m/s]. */
  readonly density: number;
  readonly freeStream: number;
  readonly ductPanels?: number;
  readonly centrePanels?: number;
  /** Places of the radial profile. */
  readonly inflowPlaces?: number;
}

export interface FlowThrust {
  readonly total: number;
  /** Mean pressure rise times disc area. */
  readonly rotor: number;
  readonly duct: number;
  readonly centreBody: number;
  /** Part of `duct` from the surface ahead of the disc's plane: the suction of the lip. */
  readonly lip: number;
  readonly ductShare: number;
  /** Sum of ring mass flow times (jet speed - V_0): an independent reckoning of `total`. */
  readonly byMomentum: number;
}

export type DuctSurface = Surface & { readonly place: readonly DuctPlace[] };

export interface DuctFlow {
  readonly pressureRise: number;
  /** Of the developed jet, mean by mass flow [m/s]. */
  readonly jetSpeed: number;
  readonly massFlow: number;
  readonly discArea: number;
  /** Area of the developed jet over disc area: mass flow / (rho jet speed disc area). */
  readonly exitAreaRatio: number;
  readonly thrust: FlowThrust;
  /** Axial speed at the disc [m/s] and over its area mean, at radii from hub to tip [m]. */
  readonly inflow: {
    readonly radius: Float64Array;
    readonly axial: Float64Array;
    readonly ratio: Float64Array;
  };
  readonly duct: DuctSurface;
  readonly centreBody: Surface | null;
  /** Edges of the jet and of its layers, for drawing [m]. */
  readonly sheets: readonly { readonly z: Float64Array; readonly r: Float64Array }[];
  readonly passes: number;
  /** False where the jet still moved at the last pass; the rest is then the last state. */
  readonly settled: boolean;
}

const DUCT_PANELS = 150;
const CENTRE_PANELS = 50;
const INFLOW_PLACES = 21;
const MOST_PASSES = 40;

/** The jet has settled when no node moves by more than this share of the exit radius in a pass. */
const SETTLED = 1e-4;

/**
 * Potential flow of duct, centre body and actuator disc. Surface vorticity on straight conical panels, linear in strength;
 * the disc's edge vorticity lies on the wall up to the exit and in a jet sheet behind it, shaped by relaxation.
 *
 * Range: incompressible (jet Mach below about 0.3), attached, axial, V_0 >= 0, rise > 0. A blunt exit face and a blunt
 * centre body are followed by air that turns their corners, as no wake is modelled there.
 * An opening exit is followed however wide it is: stall is for the passage's own rules to say.
 * Error, as the gap between `thrust.total` (surface pressures) and `thrust.byMomentum`: about 0.5 % at 150 panels on ducts
 * with a lip, 2 to 10 % with a square one, whose suction is a singularity; mass flow and exit ratio settle far sooner, so
 * `byMomentum` is the nearer where the two differ.
 * Throws one sentence where the case is out of that range or its sections cannot be used.
 * Sources (chapters from memory): Kuechemann and Weber, Aerodynamics of Propulsion, 1953, ch. 3-5; Lewis, Vortex Element
 * Methods for Fluid Dynamic Analysis of Engineering Systems, 1991, ch. 4-5.
 */
export function solveFlow(flow: FlowCase): DuctFlow {
  return flowSolver(flow)(flow.duty);
}

/** The same with the geometry's system factored once: call the answer for as many duties as wanted. */
export function flowSolver(flow: Omit<FlowCase, 'duty'>): (duty: DiscDuty) => DuctFlow {
  const { density, freeStream } = flow;
  if (!(density > 0)) throw new Error(`air density must be above 0 kg/m3; it was ${density}`);
  if (!(freeStream >= 0)) throw new Error(`flight speed must be 0 m/s or more; it was ${freeStream}`);
  const set = setUp(flow);
  const at = (pressureRise: number) => solveRise(flow, set, pressureRise);
  return (duty) => {
    const [kind, value] = Object.entries(duty)[0] as [string, number];
    if (!(value > 0)) throw new Error(`the disc's ${kind} must be above 0; it was ${value}`);
    if ('pressureRise' in duty) return at(duty.pressureRise);
    const measure = (answer: DuctFlow) => ('thrust' in duty ? answer.thrust.total : answer.massFlow);
    if (freeStream === 0) {
      // At rest every speed scales together: thrust with the rise, mass flow with its root.
      const unit = density / 2;
      const ratio = value / measure(at(unit));
      return at(unit * ('thrust' in duty ? ratio : ratio * ratio));
    }
    // Momentum theory for an exit as large as the disc gives a start; the bracket then opens around it.
    const flowing = density * set.discArea;
    const jet =
      'thrust' in duty
        ? freeStream / 2 + Math.sqrt((freeStream / 2) ** 2 + value / flowing)
        : Math.max(value / flowing, 1.02 * freeStream);
    const guess = Math.log10((density / 2) * (jet ** 2 - freeStream ** 2));
    const miss = (power: number) => measure(at(10 ** power)) - value;
    let reach = 0.06;
    while (miss(guess - reach) > 0) {
      reach *= 2;
      if (reach > 4)
        throw new Error(`at this flight speed even a disc of almost no rise exceeds the ${kind} asked for`);
    }
    let above = 0.06;
    while (miss(guess + above) < 0) {
      above *= 2;
      if (above > 4) throw new Error(`no pressure rise of a fan brings the ${kind} asked for`);
    }
    return at(10 ** findRoot(miss, guess - reach, guess + above, 1e-5));
  };
}

function setUp(flow: Omit<FlowCase, 'duty'>): SetUp {
  const panels = (walk: Point[], count: number) => meetDisc(spaceNodes(smoothCurve(walk), count), flow.discZ);
  const duct = panels(ductWalk(flow.duct), flow.ductPanels ?? DUCT_PANELS);
  const centre = flow.centreBody && panels(bodyWalk(flow.centreBody), flow.centrePanels ?? CENTRE_PANELS);
  const tipRadius = duct.radius;
  const hubRadius = centre?.radius ?? 0;
  if (!(tipRadius > 0))
    throw new Error(`the disc at z = ${flow.discZ} m does not lie within the duct's length`);
  if (!(tipRadius > hubRadius))
    throw new Error(
      `at the disc the centre body's radius of ${hubRadius} m leaves no room in a bore of ${tipRadius} m`,
    );
  const bodies = assembleBodies(duct.nodes, centre?.nodes ?? null);
  const rings = discRings(hubRadius, tipRadius, flow.loading ?? [1]);
  return { bodies, rings, hubRadius, tipRadius, discArea: Math.PI * (tipRadius ** 2 - hubRadius ** 2) };
}

function solveRise(flow: Omit<FlowCase, 'duty'>, set: SetUp, pressureRise: number): DuctFlow {
  const { density, freeStream, discZ } = flow;
  const { bodies, rings, discArea } = set;
  const jetSpeeds = rings.map(({ share }) => {
    const square = freeStream ** 2 + (2 * pressureRise * share) / density;
    if (!(square > 0)) throw new Error('a ring of the disc takes more pressure out of the air than it has');
    return Math.sqrt(square);
  });
  const state = relax(bodies, shedSheets(set, discZ, jetSpeeds, freeStream), {
    freeStream,
    passes: MOST_PASSES,
    tolerance: SETTLED,
  });
  const field = { bodies, speed: state.speed, sheets: state.sheets, freeStream };

  const outerStream = state.ductStream;
  const ringStreams = rings.map(({ outer }, k) =>
    k === rings.length - 1 ? outerStream : streamAt(field, discZ, outer),
  );
  const ringFlows = ringStreams.map((psi, k) => 2 * Math.PI * density * (psi - (ringStreams[k - 1] ?? 0)));
  const massFlow = 2 * Math.PI * density * outerStream;
  const byMomentum = ringFlows.reduce((sum, m, k) => sum + m * (jetSpeeds[k] - freeStream), 0);
  const jetSpeed = ringFlows.reduce((sum, m, k) => sum + m * jetSpeeds[k], 0) / massFlow;
  const jetArea = ringFlows.reduce((sum, m, k) => sum + m / (density * jetSpeeds[k]), 0);

  const surfaces = bodySurfaces(state, set, discZ, pressureRise, freeStream, jetSpeed, density);
  const tipRise = pressureRise * rings[rings.length - 1].share;
  const hubRise = pressureRise * rings[0].share;
  const { duct, centreBody } = surfaces;
  const rotor = pressureRise * discArea;
  const ductThrust = pressureThrust(duct, tipRise, freeStream, density);
  const centreThrust = centreBody ? pressureThrust(centreBody, hubRise, freeStream, density) : 0;
  const total = rotor + ductThrust + centreThrust;
  return {
    pressureRise,
    jetSpeed,
    massFlow,
    discArea,
    exitAreaRatio: jetArea / discArea,
    thrust: {
      total,
      rotor,
      duct: ductThrust,
      centreBody: centreThrust,
      lip: lipThrust(duct, discZ, freeStream, density),
      ductShare: ductThrust / total,
      byMomentum,
    },
    inflow: inflowProfile(field, set, discZ, flow.inflowPlaces ?? INFLOW_PLACES),
    duct: { ...duct, place: ductPlaces(duct.z, duct.r) },
    centreBody,
    sheets: state.sheets.map(({ z, r }) => ({ z, r })),
    passes: state.passes,
    settled: state.settled,
  };
}

/** The jet's edge first, then the surfaces between rings whose rise differs. */
function shedSheets(set: SetUp, discZ: number, jetSpeeds: readonly number[], freeStream: number): Sheet[] {
  const { bodies, rings, tipRadius } = set;
  const last = rings.length - 1;
  const end = bodies.ductNodes - 1;
  const length = Math.hypot(bodies.z[end] - bodies.z[end - 1], bodies.r[end] - bodies.r[end - 1]);
  const sheets = [straightSheet(bodies.z[0], bodies.r[0], length, jetSpeeds[last], freeStream)];
  for (let k = last - 1; k >= 0; k--)
    if (Math.abs(jetSpeeds[k] - jetSpeeds[k + 1]) > 1e-9 * jetSpeeds[k])
      sheets.push(straightSheet(discZ, rings[k].outer, 0.03 * tipRadius, jetSpeeds[k], jetSpeeds[k + 1]));
  return sheets;
}
