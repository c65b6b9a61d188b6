import { Command, Option } from 'commander';
import { designForProject, type ProjectDesign } from '../study/design.ts';
import { rpmFromAngularSpeed } from '../quantities/units.ts';
import { writeProject } from '../project/write.ts';
import { designText } from './design-text.ts';
import { BadInput } from './fault.ts';
import { refuseToReplace, writeWhole } from './files.ts';
import { asJson, type Io } from './io.ts';
import { numberFrom } from './numbers.ts';
import { openProject } from './open.ts';

interface DesignOptions {
  readonly thrust?: number;
  readonly rpm?: number;
  readonly throttle?: number;
  readonly loading: (typeof LOADINGS)[number];
  readonly blades?: number;
  readonly lift?: number;
  readonly out?: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

const LOADINGS = ['printable', 'uniform', 'free-vortex'] as const;

/** `fanwright design FILE`: chord and angle of the blade for a wanted thrust and speed. */
export function designCommand(io: Io): Command {
  return new Command('design')
    .description('Find chord and angle of the blade for the thrust that is wanted of it, and compare.')
    .argument('<FILE>', 'project file')
    .option(
      '--thrust <N>',
      'thrust of one fan in N; left out: what carries the craft',
      numberFrom('--thrust', 0.001, 5000, 'N'),
    )
    .addOption(
      new Option('--rpm <N>', 'speed of the rotor in rpm')
        .argParser(numberFrom('--rpm', 10, 200_000, 'rpm'))
        .conflicts('throttle'),
    )
    .option(
      '--throttle <X>',
      'throttle, 0.05 to 1, at which the drive gives the speed (0.55 where --rpm is left out too)',
      numberFrom('--throttle', 0.05, 1),
    )
    .addOption(
      new Option('--loading <KIND>', 'how the pressure is spread over the radius')
        .choices(LOADINGS)
        .default(LOADINGS[0]),
    )
    .option('--blades <B>', 'number of blades, 1 to 20', numberFrom('--blades', 1, 20, '', true))
    .option(
      '--lift <CL>',
      'lift coefficient of the sections, 0.05 to 3; left out: the one with the least drag',
      numberFrom('--lift', 0.05, 3),
    )
    .option('--out <FILE>', 'write the project with the new blade to this file')
    .option('--force', 'write over a file that is already there')
    .option('--json', 'print stations and figures as JSON')
    .addHelpText('after', DESIGN_NOTES)
    .action((file: string, options: DesignOptions) => {
      const { out, force, loading } = options;
      if (out !== undefined) refuseToReplace(out, force);
      const { project } = openProject(file);
      const design = designForProject(project, {
        loading: loading === 'free-vortex' ? 'free vortex' : loading,
        ...(options.thrust !== undefined && { thrust_N: options.thrust }),
        ...(options.rpm !== undefined && { rpm: options.rpm }),
        ...(options.throttle !== undefined && { throttle: options.throttle }),
        ...(options.blades !== undefined && { bladeCount: options.blades }),
        ...(options.lift !== undefined && { lift: options.lift }),
      });
      if (!design.ok) throw new BadInput(design.reasons.join(' '));
      if (out !== undefined) writeWhole(out, writeProject(design.project));
      const written =
        out === undefined
          ? '\nNothing was written; --out FILE writes the project with this blade.\n'
          : `\nWrote ${out}.\n`;
      io.out(options.json ? asJson(designJson(design)) : designText(design) + written);
    });
}

/** What `--json` prints; SI or the unit in the name. */
function designJson(d: Extract<ProjectDesign, { ok: true }>) {
  const { design, before, after } = d;
  const { run, rotor } = design;
  const figures = ({ craft, fan }: typeof before) => ({
    mass_g: craft.mass_g,
    thrustToWeight: craft.thrustToWeight,
    hoverThrottle: craft.hoverThrottle,
    hover_min: craft.hover_min,
    hoverShaftPower_W: fan.hover?.shaftPower_W ?? null,
    hoverRpm: fan.hover?.rpm ?? null,
  });
  return {
    loading: d.loading === 'free vortex' ? 'free-vortex' : d.loading,
    bladeCount: rotor.bladeCount,
    stations: design.stations,
    point: {
      wantedThrust_N: d.thrust_N,
      thrust_N: d.printed.thrust,
      rotorThrust_N: d.printed.rotorThrust,
      rpm: d.rpm,
      throttle: d.throttle,
      torque_Nm: d.printed.torque,
      shaftPower_W: d.printed.shaftPower,
      figureOfMerit: d.printed.idealPower / d.printed.shaftPower,
    },
    annuli: {
      radius_mm: Array.from(rotor.radius, (r) => r * 1000),
      wantedPressure_Pa: Array.from(design.wantedPressure),
      pressure_Pa: Array.from(design.pressure),
      liftCoefficient: run.annuli.map((a) => a.cl),
      dragCoefficient: run.annuli.map((a) => a.cd),
      reynolds: Array.from(run.reynolds),
    },
    curve: design.curve.map((p) => ({
      rpm: rpmFromAngularSpeed(p.omega),
      thrust_N: p.thrust,
      torque_Nm: p.torque,
      shaftPower_W: p.shaftPower,
      figureOfMerit: p.figureOfMerit,
    })),
    bounds: design.bounds.map(({ kind, fromRadius, toRadius, text }) => ({
      kind,
      fromRadius_mm: fromRadius * 1000,
      toRadius_mm: toRadius * 1000,
      text,
    })),
    limits: design.limits.map(({ kind, radius, span, value, limit, text }) => ({
      kind,
      radius_mm: radius * 1000,
      span_ratio: span,
      value,
      limit,
      text,
    })),
    notes: d.notes,
    before: figures(before),
    after: figures(after),
  };
}

const DESIGN_NOTES = `
Kept from the project: diameters, hub, duct, gap, section family, and thickness and camber along the
blade (thickness is raised to two printed lines, or the printer's thinnest wall, where it is less).
Found: chord_mm and angle_deg at 8 stations, so that the fan's own calculation gives the thrust
within 0.5 %. Mass of the new blades and losses of the duct round them are taken along.
The blade is designed for hover: the air about the fan at rest.

Loadings:
  printable    chord straight from root to tip; load moved outward as far as it saves power
  uniform      the same pressure rise at every radius (open rotor: the same inflow)
  free-vortex  radius times swirl the same at every radius
Where the stall, the neighbouring blades or the hub's height hold the blade it carries less there
and more elsewhere, and the output says where. A thrust that is out of reach is refused with the
reason: exit code 2, nothing written.

Keys of --json: loading, bladeCount, stations (as in the project file), point (wantedThrust_N,
  thrust_N, rotorThrust_N, rpm, throttle, torque_Nm, shaftPower_W, figureOfMerit: of the fan as
  printed), annuli, curve (rpm, thrust_N, torque_Nm, shaftPower_W, figureOfMerit), bounds, limits,
  notes, and before and after with mass_g, thrustToWeight, hoverThrottle, hover_min,
  hoverShaftPower_W, hoverRpm

Examples:
  fanwright design scout.fanwright.json
  fanwright design scout.fanwright.json --throttle 0.7 --blades 3 --out three.fanwright.json
  fanwright design scout.fanwright.json --thrust 0.8 --rpm 16000 --loading uniform --json`;
