import type { Fan, Printer } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import { bladeAt, bladeCurves, type BladeSection } from '../shape/blade.ts';
import { bladeUp, standsAcross, type FanDirection } from '../shape/lies.ts';
import { sectionOutline, sectionSpecAt, type Outline } from '../shape/section.ts';
import { asPrintedSection, type AsPrinted, type Laying } from './as-printed.ts';

/** What of a printer's profile the printed blade needs. */
export type BladePrinter = Pick<Printer, 'lineWidth_mm' | 'layer_mm' | 'minimumWall_mm' | 'xyError_mm'>;

/** How a blade lies while it is printed, in a word: along the layers, or standing across them. */
export type BladeLay = 'flat' | 'upright';

/** What printing changes on a section. */
export interface PrintedChange {
  /** Factors on drawn chord, thickness [m], camber [m] and nose bluntness. */
  readonly chordFactor: number;
  readonly thicknessFactor: number;
  readonly camberFactor: number;
  readonly noseFactor: number;
  /** Added to the blade angle [rad] and to the back edge [m]. */
  readonly turn: number;
  readonly edgeAdded: number;
  /** Mean height of layer steps [m] */
  readonly steps: number;
}

/** The printed blade at one place, as changes to the drawn one. */
export interface PrintedStation extends PrintedChange {
  /** 0 at the hub, 1 at the tip. */
  readonly span: number;
  readonly radius: number;
  /** As drawn: chord [m], angle [rad], thickness and camber over chord, back edge [m] */
  readonly drawn: BladeSection & { readonly edge: number };
  /** Lost of the drawn chord, ahead and behind [m]; negative where the print reaches further. */
  readonly lostFront: number;
  readonly lostBack: number;
  /** Share of the drawn area that comes out. */
  readonly areaShare: number;
  /** Nothing of the section comes out. */
  readonly lost: boolean;
  /** Thinner, within a layer, than the least wall that comes out whole. */
  readonly weak: boolean;
}

/** The blade of a fan as the printer makes it, from hub to tip. */
export interface PrintedBlade {
  readonly lay: BladeLay;
  readonly stations: readonly PrintedStation[];
}

/** Stations along the blade. */
const STATIONS = 7;

/** Points a side of the outlines. */
const POINTS = 20;

/** Rotors in one piece lie flat and blades apart stand on their root, unless the project lays them otherwise. */
export const layOfFan = (fan: Fan): BladeLay => (standsAcross(fan) ? 'upright' : 'flat');

/**
 * How a printer lays the section of a blade that stands at `angle` [rad] to the plane of rotation; `up` is the build
 * direction in the fan, the blade along x: the chord runs back along (0, cos, sin), the suction side faces (0, sin, -cos).
 */
export function layingOf(printer: BladePrinter, [x, y, z]: FanDirection, angle: number): Laying {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return {
    lineWidth: metresFromMillimetres(printer.lineWidth_mm),
    layer: metresFromMillimetres(printer.layer_mm),
    growth: metresFromMillimetres(printer.xyError_mm),
    up: [y * c + z * s, y * s - z * c, x],
  };
}

/** The section of a fan's blade at one radius [m], as an outline in m with its nose at 0. */
export function drawnSection(fan: Fan, at: BladeSection, points = POINTS): Outline {
  const { x, y } = sectionOutline(sectionSpecAt(fan.section, at), points);
  return { x: x.map((v) => v * at.chord), y: y.map((v) => v * at.chord) };
}

/** The section of a fan's blade at `radius` [m] as this printer makes it, with its outline, for drawing both. */
export function printedSection(
  fan: Fan,
  printer: BladePrinter,
  radius: number,
  points = 40,
): AsPrinted & { readonly drawnOutline: Outline; readonly at: BladeSection } {
  const at = bladeAt(bladeCurves(fan), radius);
  const drawnOutline = drawnSection(fan, at, points);
  return { ...asPrintedSection(drawnOutline, layingOf(printer, bladeUp(fan), at.angle)), drawnOutline, at };
}

/** Blades worked out last, by the values they came from: of the changes an assessment tries, some leave the blade alone. */
const known = new Map<string, PrintedBlade>();
const KEPT = 32;

/** What of a fan no blade section depends on. */
const BESIDE: ReadonlySet<string> = new Set(['kind', 'tipGap_mm', 'duct', 'stator']);

/**
 * The blade as it will really fly: what line width, layer and growth leave of the drawn sections. Gap, tip and hub stay as
 * drawn; their errors are part of the intervals. The same values give the same object while it is remembered.
 */
export function printedBlade(fan: Fan, printer: BladePrinter): PrintedBlade {
  const { lineWidth_mm, layer_mm, minimumWall_mm, xyError_mm } = printer;
  const values = JSON.stringify([lineWidth_mm, layer_mm, minimumWall_mm, xyError_mm, fan], (key, value) =>
    BESIDE.has(key) ? undefined : (value as unknown),
  );
  const found = known.get(values);
  if (found) return found;
  const blade = workedOut(fan, printer);
  if (known.size >= KEPT) known.clear();
  known.set(values, blade);
  return blade;
}

function workedOut(fan: Fan, printer: BladePrinter): PrintedBlade {
  const up = bladeUp(fan);
  const curves = bladeCurves(fan);
  const hub = Math.min(curves.hubRadius, 0.99 * curves.tipRadius);
  const leastWall = metresFromMillimetres(printer.minimumWall_mm);
  const stations = Array.from({ length: STATIONS }, (_, k): PrintedStation => {
    const span = k / (STATIONS - 1);
    const at = bladeAt(curves, hub + span * (curves.tipRadius - hub));
    const result = asPrintedSection(drawnSection(fan, at), layingOf(printer, up, at.angle));
    const edge = Math.min(metresFromMillimetres(fan.section.trailingEdge_mm), at.thickness * at.chord);
    return { span, ...stationOf(at, edge, result, up, leastWall) };
  });
  return { lay: layOfFan(fan), stations };
}

/** A section that is lost still counts as a sliver of this share of its chord, so that the air calculation has one. */
const SLIVER = 0.02;

/** What printing changes at `radius` [m], by straight lines between the stations. */
export function printedAt({ stations }: PrintedBlade, radius: number): PrintedChange {
  const last = stations.length - 1;
  const first = stations[0].radius;
  const width = stations[last].radius - first;
  const place = width > 0 ? Math.min(1, Math.max(0, (radius - first) / width)) * last : last;
  const i = Math.min(last - 1, Math.floor(place));
  const t = place - i;
  const a = stations[i];
  const b = stations[i + 1];
  const mix = (pick: (s: PrintedStation) => number) => pick(a) + t * (pick(b) - pick(a));
  return {
    chordFactor: Math.max(
      SLIVER,
      mix((s) => s.chordFactor),
    ),
    thicknessFactor: Math.max(
      SLIVER,
      mix((s) => s.thicknessFactor),
    ),
    camberFactor: mix((s) => s.camberFactor),
    noseFactor: mix((s) => s.noseFactor),
    turn: mix((s) => s.turn),
    edgeAdded: mix((s) => s.edgeAdded),
    steps: mix((s) => s.steps),
  };
}

function stationOf(
  at: BladeSection,
  edge: number,
  { drawn, printed, steps, areaShare }: AsPrinted,
  [, y, z]: FanDirection,
  leastWall: number,
): Omit<PrintedStation, 'span'> {
  const here = { radius: at.radius, drawn: { ...at, edge }, steps, areaShare };
  if (!printed)
    return {
      ...here,
      chordFactor: 0,
      thicknessFactor: 0,
      camberFactor: 0,
      noseFactor: 1,
      turn: 0,
      edgeAdded: 0,
      lostFront: drawn.back / 2,
      lostBack: drawn.back / 2,
      lost: true,
      weak: true,
    };
  // Layers that cut a blade aslant: the wall within a layer is wider than the blade is thick.
  const rise = y * Math.sin(at.angle) - z * Math.cos(at.angle);
  const wall = printed.thickness / Math.max(0.05, Math.sqrt(Math.max(0, 1 - rise * rise)));
  return {
    ...here,
    chordFactor: printed.chord / drawn.chord,
    thicknessFactor: printed.thickness / drawn.thickness,
    camberFactor: Math.abs(drawn.camber) > 1e-3 * drawn.chord ? printed.camber / drawn.camber : 1,
    noseFactor: drawn.nose > 0 ? printed.nose / drawn.nose : 1,
    turn: printed.turn - drawn.turn,
    // A corner bevelled by the layers still lets the air go where the bevel starts.
    edgeAdded: Math.max(0, printed.edge - drawn.edge),
    lostFront: printed.front - drawn.front,
    lostBack: drawn.back - printed.back,
    lost: false,
    weak: wall < leastWall,
  };
}
