import { Command } from 'commander';
import { craftFrameFaults } from '../craft/frame.ts';
import type { LayerCheck } from '../make/layers/types.ts';
import type { Divisions } from '../make/layers/divisions.ts';
import type { PartPrint, PrintSet, WayToLie } from '../make/layers/set.ts';
import type { Project } from '../project/schema.ts';
import { writeProject } from '../project/write.ts';
import { geometryFaults } from '../shape/faults.ts';
import { withLie } from '../shape/lies.ts';
import { collect } from './assess.ts';
import { BadInput } from './fault.ts';
import { refuseToReplace, writeWhole } from './files.ts';
import { asJson, type Io } from './io.ts';
import { layersText } from './layers-text.ts';
import { numberFrom } from './numbers.ts';
import { firstOf, openProject, type OpenOptions } from './open.ts';

interface LayersOptions extends OpenOptions {
  readonly part?: string;
  readonly layer?: number;
  readonly orient?: boolean;
  readonly divisions?: boolean;
  readonly lay?: string;
  readonly out?: string;
  readonly force?: boolean;
  readonly csv?: boolean;
  readonly json?: boolean;
}

/** `fanwright layers FILE`: every part read layer by layer before it is printed. */
export function layersCommand(io: Io): Command {
  return new Command('layers')
    .description(
      'Read every part layer by layer: what is lost, hangs or starts in the air; material, time, the way to lay it.',
    )
    .argument('<FILE>', 'project file')
    .option('--part <ID>', 'look at one part only (the ids stand in the list)')
    .option(
      '--layer <MM>',
      'layer height to read with, mm (left out: printer.layer_mm)',
      numberFrom('--layer', 0.01, 2, 'mm'),
    )
    .option('--orient', 'also score other ways to lay each part, and say why the best is best')
    .option('--divisions', 'also compare ways to divide the craft: one body or parts, rotor, lip')
    .option('--lay <BEST>', 'with --out: lay the part of --part by this number of its list of ways')
    .option('--out <NEW>', 'with --lay: write the project with that way to lie to this file')
    .option('--force', 'write over a file that is already there')
    .option('--build <ID>', 'use one of the builds in the project file')
    .option('--set <path=value>', 'change a value for this run only; may be given several times', collect)
    .option('--csv', 'with --part: print the layers as CSV, one row a layer')
    .option('--json', 'print every figure as JSON')
    .addHelpText('after', LAYERS_NOTES)
    .action(async (file: string, options: LayersOptions) => {
      const { out, force, part, lay, csv, json } = options;
      if (csv && !part) throw new BadInput('--csv prints the layers of one part; name it with --part.');
      if (csv && json) throw new BadInput('--csv and --json are two forms of the same; give one.');
      if ((lay === undefined) !== (out === undefined) || (lay !== undefined && !part))
        throw new BadInput(
          '--lay needs --part, whose way to lie it sets, and --out, where the project goes.',
        );
      if (out !== undefined) refuseToReplace(out, force, [file]);
      const opened = openProject(file, options).project;
      const project: Project =
        options.layer === undefined
          ? opened
          : { ...opened, printer: { ...opened.printer, layer_mm: options.layer } };
      const faults = [...geometryFaults(project.fan, project.motor), ...craftFrameFaults(project)];
      if (faults.length)
        throw new BadInput(
          firstOf(
            file,
            faults.map(({ path, text }) => ({ message: `${path}: ${text}` })),
          ),
        );
      const { set, divisions } = await read(project, options);
      if (csv) {
        io.out(layersCsv(set.parts[0].check));
        return;
      }
      const written = lay === undefined ? null : layPart(opened, set.parts[0], lay, out!);
      io.out(
        json
          ? asJson({ ...set, parts: set.parts.map(partFigures), divisions, written })
          : layersText(project, set, divisions) + (written ? `\nWrote ${written}.\n` : ''),
      );
    });
}

async function read(
  project: Project,
  { part, orient, divisions, lay }: LayersOptions,
): Promise<{ set: PrintSet; divisions: Divisions | null }> {
  const [{ loadKernel }, { make }, { printSet }, { compareDivisions }] = await Promise.all([
    import('../make/kernel.ts'),
    import('../make/make.ts'),
    import('../make/layers/set.ts'),
    import('../make/layers/divisions.ts'),
  ]);
  const kernel = await loadKernel();
  const made = await make(project, { kernel });
  if (part !== undefined && !made.parts.some(({ id }) => id === part))
    throw new BadInput(
      `There is no part "${part}"; this project has ${made.parts.map(({ id }) => id).join(', ')}.`,
    );
  const ways = orient === true || lay !== undefined;
  const set = printSet(kernel, project, made, { ways, ...(part !== undefined && { only: [part] }) });
  return { set, divisions: divisions ? await compareDivisions(kernel, project) : null };
}

function layPart(project: Project, part: PartPrint, lay: string, out: string): string {
  const way: WayToLie | undefined = part.ways[Number(lay) - 1];
  if (!way || !/^\d+$/.test(lay))
    throw new BadInput(`--lay is "${lay}"; the ${part.name} has ways 1 to ${part.ways.length}.`);
  writeWhole(out, writeProject({ ...project, fan: withLie(project.fan, part.kind, way.inFan) }));
  return out;
}

/** Everything but the single layers, which --csv gives. */
const partFigures = ({ check: { layers, ...check }, ...part }: PartPrint) => ({
  ...part,
  check: { ...check, layerCount: layers.length },
});

function layersCsv({ layers }: LayerCheck): string {
  const rows = layers.map((l) =>
    [
      l.z_mm.toFixed(4),
      l.area_mm2.toFixed(3),
      l.perimeter_mm.toFixed(3),
      l.bodies,
      l.lost_mm2.toFixed(3),
      l.unsupported_mm2.toFixed(3),
    ].join(','),
  );
  return ['z_mm,area_mm2,perimeter_mm,outlinesLessHoles,lost_mm2,unsupported_mm2', ...rows].join('\n') + '\n';
}

const LAYERS_NOTES = `
Layers are cut at their middles. Lost is what no line of printer.lineWidth_mm reaches; unsupported
what hangs farther over the layer below than printer.overhang_deg allows. "Stop" will not print,
"Mind" costs shape or strength. Material and time count walls, skins and infill of the printer's
profile, without supports and brim. Nothing is sliced for a machine: orders for a printer are its
own program's work. Nothing is written but with --out.

Keys of --json (unit in the name): layer_mm, pieces, mass_g, filament_m, time_h, price, parts (id,
name, kind, quantity, check, print, price, now, ways), divisions, written. check: volume_mm3,
contact_mm2, overhang_mm2, overhangAerodynamic_mm2, findings (kind, from_mm, to_mm, at_mm, area_mm2,
width_mm, radius_mm, aerodynamic, weight, text). inFan: what faces the bed, in the axes of fan.lies.

Examples:
  fanwright layers scout.fanwright.json
  fanwright layers scout.fanwright.json --part rotor-right --layer 0.1 --orient
  fanwright layers scout.fanwright.json --part duct --csv
  fanwright layers scout.fanwright.json --part duct --lay 1 --out laid.fanwright.json`;
