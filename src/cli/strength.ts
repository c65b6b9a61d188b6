import { Command } from 'commander';
import { mapOf, modelOf } from '../assess/model.ts';
import { assess } from '../assess/assess.ts';
import { strengthOfModel } from '../assess/strength.ts';
import type { Project } from '../project/schema.ts';
import { angularSpeedFromRpm } from '../quantities/units.ts';
import type { Strength } from '../strength/types.ts';
import { ROTOR_CAUTIONS } from '../strength/words.ts';
import { collect } from './assess.ts';
import { BadInput } from './fault.ts';
import { asJson, type Io } from './io.ts';
import { numberFrom } from './numbers.ts';
import { openProject, type OpenOptions } from './open.ts';
import { strengthText } from './strength-text.ts';

interface StrengthOptions extends OpenOptions {
  readonly rpm?: number;
  readonly json?: boolean;
}

/** `fanwright strength FILE`: what the rotor stands, and at which speed it would fail. */
export function strengthCommand(io: Io): Command {
  return new Command('strength')
    .description(
      'Say what the rotor stands: stress along the blade, failure speed, growth, and what a blow does.',
    )
    .argument('<FILE>', 'project file')
    .option(
      '--rpm <N>',
      'speed to look at, rpm (left out: full throttle on a full battery)',
      numberFrom('--rpm', 1, 1_000_000, 'rpm'),
    )
    .option('--build <ID>', 'use one of the builds in the project file')
    .option('--set <path=value>', 'change a value for this run only; may be given several times', collect)
    .option('--json', 'print every figure as JSON')
    .addHelpText('after', STRENGTH_NOTES)
    .action((file: string, options: StrengthOptions) => {
      const { project } = openProject(file, options);
      const strength = strengthAt(project, options.rpm);
      if (!strength)
        throw new BadInput(
          `${file}: fan.hubDiameter_mm ${project.fan.hubDiameter_mm} leaves no blade inside fan.tipDiameter_mm ${project.fan.tipDiameter_mm}; make the hub smaller.`,
        );
      io.out(
        options.json
          ? asJson({ ...strength, cautions: ROTOR_CAUTIONS })
          : strengthText(project, strength, options.rpm !== undefined),
      );
    });
}

function strengthAt(project: Project, rpm: number | undefined): Strength | null {
  if (rpm === undefined) return assess(project).strength;
  const model = modelOf(project);
  return strengthOfModel(model, mapOf(model), angularSpeedFromRpm(rpm));
}

const STRENGTH_NOTES = `
Nothing is written. Stress is pull by rotation and bending by air and by blades that do not stand
radially, at the root with what its fillet adds; strength is the material's along or across the
layers, less its warmth. The limit keeps fan.safetyFactor (usual 3) between the two. Printed parts
scatter: no burst rotor was at hand to hold this against. Freed blade and drop are estimates.
Stand clear of the plane of the rotor, wear eye protection, and keep to local rules.

Keys of --json (unit in the name): safetyFactor, fullRpm (or --rpm), hoverRpm, failureRpm, safeRpm,
speedMargin, holds, modes (kind, name, radius_mm, stress_MPa, strength_MPa, failureRpm; weakest
first), stations (radius_mm, centrifugal_MPa, bending_MPa, peak_MPa, allowed_MPa, carrying), root,
material, growth (hover, full: rpm, radial_mm, gap_mm, tipTurn_deg), freedBlade, bumps, words,
cautions.

Examples:
  fanwright strength scout.fanwright.json
  fanwright strength scout.fanwright.json --rpm 18000
  fanwright strength scout.fanwright.json --set fan.rootFillet_mm=1.5 --json`;
