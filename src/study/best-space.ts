import { catalogue } from '../project/catalogue.ts';
import type { Battery, Motor, Project } from '../project/schema.ts';
import type { Variable } from './optimise.ts';
import { controllerFor } from './size-try.ts';
import { turned } from './tried.ts';

/** What the search for a better design may change, and how a design is made of its numbers. Fixed by the project. */
export interface BestSpace {
  readonly variables: readonly Variable[];
  /** The numbers of the present design. */
  readonly here: readonly number[];
  readonly projectAt: (x: readonly number[]) => Project;
}

/** Motors and batteries of the catalogue nearest in mass that may be taken instead of the present ones. */
const NEIGHBOURS = 3;

/** The present part first, then the nearest in mass. */
function choices<Part extends Motor | Battery>(present: Part, parts: readonly Part[]): readonly Part[] {
  const distance = (p: Part) => Math.abs(Math.log(p.mass_g / present.mass_g));
  const others = parts.filter((p) => p.name !== present.name).sort((a, b) => distance(a) - distance(b));
  return [present, ...others.slice(0, NEIGHBOURS)];
}

/**
 * The space about a project: tip and hub diameter, blades and vanes, angle, chord and camber of the blade, gap left as the
 * printer needs it, lip, and motor and battery (with its cells) among their neighbours of the catalogue. Numbers that others
 * set keep their ratio: the duct's length follows the lip. An open rotor has no lip and no vanes to choose.
 */
export function bestSpace(project: Project): BestSpace {
  const { fan } = project;
  const motors = choices(
    project.motor,
    catalogue.motors.map((e) => e.part),
  );
  const batteries = choices(
    project.battery,
    catalogue.batteries.map((e) => e.part),
  );
  const real = (name: string, low: number, high: number): Variable => ({ name, low, high, whole: false });
  const whole = (name: string, low: number, high: number): Variable => ({ name, low, high, whole: true });
  const ducted = fan.kind === 'ducted';
  const variables = [
    real('tip diameter', 0.7 * fan.tipDiameter_mm, 1.4 * fan.tipDiameter_mm),
    real('hub diameter', 0.75 * fan.hubDiameter_mm, 1.5 * fan.hubDiameter_mm),
    whole('blades', Math.min(2, fan.bladeCount), Math.max(9, fan.bladeCount)),
    real('blade angle', -8, 8),
    real('chord', 0.6, 1.5),
    real('camber', 0.5, 1.5),
    whole('motor', 0, motors.length - 1),
    whole('battery', 0, batteries.length - 1),
    ...(ducted
      ? [
          real('lip radius', 0.5 * fan.duct.lipRadius_mm, Math.max(2, 2 * fan.duct.lipRadius_mm)),
          whole('vanes', Math.min(3, fan.stator.vaneCount), Math.max(9, fan.stator.vaneCount)),
        ]
      : []),
  ];
  const here = [
    ...[fan.tipDiameter_mm, fan.hubDiameter_mm, fan.bladeCount, 0, 1, 1, 0, 0],
    ...(ducted ? [fan.duct.lipRadius_mm, fan.stator.vaneCount] : []),
  ];
  const projectAt = (x: readonly number[]): Project => {
    const [tip, hub, blades, angle, chord, camber, motorAt, batteryAt, lip, vanes] = x;
    const motor = motors[motorAt];
    const blade = turned(fan, tidy(angle)).blade.map((s) => ({
      ...s,
      chord_mm: tidy(s.chord_mm * chord),
      camber_ratio: Number((s.camber_ratio * camber).toFixed(4)),
    }));
    return {
      ...project,
      motor,
      controller: motorAt === 0 ? project.controller : controllerFor(motor),
      battery: batteries[batteryAt],
      fan: {
        ...fan,
        tipDiameter_mm: tidy(tip),
        hubDiameter_mm: tidy(hub),
        bladeCount: blades,
        blade: same(blade, fan.blade) ? fan.blade : blade,
        ...(ducted && {
          duct: {
            ...fan.duct,
            lipRadius_mm: tidy(lip),
            length_mm: tidy(fan.duct.length_mm + lip - fan.duct.lipRadius_mm),
          },
          stator: { ...fan.stator, vaneCount: vanes },
        }),
      },
    };
  };
  return { variables, here, projectAt };
}

/** As fine as anybody would draw it. */
const tidy = (value: number): number => Math.round(value * 100) / 100;

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
