import type { Printer } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';

/** How two things that meet should sit in each other. */
export type MateFit = 'press' | 'slide' | 'clearance';

/** What a hole is for: a mate's fit, a screw that cuts its own thread, or an insert melted in. */
export type HoleFit = MateFit | 'thread-forming' | 'heat-set insert';

/** What of a printer's profile fits need. */
export type FitPrinter = Pick<Printer, 'xyError_mm' | 'xyScatter_mm' | 'holeShrink_mm'>;

/** Scatter covered, in standard deviations: of a hundred loose fits 95 go together at once. */
const COVERED = 1.645;

/** Allowances in diameter [m] that remain between good parts; what the printer scatters comes on top. Common practice, no source. */
const SLIDE = 0.05e-3;
const CLEARANCE = 0.2e-3;

/** Least clearance of a screw hole over the screw, as the usual tables of clearance holes grow it. Common practice, no source. */
const CLEARANCE_SHARE = 0.1;

/** A press fit is this much too small [m] plus one standard deviation, yet never strains the plastic more than this. Common practice, no source. */
const PRESS = 0.03e-3;
const MOST_PRESS_STRAIN = 0.04;

/** Core hole of a screw that cuts its thread in plastic, over the thread size. Common practice, no source. */
const CORE_SHARE = 0.85;

/** Hole of a heat-set insert: share of the thread and a wall [m]. Common practice, no source: the insert's own sheet comes first. */
const INSERT_SHARE = 1.2;
const INSERT_WALL = 0.6e-3;

/** Wall around an insert or a cut thread, over the hole. Common practice, no source. */
const BOSS_SHARE = { 'heat-set insert': 0.45, 'thread-forming': 0.5 } as const;

const scatterOf = (printer: FitPrinter): number => metresFromMillimetres(printer.xyScatter_mm);

/**
 * How much wider than its mate a hole should be once printed [m, diameter]; negative: narrower. `scatter` is one standard
 * deviation of the two surfaces together, on one side [m]; `diameter` that of the mate [m].
 */
function allowance(fit: MateFit, diameter: number, scatter: number): number {
  switch (fit) {
    case 'press':
      return -Math.min(PRESS + scatter, MOST_PRESS_STRAIN * diameter);
    case 'slide':
      return SLIDE + 2 * COVERED * scatter;
    case 'clearance':
      return Math.max(CLEARANCE, CLEARANCE_SHARE * diameter) + 2 * COVERED * scatter;
  }
}

/** The hole as it should come out [m, diameter] for a bought shaft, pin, screw or insert of `nominal` [m] (screws: the thread size). */
export function finishedHole(fit: HoleFit, nominal: number, printer: FitPrinter): number {
  switch (fit) {
    case 'thread-forming':
      return CORE_SHARE * nominal;
    case 'heat-set insert':
      return INSERT_SHARE * nominal + INSERT_WALL;
    default:
      return nominal + allowance(fit, nominal, scatterOf(printer));
  }
}

/**
 * The hole to draw [m, diameter] so that it comes out right on this printer: the finished hole and what the printer closes
 * (`holeShrink_mm`). Never narrower than a tenth of `nominal`.
 */
export function holeDiameter(fit: HoleFit, nominal: number, printer: FitPrinter): number {
  const drawn = finishedHole(fit, nominal, printer) + metresFromMillimetres(printer.holeShrink_mm);
  return Math.max(0.1 * nominal, drawn);
}

/**
 * The printed pin to draw [m, diameter] for a bought part with a hole of `nominal` [m]: the finished pin less what the
 * printer adds on both sides (`xyError_mm`).
 */
export function pinDiameter(fit: MateFit, nominal: number, printer: FitPrinter): number {
  const finished = nominal - allowance(fit, nominal, scatterOf(printer));
  return Math.max(0.1 * nominal, finished - 2 * metresFromMillimetres(printer.xyError_mm));
}

/**
 * Gap to draw on each side between two printed mates [m], for keys, steps and plugs of about `size` [m] across: the gap that
 * should remain, and what the printer takes of it on the inner part (`xyError_mm`) and in the outer one (half of
 * `holeShrink_mm`). Both parts scatter, so their scatter adds as squares. Negative for a press fit on a true printer.
 */
export function matingGap(fit: MateFit, size: number, printer: FitPrinter): number {
  const both = Math.SQRT2 * scatterOf(printer);
  const closed = metresFromMillimetres(printer.xyError_mm + printer.holeShrink_mm / 2);
  return allowance(fit, size, both) / 2 + closed;
}

/** Outer diameter of the boss around a hole that takes a thread or an insert [m], the hole as finished. */
export function bossDiameter(
  fit: 'thread-forming' | 'heat-set insert',
  nominal: number,
  printer: FitPrinter,
): number {
  const hole = finishedHole(fit, nominal, printer);
  return hole * (1 + 2 * BOSS_SHARE[fit]);
}
