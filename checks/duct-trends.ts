import { readFileSync } from 'node:fs';
import { centreBodyOutline } from '../src/air/flow/outline.ts';
import { solveFlow } from '../src/air/flow/solve.ts';
import { pressureThrust } from '../src/air/flow/surface.ts';
import { runFan, type FanAir } from '../src/air/fan.ts';
import { rotorOfFan } from '../src/air/rotor.ts';
import { modelOf, type Model } from '../src/assess/model.ts';
import { findRoot } from '../src/numerics/root.ts';
import { readProject } from '../src/project/read.ts';
import type { Project } from '../src/project/schema.ts';
import { radiansFromDegrees } from '../src/quantities/units.ts';
import { fanProfiles, type Profile } from '../src/shape/profiles.ts';

const DEMO = new URL('../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url);

/** The demo project. */
export function demo(): Project {
  const read = readProject(readFileSync(DEMO));
  if (!read.ok) throw new Error('The demo project cannot be read.');
  return read.project;
}

type Duct = Project['fan']['duct'];

/** The demo with another duct, gap or kind. */
export function demoWith(
  duct: Partial<Duct>,
  fan: Partial<Pick<Project['fan'], 'tipGap_mm' | 'kind'>> = {},
): Project {
  const project = demo();
  return { ...project, fan: { ...project.fan, ...fan, duct: { ...project.fan.duct, ...duct } } };
}

/** Shaft power near that of the demo's hover [W]. */
export const POWER = 9;

const MOST_SPEED = 8000;
const COARSE = 12;

function runAtPower(model: Model, rotor: Model['rotor'], power: number): FanAir {
  const at = (omega: number) => runFan(rotor, model.passage, model.air, { omega, axialSpeed: 0 });
  return at(findRoot((omega) => at(omega).shaftPower - power, 10, MOST_SPEED, 1e-4));
}

/** The fan as drawn at a shaft power of 9 W. */
export function atPower(project: Project): FanAir {
  const model = modelOf(project, 'drawn');
  return runAtPower(model, model.rotor, POWER);
}

/** Shaft power [W] the fan takes for `thrust` [N]. */
export function powerFor(project: Project, thrust: number): number {
  const { rotor, passage, air } = modelOf(project, 'drawn');
  const at = (omega: number) => runFan(rotor, passage, air, { omega, axialSpeed: 0 });
  return at(findRoot((omega) => at(omega).thrust - thrust, 10, MOST_SPEED, 1e-4)).shaftPower;
}

/** Turns of the whole blade tried, as the published tests ran each duct over blade angles [degrees]. */
const TURNS = [4, 6, 8, 10, 12, 14, 16, 18];

/** Most thrust [N] at 9 W with the blades turned as suits the duct: the top of the parabola through the three best turns. */
export function mostThrust(project: Project): number {
  const model = modelOf(project, 'drawn');
  const thrusts = TURNS.map(
    (turn) =>
      runAtPower(model, rotorOfFan(project.fan, { angle: radiansFromDegrees(turn) }, COARSE), POWER).thrust,
  );
  const top = thrusts.indexOf(Math.max(...thrusts));
  if (top === 0 || top === TURNS.length - 1) return thrusts[top];
  const [a, b, c] = thrusts.slice(top - 1, top + 2);
  return b - (c - a) ** 2 / (8 * (a - 2 * b + c));
}

/** The demo with a duct `length_mm` long that opens at `halfAngle_deg` from the rotor on. */
export function demoOpening(halfAngle_deg: number, length_mm: number): Project {
  const { layout } = modelOf(demoWith({ length_mm }));
  const { boreRadius: bore, hubRadius: hub } = layout;
  const run = layout.exitZ - layout.rotorZ - layout.bladeHalfDepth;
  const exit = bore + run * Math.tan(radiansFromDegrees(halfAngle_deg));
  return demoWith({ length_mm, exitAreaRatio: (exit ** 2 - hub ** 2) / (bore ** 2 - hub ** 2) });
}

/** Where `of` is largest among `among`. */
export function bestOf(among: readonly number[], of: (value: number) => number): number {
  const found = among.map(of);
  return among[found.indexOf(Math.max(...found))];
}

/** Share of the lip's thrust from the half of its radius nearer the bore, in potential flow round the demo. */
export function innerHalfOfLip(): number {
  const { fan, motor } = demo();
  const profiles = fanProfiles(fan, motor);
  const parts = [profiles.hub, profiles.motor, profiles.seat, profiles.tailCone].filter((p) => p !== null);
  const { boreRadius, lipRadius, rotorZ } = profiles.layout;
  const { duct } = solveFlow({
    duct: profiles.duct as Profile,
    centreBody: centreBodyOutline(parts, true),
    discZ: rotorZ,
    density: 1.2,
    freeStream: 0,
    duty: { thrust: 0.7 },
  });
  const { z, r } = duct;
  const foremost = z.indexOf(Math.min(...z));
  const first = (from: number, is: (i: number) => boolean) => {
    let i = from;
    while (i < z.length - 1 && !is(i)) i++;
    return i;
  };
  const outer = first(foremost, (i) => r[i] <= boreRadius + lipRadius);
  const middle = first(outer, (i) => r[i] <= boreRadius + lipRadius / 2);
  const bore = first(middle, (i) => z[i] >= 0);
  const thrust = (from: number) => pressureThrust(duct, 0, 0, 1.2, from, bore);
  return thrust(middle) / thrust(outer);
}
