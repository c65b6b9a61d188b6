import type { Project } from '../project/schema.ts';
import { kilogramsFromGrams, metresFromMillimetres } from '../quantities/units.ts';
import { frameVolumes, type Slab } from '../shape/frame.ts';
import { fanLayout, type FanLayout } from '../shape/layout.ts';
import type { PrintedVolumes } from '../shape/volumes.ts';
import { framePlanOf } from './frame.ts';
import { massProperties, type MassProperties, type Solid } from './solids.ts';
import { fanPlaces, type FanPlace } from './stand.ts';

/** Where everything aboard sits. SI; x forward, y to the right, z down with 0 where lip and bore meet. */
export interface Placement {
  readonly fans: readonly FanPlace[];
  readonly solids: readonly Solid[];
  readonly whole: MassProperties;
  /** Height of the lip's upper edge (an open rotor: of its plane), of the rotors, and of the exit [m] */
  readonly topZ: number;
  readonly rotorZ: number;
  readonly exitZ: number;
  /** Middle to middle of neighbours, and one fan over its rim [m] */
  readonly pitch: number;
  readonly rimDiameter: number;
  /** Over all fans [m]: fore and aft, across, and the circle about the middle that holds them all. */
  readonly length: number;
  readonly width: number;
  readonly circle: number;
  /** Shadow of everything seen from the front, from the side and from above [m2], fans and boxes counted one by one. */
  readonly shadow: { readonly front: number; readonly side: number; readonly above: number };
}

/** What may be placed otherwise than the project says. */
export interface PlacementOptions {
  /** One battery in the middle, or cut into as many pieces as there are fans, between them. */
  readonly battery?: 'middle' | 'between';
  /** A frame whose mass is spread over the craft [kg], beside the project's own rows; below 0: lighter than it by so much. */
  readonly frame?: number;
}

/**
 * Densities [kg/m3] and proportions that give a mass a size: battery packs 1.9 to 2.2 g/cm3, electronics boxes and cameras
 * near 1 (typical, from memory). Shapes length : width : height.
 */
const BATTERY = { density: 2000, shape: [4, 2, 1] } as const;
const PAYLOAD = { density: 1000, shape: [1, 1, 1] } as const;
const ELECTRONICS = { density: 1000, shape: [3, 3, 1] } as const;

/**
 * Places a project: fans as they stand, each with its motor, rotor and duct; controllers, fixed items and electronics in
 * the middle at the height of the rotors; battery and payload in the middle at the heights the project gives. Masses are
 * those of `massItems`; sizes of the boxes follow from assumed densities, so the inertia is an estimate.
 */
export function placementOf(
  project: Project,
  volumes: PrintedVolumes,
  options: PlacementOptions = {},
): Placement {
  const { craft, fan } = project;
  const layout = fanLayout(fan, project.motor);
  const rimDiameter = 2 * (layout.ducted ? layout.outerRadius : layout.tipRadius);
  const pitch = rimDiameter + metresFromMillimetres(craft.ductSpacing_mm);
  const fans = fanPlaces(craft, pitch);
  const solids = [
    ...fans.flatMap((place) => fanSolids(project, volumes, layout, place)),
    ...middleSolids(project, layout.rotorZ, fans, options),
    ...frameSolids(options.frame ?? 0, fans, layout.rotorZ),
    ...printedFrame(project, layout),
  ];
  const topZ = layout.ducted ? layout.topZ : layout.rotorZ;
  const exitZ = layout.ducted ? layout.exitZ : layout.seatBottomZ;
  const extent = (pick: (f: FanPlace) => number) =>
    Math.max(...fans.map(pick)) - Math.min(...fans.map(pick)) + rimDiameter;
  const fanSide = layout.ducted
    ? rimDiameter * (exitZ - topZ)
    : 2 * layout.motorRadius * (layout.seatBottomZ - layout.hubTopZ);
  const fanAbove = layout.ducted
    ? Math.PI * (layout.outerRadius ** 2 - layout.boreRadius ** 2)
    : Math.PI * layout.motorRadius ** 2;
  let [front, side, above] = [fans.length * fanSide, fans.length * fanSide, fans.length * fanAbove];
  for (const { shape } of solids) {
    if (shape.kind !== 'box') continue;
    front += shape.width * shape.height;
    side += shape.length * shape.height;
    above += shape.length * shape.width;
  }
  return {
    fans,
    solids,
    whole: massProperties(solids),
    topZ,
    rotorZ: layout.rotorZ,
    exitZ,
    pitch,
    rimDiameter,
    length: extent((f) => f.x),
    width: extent((f) => f.y),
    circle: 2 * Math.max(...fans.map((f) => Math.hypot(f.x, f.y))) + rimDiameter,
    shadow: { front, side, above },
  };
}

function fanSolids(
  { motor, material }: Project,
  volumes: PrintedVolumes,
  layout: FanLayout,
  { x, y }: FanPlace,
): Solid[] {
  const tube = (
    name: string,
    mass: number,
    inner: number,
    outer: number,
    top: number,
    bottom: number,
  ): Solid => ({
    name,
    mass,
    at: [x, y, (top + bottom) / 2],
    shape: { kind: 'tube', inner, outer, height: Math.max(0, bottom - top) },
  });
  const { hubTopZ, hubBottomZ, hubRadius, tipRadius, boreRadius, outerRadius } = layout;
  const solids = [
    tube('motor', kilogramsFromGrams(motor.mass_g), 0, layout.motorRadius, layout.motorTopZ, layout.seatTopZ),
    tube('hub', volumes.hub * material.density_kgpm3, 0, hubRadius, hubTopZ, hubBottomZ),
    tube('blades', volumes.blades * material.density_kgpm3, hubRadius, tipRadius, hubTopZ, hubBottomZ),
  ];
  if (layout.ducted)
    solids.push(
      tube(
        'duct',
        (volumes.duct + volumes.tailCone) * material.density_kgpm3,
        boreRadius,
        outerRadius,
        layout.topZ,
        layout.exitZ,
      ),
    );
  return solids;
}

function box(
  name: string,
  mass: number,
  at: Solid['at'],
  {
    density,
    shape: [l, w, h],
  }: { readonly density: number; readonly shape: readonly [number, number, number] },
): Solid {
  const unit = Math.cbrt(mass / (density * l * w * h));
  return { name, mass, at, shape: { kind: 'box', length: l * unit, width: w * unit, height: h * unit } };
}

function middleSolids(
  project: Project,
  rotorZ: number,
  fans: readonly FanPlace[],
  options: PlacementOptions,
): Solid[] {
  const { craft, battery, brief, controller } = project;
  const kg = kilogramsFromGrams;
  const below = (mm: number) => rotorZ + metresFromMillimetres(mm);
  const batteryZ = below(craft.batteryBelow_mm);
  const pieces = options.battery === 'between' && fans.length > 1 ? fans.length : 1;
  const batteries = Array.from({ length: pieces }, (_, i) => {
    const next = fans[(i + 1) % fans.length];
    const at: Solid['at'] =
      pieces === 1 ? [0, 0, batteryZ] : [(fans[i].x + next.x) / 2, (fans[i].y + next.y) / 2, batteryZ];
    return box('battery', kg(battery.mass_g) / pieces, at, BATTERY);
  });
  return [
    ...batteries,
    box('payload', kg(brief.payload_g), [0, 0, below(craft.payloadBelow_mm)], PAYLOAD),
    box('controller', kg(controller.mass_g * craft.fanCount), [0, 0, rotorZ], ELECTRONICS),
    ...craft.fixedMasses.map((item) => box(item.name, kg(item.mass_g), [0, 0, rotorZ], ELECTRONICS)),
  ];
}

/** A printed frame: plate with its bay as a box, arms and bridges as boxes about their middles, none of them turned. */
function printedFrame(project: Project, layout: FanLayout): Solid[] {
  const plan = framePlanOf(project, layout);
  if (!plan) return [];
  const { plate, arm, bridge } = frameVolumes(plan);
  const density = project.material.density_kgpm3;
  const flat = (volume: number, { topZ, bottomZ }: Slab, x: number, y: number, shape: number): Solid => {
    const height = bottomZ - topZ;
    const length = Math.sqrt((volume / height) * shape);
    return {
      name: 'frame',
      mass: volume * density,
      at: [x, y, (topZ + bottomZ) / 2],
      shape: { kind: 'box', length, width: length / shape, height },
    };
  };
  const solids = [flat(plate, plan.plate, 0, 0, plan.pad.halfLength / plan.pad.halfWidth)];
  if (plan.arm) {
    const reach = outlineMiddle(plan.arm.outline);
    for (const { angle } of plan.armStands)
      solids.push(flat(arm, plan.arm, reach * Math.cos(angle), reach * Math.sin(angle), 1));
  }
  if (plan.bridge) for (const { x, y } of plan.bridgeStands) solids.push(flat(bridge, plan.bridge, x, y, 1));
  return solids;
}

const outlineMiddle = (points: readonly (readonly [number, number])[]): number =>
  (Math.max(...points.map(([x]) => x)) + Math.min(...points.map(([x]) => x))) / 2;

/** A frame as a thin disc that reaches the middles of the fans: as heavy in the mean as arms of even section. */
function frameSolids(mass: number, fans: readonly FanPlace[], rotorZ: number): Solid[] {
  if (mass === 0) return [];
  const outer = Math.max(...fans.map((f) => Math.hypot(f.x, f.y)));
  return [{ name: 'frame', mass, at: [0, 0, rotorZ], shape: { kind: 'tube', inner: 0, outer, height: 0 } }];
}
