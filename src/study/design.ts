import { designBlade, THRUST_TOLERANCE, type BladeDesign, type Loading } from '../air/design.ts';
import type { FanAir } from '../air/fan.ts';
import { assess } from '../assess/assess.ts';
import { modelOf, quotedSupply, type Model } from '../assess/model.ts';
import { runAt } from '../assess/point.ts';
import type { Assessment } from '../assess/types.ts';
import { driveAt, speedAtThrottle, type Supply } from '../drive/supply.ts';
import type { Fan, Printer, Project } from '../project/schema.ts';
import { formatNumber as n, formatPercent } from '../quantities/format.ts';
import { angularSpeedFromRpm, metresFromMillimetres, rpmFromAngularSpeed } from '../quantities/units.ts';
import { geometryFaults } from '../shape/faults.ts';

/** What may be asked of a designed blade; everything left out comes from the project. */
export interface DesignWish {
  /** Thrust of one fan [N]; left out: what carries the craft, with the mass of the new blades. */
  readonly thrust_N?: number;
  /** Speed [rpm]; goes before `throttle`. */
  readonly rpm?: number;
  /** Controller duty 0..1 that gives the speed, battery half full; 0.55 where both are left out. */
  readonly throttle?: number;
  /** `printable` where left out. */
  readonly loading?: Loading;
  readonly bladeCount?: number;
  /** Lift coefficient; left out: least drag. */
  readonly lift?: number;
}

export type ProjectDesign =
  | {
      readonly ok: true;
      /** The project with the designed blade. */
      readonly project: Project;
      readonly design: BladeDesign;
      /** The designed fan as it will be printed, at the speed it was designed for. */
      readonly printed: FanAir;
      readonly loading: Loading;
      readonly thrust_N: number;
      readonly rpm: number;
      /** Duty that gives this speed and torque; null where the drive cannot. */
      readonly throttle: number | null;
      readonly before: Assessment;
      readonly after: Assessment;
      /** What is no longer as it was, and what to mind, in sentences. */
      readonly notes: readonly string[];
    }
  | { readonly ok: false; readonly reasons: readonly string[]; readonly mostThrust_N: number | null };

/** Hover here leaves full throttle about twice the weight. Common practice, no source. */
export const USUAL_THROTTLE = 0.55;

/** Clearance along the axis between blades and vanes [m]. Common practice, no source. */
const BLADE_CLEARANCE = 0.0008;

/** Figure of merit the first speed is found with. */
const FIRST_MERIT = 0.55;

/** Rounds of blade, mass, duct and speed; three settle what two leave at some 0.2 %. */
const LEAST_ROUNDS = 3;
const MOST_ROUNDS = 6;
const SETTLED = 0.001;

/**
 * A blade for the craft in hand: the thrust that carries it (or another), at the speed its drive gives at a throttle (or
 * another). Blade, printed mass, duct losses and speed are found in turns until the whole project's own analysis gives the
 * thrust within 0.5 %. Section family, thickness and camber along the span stay those of the project's blade.
 */
export function designForProject(project: Project, wish: DesignWish = {}): ProjectDesign {
  const loading = wish.loading ?? 'printable';
  const template: Fan = { ...project.fan, bladeCount: wish.bladeCount ?? project.fan.bladeCount };
  const supply = quotedSupply(project);
  let current: Project = { ...project, fan: template };
  let design: BladeDesign | null = null;
  let omega = 0;
  let thrust = 0;
  for (let round = 1; round <= MOST_ROUNDS; round++) {
    const model = modelOf(current);
    if (design && round > LEAST_ROUNDS && isSettled(model, wish, thrust, omega)) break;
    thrust = wish.thrust_N ?? model.needed;
    // The printer's share: the drawing is designed for as much more thrust as the print gives less.
    const made = design && runAt(model, omega);
    const gain = design && made && made.thrust > 0 ? design.run.thrust / made.thrust : 1;
    const speed = speedFor(
      supply,
      model,
      wish,
      thrust,
      made && made.thrust > 0 ? made.shaftPower : null,
      omega,
    );
    if (typeof speed === 'string') return { ok: false, reasons: [speed], mostThrust_N: null };
    omega = speed;
    const result = designBlade({
      fan: template,
      passage: model.passage,
      air: model.air,
      thrust: thrust * gain,
      omega,
      loading,
      lift: wish.lift ?? null,
      leastThickness: leastThickness(project.printer),
      deepest: deepestBlade(model),
    });
    if (!result.ok)
      return {
        ok: false,
        reasons: result.reasons,
        mostThrust_N: result.mostThrust === null ? null : result.mostThrust / gain,
      };
    design = result;
    current = { ...project, fan: design.fan };
  }
  const model = modelOf(current);
  const run = runAt(model, omega);
  if (!design || Math.abs(run.thrust / thrust - 1) > THRUST_TOLERANCE) {
    return {
      ok: false,
      reasons: [
        `The blade and the duct round it do not settle: ${n(thrust)} N is wanted and ${n(run.thrust)} N comes out. Another speed or loading would do.`,
      ],
      mostThrust_N: run.thrust,
    };
  }
  return {
    ok: true,
    project: current,
    design,
    printed: run,
    loading,
    thrust_N: thrust,
    rpm: rpmFromAngularSpeed(omega),
    throttle: driveAt(supply, run.torque, omega)?.throttle ?? null,
    before: assess(project),
    after: assess(current),
    notes: notesOn(project, current),
  };
}

/** Least blade thickness that prints [m]: two lines, and never below the printer's thinnest wall. */
const leastThickness = ({ lineWidth_mm, minimumWall_mm }: Printer): number =>
  metresFromMillimetres(Math.max(2 * lineWidth_mm, minimumWall_mm));

/** Most a blade may reach along the axis [m]: to where the vanes, or the exit, leave half a millimetre. */
function deepestBlade({ passage, layout }: Model): number {
  if (!passage) return Infinity;
  return Math.max(0.001, 2 * (Math.min(layout.vaneTopZ, layout.exitZ) - BLADE_CLEARANCE - layout.rotorZ));
}

function isSettled(model: Model, wish: DesignWish, thrust: number, omega: number): boolean {
  const needed = wish.thrust_N ?? model.needed;
  const gives = runAt(model, omega).thrust;
  return Math.abs(needed / thrust - 1) < SETTLED && Math.abs(gives / needed - 1) < THRUST_TOLERANCE / 2;
}

/** Speed [rad/s] to design for, or the sentence that says why there is none. */
function speedFor(
  supply: Supply,
  model: Model,
  wish: DesignWish,
  thrust: number,
  lastPower: number | null,
  before: number,
): number | string {
  if (wish.rpm !== undefined) return angularSpeedFromRpm(wish.rpm);
  const throttle = wish.throttle ?? USUAL_THROTTLE;
  const sigma = model.passage?.exitRatio ?? 0.5;
  const ideal = thrust ** 1.5 / Math.sqrt(4 * sigma * model.air.density * model.discArea);
  const power = lastPower ?? ideal / FIRST_MERIT;
  const free = supply.motor.velocityConstant * supply.rest * throttle;
  let omega = before || 0.8 * free;
  // The power of a thrust hardly depends on the speed it is made at, so the torque is power over speed.
  for (let i = 0; i < 60; i++) {
    const torque = power / omega;
    const next = speedAtThrottle(supply, (w) => torque * (w / omega) ** 2, throttle);
    if (!(next > 0)) return tooWeak(throttle, power);
    const settled = Math.abs(next / omega - 1) < 1e-6;
    omega = (omega + next) / 2;
    if (settled) break;
  }
  const drive = driveAt(supply, power / omega, omega);
  return drive && Math.abs(drive.throttle / throttle - 1) < 0.01 ? omega : tooWeak(throttle, power);
}

const tooWeak = (throttle: number, power: number) =>
  `At ${formatPercent(throttle)} throttle the drive cannot give the ${n(power)} W at the shaft that this thrust takes. More throttle, more cells, or a motor with less winding resistance would do.`;

function notesOn(before: Project, after: Project): string[] {
  const notes: string[] = [];
  if (before.fan.bladeCount !== after.fan.bladeCount)
    notes.push(`The rotor has ${after.fan.bladeCount} blades instead of ${before.fan.bladeCount}.`);
  if (after.fan.kind === 'ducted' && after.fan.stator.vaneCount % after.fan.bladeCount === 0)
    notes.push(
      `${after.fan.stator.vaneCount} vanes behind ${after.fan.bladeCount} blades: all blades pass a vane at once, which is loud. Another number of vanes would do.`,
    );
  const known = new Set(geometryFaults(before.fan, before.motor).map(({ text }) => text));
  for (const { text } of geometryFaults(after.fan, after.motor)) if (!known.has(text)) notes.push(text);
  return notes;
}
