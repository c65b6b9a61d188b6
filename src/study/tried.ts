import { answersFrom, type Answers } from '../assess/answers.ts';
import { mapOf, modelOf, quotedSupply, type Model } from '../assess/model.ts';
import { flownOf, type Flown } from '../craft/flight.ts';
import type { PlacementOptions } from '../craft/placement.ts';
import type { Fan, Project } from '../project/schema.ts';
import { GRAVITY } from '../quantities/constants.ts';
import { radiansFromDegrees } from '../quantities/units.ts';
import { printedVolumes } from '../shape/volumes.ts';

/** A project run far enough to compare it with another. */
export interface Tried {
  readonly project: Project;
  readonly model: Model;
  readonly answers: Answers;
  /** [kg] */
  readonly mass: number;
  /** Thrust each fan gives in a level hover [N], the lean of the fans charged. */
  readonly needed: number;
}

/** Runs a project from its map, without intervals or sentences; `extra` [kg] flies along besides. About 1.5 ms. */
export function tryProject(project: Project, extra = 0): Tried {
  const model = modelOf(project);
  const mass = model.mass + extra;
  const leaning = project.craft.fanCount > 1 ? Math.cos(radiansFromDegrees(project.craft.tilt_deg)) : 1;
  const needed = (mass * GRAVITY) / project.craft.fanCount / leaning;
  return {
    project,
    model,
    answers: answersFrom(project, quotedSupply(project), mapOf(model), needed),
    mass,
    needed,
  };
}

/** A project ready to be flown in wind and climb: the fan, duct and air that `assess` runs. */
export function flownProject(project: Project, options?: PlacementOptions): Flown {
  const { air, rotor, passage } = modelOf(project);
  const volumes = printedVolumes(project.fan, project.motor, project.printer.holeShrink_mm);
  return flownOf({ project, air, rotor, passage, volumes, options });
}

/** The same blade turned by `angle_deg` everywhere. */
export const turned = (fan: Fan, angle_deg: number): Fan => ({
  ...fan,
  blade: fan.blade.map((s) => ({ ...s, angle_deg: s.angle_deg + angle_deg })),
});

/**
 * A fan drawn for another tip diameter on the same motor and printer. What the air sets goes with the tip: chords and lip.
 * What the motor sets stays: hub diameter, struts, and the length of duct that holds motor and struts under the rotor. What
 * the printer sets stays: wall, and the tip gap below the drawn size; above it the gap grows, for a larger duct is less round.
 * Wider blades need a hub as much higher, and duct and rotor depth make room for it; narrower ones keep the drawn hub, which
 * still has to hold on the shaft.
 */
export function scaledFan(fan: Fan, tipDiameter_mm: number): Fan {
  const k = tipDiameter_mm / fan.tipDiameter_mm;
  const higher = fan.hubHeight_mm * Math.max(0, k - 1);
  return {
    ...fan,
    tipDiameter_mm,
    hubHeight_mm: fan.hubHeight_mm + higher,
    tipGap_mm: fan.tipGap_mm * Math.max(1, k),
    blade: fan.blade.map((s) => ({ ...s, chord_mm: s.chord_mm * k })),
    duct: {
      ...fan.duct,
      lipRadius_mm: fan.duct.lipRadius_mm * k,
      rotorDepth_mm: fan.duct.rotorDepth_mm + higher / 2,
      length_mm: fan.duct.length_mm + fan.duct.lipRadius_mm * (k - 1) + higher,
    },
  };
}

/** Largest value of a single-peaked function on a range by golden section. */
export function peakOf(
  f: (x: number) => number,
  low: number,
  high: number,
  tolerance: number,
): { readonly x: number; readonly value: number } {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [low, high];
  let [c, d] = [b - golden * (b - a), a + golden * (b - a)];
  let [fc, fd] = [f(c), f(d)];
  while (b - a > tolerance) {
    if (fc >= fd) {
      [b, d, fd] = [d, c, fc];
      c = b - golden * (b - a);
      fc = f(c);
    } else {
      [a, c, fc] = [c, d, fd];
      d = a + golden * (b - a);
      fd = f(d);
    }
  }
  return fc >= fd ? { x: c, value: fc } : { x: d, value: fd };
}
