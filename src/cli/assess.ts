import { Command } from 'commander';
import { assess } from '../assess/assess.ts';
import { ductFlowOf, type DuctFlowResult } from '../assess/lip-flow.ts';
import { assessmentText } from './assess-text.ts';
import { asJson, type Io } from './io.ts';
import { numberFrom } from './numbers.ts';
import { openProject, type OpenOptions } from './open.ts';

interface AssessOptions extends OpenOptions {
  readonly throttle?: number;
  readonly airEntry?: boolean;
  readonly json?: boolean;
}

export const collect = (value: string, before: readonly string[] = []): readonly string[] => [
  ...before,
  value,
];

/** `fanwright assess FILE`: does it lift, for how long, and where the power goes. */
export function assessCommand(io: Io): Command {
  return new Command('assess')
    .description('Say whether the craft lifts itself, for how long, and where the power goes.')
    .argument('<FILE>', 'project file')
    .option('--build <ID>', 'assess one of the builds in the file instead of the design in hand')
    .option('--set <path=value>', 'change a value for this run only; may be given several times', collect)
    .option('--throttle <X>', 'also run one fan at this throttle, 0 to 1', numberFrom('--throttle', 0, 1))
    .option('--air-entry', 'solve the flow about the duct and feed the inflow it finds to the blades')
    .option('--json', 'print every figure as JSON')
    .addHelpText('after', ASSESS_NOTES)
    .action((file: string, options: AssessOptions) => {
      const { project } = openProject(file, options);
      const entry = options.airEntry ? ductFlowOf(project) : null;
      const assessment = assess(project, {
        ...(options.throttle !== undefined && { throttle: options.throttle }),
        ...(entry?.ok && { inflow: entry.answer.profile }),
      });
      io.out(
        options.json
          ? asJson(entry ? { ...assessment, airEntry: entryJson(entry) } : assessment)
          : assessmentText(project, assessment, entry),
      );
    });
}

/** The answer as JSON, without the profile in SI that only `assess` itself takes: `inflow` says the same in mm. */
function entryJson(entry: DuctFlowResult) {
  if (!entry.ok) return { ok: false, why: entry.why };
  const { profile: _profile, ...answer } = entry.answer;
  return { ok: true, ...answer };
}

const ASSESS_NOTES = `
Nothing is written. Intervals in brackets hold the truth 9 times in 10 if the inputs are right.
A craft that does not lift is an answer: exit code 0.

Keys of --json that stay the same (unit in the name; ratios without unit; null: not reached):
  craft.mass_g, craft.hoverThrottle (0 to 1), craft.hover_min, craft.thrustToWeight, craft.lifts
  fan.hover, fan.full and, with --throttle, fan.atThrottle; each of one fan:
    rpm, thrust_N, rotorThrust_N, torque_Nm, shaftPower_W, electricalPower_W, figureOfMerit,
    axialVelocity_mps, exitVelocity_mps, ledgerError_W, and losses_W with ideal, unevenJet,
    profileDrag, tipGap, swirl, inletLip, wallFriction, hubBase, struts, exitExpansion
More keys stand beside them: verdict, air, remarks, helps; fan.compare (the same rotor open against
ducted); limits of each point (loading limits that are passed, radius_mm and span from hub 0 to tip
1); with --air-entry airEntry: ok and why (an open rotor has none), else inflow (radius_mm,
axial_mps, ratio), surface (z_mm, r_mm, pressureCoefficient), ductShare, lip, withInflow, sentences.

--air-entry takes a second. It solves the flow about the duct's real section without friction, the
rotor being a disc that gives the thrust of hover, and follows the boundary layer on the lip. What
the blades then meet differs a little from hub to tip, so every figure moves a little.

Examples:
  fanwright assess scout.fanwright.json
  fanwright assess scout.fanwright.json --set fan.tipDiameter_mm=80 --set fan.tipGap_mm=0.4
  fanwright assess scout.fanwright.json --throttle 0.6 --json
  fanwright assess scout.fanwright.json --air-entry --set fan.duct.lipRadius_mm=4`;
