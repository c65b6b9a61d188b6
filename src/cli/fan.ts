import { Command } from 'commander';
import { runRotor } from '../study/single-fan.ts';
import { collect } from './assess.ts';
import { writeMap } from './fan-map.ts';
import { fanOfProject, fanOfTable, type FanChoice } from './fan-parts.ts';
import { fanText } from './fan-text.ts';
import { readBytes, refuseToReplace } from './files.ts';
import { asJson, type Io } from './io.ts';
import { measuredWords } from './measured.ts';
import { numberFrom } from './numbers.ts';

interface FanOptions extends FanChoice {
  readonly axialSpeed: number;
  readonly map?: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

/** `fanwright fan FILE_OR_TABLE`: one fan or rotor at one speed, without motor or craft. */
export function fanCommand(io: Io): Command {
  return new Command('fan')
    .description("Run one fan at one speed: a project's fan, or any rotor known as a table.")
    .argument('<FILE_OR_TABLE>', 'project file, or a table of the blade (.csv)')
    .option(
      '--rpm <N>',
      'speed, rpm (needed for a table; of a project: hover speed)',
      numberFrom('--rpm', 0, 1_000_000, 'rpm'),
    )
    .option(
      '--axial-speed <V>',
      'speed of the air along the axis toward the fan, m/s',
      numberFrom('--axial-speed', -200, 200, 'm/s'),
      0,
    )
    .option('--open', 'without the duct (a table is always an open rotor)')
    .option('--blades <B>', 'number of blades (a table: 2)', numberFrom('--blades', 1, 20, '', true))
    .option('--section <NAME>', 'blade section by name, or a measured polar FILE.csv (a table: four-digit)')
    .option(
      '--roughness <MM>',
      'height of steps or grains on the blades, mm (a table: 0)',
      numberFrom('--roughness', 0, 1, 'mm'),
    )
    .option(
      '--density <D>',
      'density of the air, kg/m3 (a table: 1.225)',
      numberFrom('--density', 0.001, 100, 'kg/m3'),
    )
    .option(
      '--viscosity <MU>',
      'viscosity of the air, Pa s (a table: 1.789e-5)',
      numberFrom('--viscosity', 1e-7, 1e-2, 'Pa s'),
    )
    .option('--map <FILE>', 'also write thrust, torque, power and mass flow over both speeds, as CSV')
    .option('--force', 'let --map write over a file that is already there')
    .option('--build <ID>', 'run the fan of one of the builds in the project file')
    .option(
      '--set <path=value>',
      'change a value of the project for this run only; may be given several times',
      collect,
    )
    .option('--json', 'print every figure as JSON')
    .addHelpText('after', FAN_NOTES)
    .action((file: string, options: FanOptions) => {
      const { map, section, axialSpeed } = options;
      if (map !== undefined)
        refuseToReplace(map, options.force, section === undefined ? [file] : [file, section]);
      const fan = isProject(file) ? fanOfProject(file, options) : fanOfTable(file, options);
      const { rotor, passage, air } = fan.parts;
      const result = runRotor(rotor, passage, air, fan.rpm, axialSpeed);
      const assumed = [
        ...fan.assumed,
        ...(fan.measured ? measuredWords(fan.measured, fan.beyond, result) : []),
      ];
      const written = map === undefined ? null : writeMap(map, fan.parts, fan.highestRpm);
      io.out(
        options.json
          ? asJson({
              ...result,
              assumed,
              ...(written && { map: { file: written.file, points: written.points } }),
            })
          : fanText(fan.title, assumed, result, written?.words),
      );
    });
}

/** A project begins with a brace; anything else is a table. */
function isProject(file: string): boolean {
  if (/\.(csv|tsv|txt)$/i.test(file)) return false;
  if (/\.json$/i.test(file)) return true;
  return /^(\ufeff)?\s*\{/.test(new TextDecoder().decode(readBytes(file).subarray(0, 200)));
}

const FAN_NOTES = `
A table is plain text: a heading line, then one line a station in any order, first the hub, last
the tip by radius. Decimal point; comma, semicolon or tab between; lines from # on are skipped.
  radius_mm, chord_mm, angle_deg (chord to the plane of rotation) must be there;
  thickness_ratio, camber_ratio (over the chord) may be.
Sections for --section: flat-plate (5 % thick), arc-plate (5 % thick, 5 % camber), four-digit (10 %
thick, 3 % camber at 40 %), or four digits of NACA Report 460 such as 4412 (4 % camber at 40 % of
the chord, 12 % thick). Columns of a table win over these; of a project, a family keeps the
thickness and camber of its blade, four digits replace them.
A section measured in a tunnel is a table too, with the columns Re, alpha (degrees), Cl and Cd, at
least three angles at one Re. It counts for the whole blade within its angles; from 4 degrees past
them the model does, of the project's own section or, for a table, of a four-digit one. Between
two Re by their logarithm, beyond the last as there. Roughness does not touch what was measured.

The table of --map has the columns rpm, axial_mps, thrust_N, torque_Nm, power_W, massFlow_kgps: 9
speeds from a tenth of --rpm (of a project without it: the motor's highest) up to it, and at each
11 axial speeds from -10 to 50 % of the tip speed (below 0 the fan sinks). Between these points,
cubics through thrust/rpm^2, torque/rpm^2 and massFlow/rpm over the logarithm of rpm and over
axial/tip speed are off by at most 0.4 % (thrust), 0.8 % (torque) and 0.2 % (mass flow) of what the
fan gives at rest at that rpm; so measured on the fans of the examples.

Keys of --json that stay the same (null where the fan stands still):
  thrust_N, torque_Nm, power_W, rotorThrust_N
  ct, cp           T/(rho n^2 D^4), P/(rho n^3 D^5); n in turns a second, D over the tips
  ctRotor, cpRotor T/(rho A (Omega R)^2), P/(rho A (Omega R)^3); A = pi R^2
  annuli           lists from hub to tip: radius_mm, chord_mm, angle_deg, axialVelocity_mps,
                   swirlVelocity_mps, exitVelocity_mps, angleOfAttack_deg, liftCoefficient,
                   dragCoefficient, reynolds
  limits           loading limits that are passed, each at its worst place: kind, radius_mm,
                   span_ratio (hub 0, tip 1), spanPast_ratio, value, limit, text
More keys stand beside them: kind, rpm, sizes, air, figureOfMerit, losses_W, ledgerError_W, assumed,
and map (file, points) with --map.

Examples:
  fanwright fan scout.fanwright.json --rpm 24000
  fanwright fan scout.fanwright.json --rpm 24000 --open --json
  fanwright fan scout.fanwright.json --roughness 0.05 --map scout-map.csv
  fanwright fan rotor.csv --blades 2 --rpm 5000 --section 4412 --axial-speed 3
  fanwright fan rotor.csv --blades 2 --rpm 5000 --section tunnel.csv`;
