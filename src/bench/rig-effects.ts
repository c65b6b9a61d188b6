import type { Model } from '../assess/model.ts';
import { fanPlaces } from '../craft/stand.ts';
import type { BenchRun } from '../project/bench.ts';
import type { Project } from '../project/schema.ts';
import { formatPercent } from '../quantities/format.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import type { RigEffect } from './types.ts';

/** Growth of a free jet's radius with distance from the exit. Source: round turbulent jet, half-angle about 5.5 to 6 degrees at its half-velocity edge; e.g. Pope, Turbulent Flows, ch. 5 (from memory). */
const JET_SPREAD = 0.1;

/** Effects smaller than this are not worth a sentence. */
const WORTH_SAYING = 0.01;

/** Rigs in which the jet blows down, toward what the scale stands on. */
const BLOWS_DOWN: Record<BenchRun['rig']['kind'], boolean> = {
  'craft on the scale': true,
  'fan lifting off': true,
  'fan pressing down': false,
  lever: false,
  'load cell': false,
};

/** What the rig itself does to the reading: estimates, told and not applied. */
export function rigEffectsOf(project: Project, run: BenchRun, model: Model): RigEffect[] {
  if (run.rig.kind === 'fan pressing down') return inletBlocked(run, model);
  if (!BLOWS_DOWN[run.rig.kind]) return [];
  return [...jetOnPan(project, run, model), ...groundEffect(run, model)];
}

/**
 * A surface below the exit. Open rotor: T / T_free = 1 / (1 - (R / 4 z)^2) at equal power, z from the rotor. Source: Cheeseman
 * and Bennett, ARC R&M 3021, 1955. A ducted fan may gain or lose about as much: the interval holds both.
 */
function groundEffect({ rig }: BenchRun, model: Model): RigEffect[] {
  if (rig.distanceToPan_mm === null) return [];
  const { layout } = model;
  const below = metresFromMillimetres(rig.distanceToPan_mm);
  const fromRotor = Math.max(0.5 * layout.tipRadius, below + (layout.exitZ - layout.rotorZ));
  const gain = 1 / (1 - (layout.tipRadius / (4 * fromRotor)) ** 2) - 1;
  if (gain < WORTH_SAYING) return [];
  const factor = model.passage
    ? { value: 1, low: 1 - gain, high: 1 + gain }
    : { value: 1 + gain, low: 1 + gain / 2, high: 1 + 1.5 * gain };
  const where = `A surface ${Math.round(rig.distanceToPan_mm)} mm below the exit`;
  return [
    {
      id: 'ground effect',
      factor,
      estimate: true,
      text: model.passage
        ? `${where} may change thrust by about ${formatPercent(gain)} either way (an estimate). Two tip diameters of free air below the exit are enough.`
        : `${where} adds about ${formatPercent(gain)} to thrust (an estimate). Two tip diameters of free air below the rotor are enough.`,
    },
  ];
}

/**
 * The share of the jets that lands on what rests on the scale: it presses down there with what it carries, and the scale
 * shows only the rest. Discs of the jets, spread over the way down, against a round pan about the middle.
 */
function jetOnPan(project: Project, { rig }: BenchRun, model: Model): RigEffect[] {
  if (rig.panWidth_mm === null) return [];
  const { layout } = model;
  const below = metresFromMillimetres(rig.distanceToPan_mm ?? 0);
  const exit = model.passage ? layout.exitRadius : layout.tipRadius * Math.SQRT1_2;
  const jet = exit + JET_SPREAD * below;
  const rim = 2 * (layout.ducted ? layout.outerRadius : layout.tipRadius);
  const places =
    rig.kind === 'craft on the scale'
      ? fanPlaces(project.craft, rim + metresFromMillimetres(project.craft.ductSpacing_mm))
      : [{ x: 0, y: 0 }];
  const pan = metresFromMillimetres(rig.panWidth_mm) / 2;
  const share =
    places.reduce((sum, { x, y }) => sum + overlap(Math.hypot(x, y), jet, pan), 0) / places.length;
  if (share < WORTH_SAYING) return [];
  return [
    {
      id: 'jet on the pan',
      // The jet leaves the pan sideways at best; what is turned up again presses more, what is turned less presses less.
      factor: { value: 1 - share, low: Math.max(0, 1 - 1.2 * share), high: 1 - 0.6 * share },
      estimate: true,
      text: `About ${formatPercent(share)} of the jet lands on what rests on the scale and presses it down again, so the scale shows about ${formatPercent(1 - share)} of the thrust (an estimate). Raise the craft on a thin post, or turn the fan to blow up and press on the scale.`,
    },
  ];
}

/** Share of a disc of radius `jet` that lies in a circle of radius `pan`, their middles `apart`: by rings and angles. */
function overlap(apart: number, jet: number, pan: number): number {
  const rings = 40;
  const angles = 48;
  let inside = 0;
  for (let i = 0; i < rings; i++) {
    const r = jet * Math.sqrt((i + 0.5) / rings);
    for (let k = 0; k < angles; k++) {
      const a = (2 * Math.PI * (k + 0.5)) / angles;
      if (Math.hypot(apart + r * Math.cos(a), r * Math.sin(a)) <= pan) inside++;
    }
  }
  return inside / (rings * angles);
}

/** A fan that blows up draws its air past the scale below it. Common practice, no source: a tip diameter is enough. */
function inletBlocked({ rig }: BenchRun, model: Model): RigEffect[] {
  const diameter = 2 * model.layout.tipRadius;
  if (rig.distanceToPan_mm === null) return [];
  const free = metresFromMillimetres(rig.distanceToPan_mm) / diameter;
  if (free >= 1) return [];
  const loss = 0.15 * (1 - free);
  return [
    {
      id: 'ground effect',
      factor: { value: 1 - loss / 2, low: 1 - loss, high: 1 },
      estimate: true,
      text: `The fan draws its air from ${Math.round(rig.distanceToPan_mm)} mm above the scale; closer than one tip diameter that may cost up to ${formatPercent(loss)} of thrust (an estimate). Stand it higher.`,
    },
  ];
}
