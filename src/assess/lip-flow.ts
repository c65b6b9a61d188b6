import type { InflowProfile } from '../air/passage.ts';
import { checkLip, type LipCheck, type LipState } from '../air/flow/lip.ts';
import { centreBodyOutline } from '../air/flow/outline.ts';
import { smallestLip } from '../air/flow/smallest-lip.ts';
import { flowSolver, type DuctFlow, type FlowCase } from '../air/flow/solve.ts';
import type { Project } from '../project/schema.ts';
import { formatNumber as n, formatPercent } from '../quantities/format.ts';
import { degreesFromRadians, millimetresFromMetres } from '../quantities/units.ts';
import { fanProfiles } from '../shape/profiles.ts';
import { mapSpeedFor } from '../air/map.ts';
import { mapOf, modelOf, type Model } from './model.ts';
import { runAt } from './point.ts';

/** How the air enters and leaves the duct in hover, from potential flow about its real section; plain data for the faces. */
export interface DuctFlowAnswer {
  /** Axial velocity at the rotor's plane by the potential flow, and by the annuli (same mean). */
  readonly inflow: {
    readonly radius_mm: readonly number[];
    readonly axial_mps: readonly number[];
    readonly ratio: readonly number[];
  };
  /** Along the duct's surface from the exit's inner edge over the outside and the lip to the exit again. */
  readonly surface: {
    readonly z_mm: readonly number[];
    readonly r_mm: readonly number[];
    /** (p - p_ambient) over 1/2 rho V_disc^2 */
    readonly pressureCoefficient: readonly number[];
  };
  /** Share of the thrust on the duct: from surface pressure, and from momentum in the annuli. */
  readonly ductShare: number;
  readonly ductShareByAnnuli: number;
  readonly lipThrust_N: number;
  /** How far the surface pressures miss the momentum of the jet, as a share of thrust: the size of this flow's own error. */
  readonly momentumGap: number;
  readonly lip: {
    readonly state: LipState;
    /** Where the air leaves, from the rim inward (0) to along the bore (90); null where it stays. */
    readonly angle_deg: number | null;
    /** The same place on the half-section, [z, r]. */
    readonly place_mm: readonly [number, number] | null;
    /** Share of the bore the stream fills if the air leaves and never comes back. */
    readonly fill: number;
    readonly words: string;
    readonly advice: string;
  };
  /** Thrust and shaft power at the hover speed with this inflow fed to the annuli, over those with an even one. */
  readonly withInflow: { readonly thrust: number; readonly shaftPower: number };
  /** The profile to feed to `assess` (option `inflow`). */
  readonly profile: { readonly radius: readonly number[]; readonly ratio: readonly number[] };
  readonly sentences: readonly string[];
}

/** What stands in the way of an answer, in a sentence. */
export type DuctFlowResult =
  { readonly ok: true; readonly answer: DuctFlowAnswer } | { readonly ok: false; readonly why: string };

/** Lips looked at for the advice, as shares of the bore's diameter. */
const SMALLEST_LIP = 0.01;
const LARGEST_LIP = 0.2;

/** Share of the bore that a lip's stream should fill at least. Our choice. */
const LEAST_FILL = 0.9;

/**
 * Potential flow about the duct and body of a project's fan in hover, the rotor an actuator disc of the hover thrust: inflow
 * profile, lip suction, share of thrust on the duct, and what the boundary layer does on the lip. Takes 50 to 500 ms: for a
 * worker, not for every keystroke. `advise` false leaves the search for the smallest good lip out (about ten solutions).
 */
export function ductFlowOf(project: Project, advise = true): DuctFlowResult {
  const model = modelOf(project);
  if (!model.passage) return { ok: false, why: 'An open rotor has no duct for the air to enter.' };
  const omega = mapSpeedFor(mapOf(model), model.needed);
  if (!omega)
    return { ok: false, why: 'This fan gives no thrust downstream at any speed, so no air enters it.' };
  try {
    return { ok: true, answer: answer(model, omega, advise) };
  } catch (error) {
    return { ok: false, why: `The flow about this duct could not be solved: ${(error as Error).message}.` };
  }
}

function caseOf(project: Project, density: number): Omit<FlowCase, 'duty'> {
  const { duct, hub, motor, seat, tailCone, layout } = fanProfiles(project.fan, project.motor);
  if (!duct) throw new Error('the fan has no duct section');
  const parts = [hub, motor, seat, tailCone].filter(
    (p): p is NonNullable<typeof p> => p !== null && p !== undefined,
  );
  return {
    duct,
    centreBody: centreBodyOutline(parts, true),
    discZ: layout.rotorZ,
    density,
    freeStream: 0,
  };
}

function answer(model: Model, omega: number, advise: boolean): DuctFlowAnswer {
  const { project, air } = model;
  const flow = flowSolver(caseOf(project, air.density))({ thrust: model.needed });
  const run = runAt(model, omega);
  const viscosity = air.viscosity / air.density;
  const check = checkLip(flow.duct, caseOf(project, air.density).discZ, viscosity);
  const profile: InflowProfile = { radius: flow.inflow.radius, ratio: flow.inflow.ratio };
  const fed = runAt({ ...model, passage: model.passage && { ...model.passage, inflow: profile } }, omega);
  const mean = flow.massFlow / (air.density * flow.discArea);
  const lipWords = check
    ? sayLip(check)
    : 'No air comes to rest ahead of this lip, so its boundary layer can not be followed.';
  const advice = advise ? adviceFor(model, flow, viscosity) : '';
  const byAnnuli = 1 - run.rotorThrust / run.thrust;
  const gap = flow.thrust.total / flow.thrust.byMomentum - 1;
  return {
    inflow: {
      radius_mm: Array.from(flow.inflow.radius, millimetresFromMetres),
      axial_mps: Array.from(flow.inflow.axial),
      ratio: Array.from(flow.inflow.ratio),
    },
    surface: {
      z_mm: Array.from(flow.duct.z, millimetresFromMetres),
      r_mm: Array.from(flow.duct.r, millimetresFromMetres),
      pressureCoefficient: Array.from(flow.duct.pressure, (p) => p / ((air.density / 2) * mean ** 2)),
    },
    ductShare: flow.thrust.ductShare,
    ductShareByAnnuli: byAnnuli,
    lipThrust_N: flow.thrust.lip,
    momentumGap: gap,
    lip: {
      state: check?.state ?? 'attached',
      angle_deg: check?.at ? degreesFromRadians(check.at.angle) : null,
      place_mm: check?.at ? [millimetresFromMetres(check.at.z), millimetresFromMetres(check.at.r)] : null,
      fill: check?.fill ?? 1,
      words: lipWords,
      advice,
    },
    withInflow: { thrust: fed.thrust / run.thrust, shaftPower: fed.shaftPower / run.shaftPower },
    profile: { radius: Array.from(flow.inflow.radius), ratio: Array.from(flow.inflow.ratio) },
    sentences: [
      inflowWords(flow),
      `Pressure on its surface puts ${formatPercent(flow.thrust.ductShare)} of the thrust on the duct, nearly all of it on the lip; momentum in the annuli says ${formatPercent(byAnnuli)}, losses counted. The pressures miss the jet's momentum by ${formatPercent(Math.abs(gap), 1)}.`,
      lipWords,
      ...(advice ? [advice] : []),
      `Fed to the blades, this inflow changes thrust at the same speed by ${signed(fed.thrust / run.thrust - 1)} and shaft power by ${signed(fed.shaftPower / run.shaftPower - 1)}.`,
    ],
  };
}

const signed = (ratio: number) => `${ratio < 0 ? '−' : '+'}${formatPercent(Math.abs(ratio), 1)}`;

function inflowWords({ inflow }: DuctFlow): string {
  const inner = inflow.axial[0];
  const outer = inflow.axial[inflow.axial.length - 1];
  return `The air passes the rotor at ${n(inner)} m/s by the hub and ${n(outer)} m/s by the wall.`;
}

function sayLip({ state, at, fill }: LipCheck): string {
  if (state === 'attached' || !at) return 'The air stays on the lip all the way round.';
  const where = `${n(degreesFromRadians(at.angle), 2)} degrees round the lip`;
  if (state === 'bubble')
    return `The air lets go ${where}, turns turbulent and comes back before the rotor: a small bubble.`;
  return `The air lets go ${where}; if it does not come back, the stream fills ${formatPercent(fill)} of the bore, and the duct's real share of the thrust lies nearer the annuli's, which count the lip's loss.`;
}

/** Which lip would do at this disc loading, in words. */
function adviceFor(model: Model, { thrust }: DuctFlow, viscosity: number): string {
  const bore = 2 * model.layout.boreRadius;
  const { project, air } = model;
  const remake = (lipRadius: number): FlowCase => {
    // The throat stays where it is: the duct grows upward with its lip.
    const lip_mm = millimetresFromMetres(lipRadius);
    const longer = project.fan.duct.length_mm - project.fan.duct.lipRadius_mm + lip_mm;
    const duct = { ...project.fan.duct, lipRadius_mm: lip_mm, length_mm: longer };
    return {
      ...caseOf({ ...project, fan: { ...project.fan, duct } }, air.density),
      duty: { thrust: thrust.total },
      ductPanels: 90,
    };
  };
  const advice = smallestLip({
    remake,
    from: SMALLEST_LIP * bore,
    to: LARGEST_LIP * bore,
    viscosity,
    leastFill: LEAST_FILL,
  });
  const drawn = project.fan.duct.lipRadius_mm;
  const enough = advice.radius !== null && drawn >= millimetresFromMetres(advice.radius);
  return `${advice.words} Yours has ${n(drawn)} mm${advice.radius === null ? '' : enough ? ', enough' : ', too little'}.`;
}
