import type { Printer } from '../project/schema.ts';
import { formatNumber as n } from '../quantities/format.ts';

/** What the coupon carries [mm], each row in reading order from its notched end. */
export const COUPON = {
  base: { length: 100, width: 58, height: 2.4 },
  /** Upright walls, thinnest first. */
  fins: { thickness: [0.3, 0.4, 0.5, 0.6, 0.8, 1, 1.2, 1.6], length: 10, height: 8 },
  /** Holes through the base, smallest first. */
  holes: [2, 3, 4, 5, 6, 8],
  /** Round pins on the base, smallest first. */
  pins: { diameter: [3, 4, 5, 6, 8], height: 6 },
  /** Slots between two blocks, narrowest first; which stay open tells what mates printed in place need. */
  gaps: { width: [0.1, 0.2, 0.3, 0.4, 0.5, 0.6], length: 8, height: 4, block: 4 },
  /** Walls that lean, in degrees from upright, least first. */
  leans: { angle: [30, 40, 45, 50, 55, 60, 70], width: 6, height: 6, thickness: 1.6 },
} as const;

/** One size and what was read on it [mm]; several readings of the same size where taken. */
export interface SizeReading {
  readonly nominal_mm: number;
  readonly measured_mm: number | readonly number[];
}

/** What was read off a printed coupon. What was not read is left out, and that part of the profile stays. */
export interface CouponReadings {
  /** Thinnest fin that came out whole. */
  readonly thinnestWholeFin_mm?: number;
  readonly pins?: readonly SizeReading[];
  readonly holes?: readonly SizeReading[];
  /** Narrowest slot that stayed open all the way down. */
  readonly narrowestOpenGap_mm?: number;
  /** Steepest leaning wall, from upright, whose underside came out clean. */
  readonly steepestCleanLean_deg?: number;
}

export type CouponProfile =
  | {
      readonly ok: true;
      readonly printer: Printer;
      /** What changed and what it rests on. */
      readonly words: readonly string[];
    }
  | { readonly ok: false; readonly error: string };

/** A reading further than this from its size was read on another feature, or in another unit [mm]. */
const FARTHEST = 0.8;

/** Fewer readings of pins than this say nothing of scatter. */
const LEAST_FOR_SCATTER = 3;

const round = (value: number): number => Math.round(value * 1000) / 1000;
const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

const counted = (count: number): string => (count === 1 ? '1 reading' : `${count} readings`);

/** Standard deviation of a sample (divisor n - 1). */
function deviation(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(values.reduce((sum, v) => sum + (v - middle) ** 2, 0) / (values.length - 1));
}

/**
 * A printer's profile from a printed coupon: least wall from the thinnest whole fin; outside error, on each side, half the
 * mean oversize of the pins, and its scatter their spread; hole shrink the mean undersize of the holes; overhang the
 * steepest clean lean. Everything else of `printer` stays. Readings that cannot be are refused with one sentence.
 */
export function profileFromCoupon(readings: CouponReadings, printer: Printer): CouponProfile {
  const words: string[] = [];
  const change: { -readonly [K in keyof Printer]?: Printer[K] } = {};
  const fin = readings.thinnestWholeFin_mm;
  if (fin !== undefined) {
    const fault = outOf('thinnestWholeFin_mm', fin, 0.05, 5, 'mm');
    if (fault) return fault;
    change.minimumWall_mm = fin;
    words.push(
      `Thinnest wall that comes out whole: ${n(fin, 2)} mm (was ${n(printer.minimumWall_mm, 2)} mm).`,
    );
  }
  const pins = errorsOf('pins', readings.pins);
  if (typeof pins === 'string') return { ok: false, error: pins };
  if (pins.length > 0) {
    const sides = pins.map((error) => error / 2);
    change.xyError_mm = round(mean(sides));
    words.push(
      `An outside comes out ${n(Math.abs(change.xyError_mm), 2)} mm ${change.xyError_mm < 0 ? 'smaller' : 'larger'} on each side, from ${counted(pins.length)} of pins.`,
    );
    if (pins.length >= LEAST_FOR_SCATTER) {
      change.xyScatter_mm = round(deviation(sides));
      words.push(
        `It scatters by ${n(change.xyScatter_mm, 2)} mm (one standard deviation, within one coupon).`,
      );
    } else
      words.push(
        `Scatter stays at ${n(printer.xyScatter_mm, 2)} mm: it needs ${LEAST_FOR_SCATTER} readings of pins.`,
      );
  }
  const holes = errorsOf('holes', readings.holes);
  if (typeof holes === 'string') return { ok: false, error: holes };
  if (holes.length > 0) {
    change.holeShrink_mm = round(-mean(holes));
    words.push(
      `A hole comes out ${n(Math.abs(change.holeShrink_mm), 2)} mm ${change.holeShrink_mm < 0 ? 'larger' : 'smaller'} in diameter, from ${counted(holes.length)}.`,
    );
  }
  const lean = readings.steepestCleanLean_deg;
  if (lean !== undefined) {
    const fault = outOf('steepestCleanLean_deg', lean, 0, 90, 'degrees from upright');
    if (fault) return fault;
    change.overhang_deg = lean;
    words.push(
      `Walls lean up to ${n(lean, 2)}° from upright without support (was ${n(printer.overhang_deg, 2)}°).`,
    );
  }
  const gap = readings.narrowestOpenGap_mm;
  if (gap !== undefined) {
    const fault = outOf('narrowestOpenGap_mm', gap, 0.01, 5, 'mm');
    if (fault) return fault;
    words.push(gapWords(gap, change.xyError_mm ?? printer.xyError_mm));
  }
  if (words.length === 0)
    return {
      ok: false,
      error:
        'The readings say nothing: give at least one of thinnestWholeFin_mm, pins, holes, narrowestOpenGap_mm or steepestCleanLean_deg.',
    };
  return { ok: true, printer: { ...printer, ...change, source: 'coupon' }, words };
}

/** A gap closes by what both its sides grow; the coupon's rungs stand a tenth apart. */
function gapWords(gap: number, error: number): string {
  const closed = 2 * error;
  const rung = 0.1;
  return closed > gap || closed < gap - 2 * rung
    ? `The narrowest open slot, ${n(gap, 2)} mm, does not fit the pins, which close a slot by ${n(closed, 2)} mm: look for strings or a squeezed first layer in the slots, or read the pins higher up.`
    : `The narrowest open slot, ${n(gap, 2)} mm, agrees with the pins.`;
}

function outOf(
  name: string,
  value: number,
  low: number,
  high: number,
  unit: string,
): { ok: false; error: string } | null {
  return Number.isFinite(value) && value >= low && value <= high
    ? null
    : { ok: false, error: `${name} is ${value}; it should be a number from ${low} to ${high} ${unit}.` };
}

/** Measured less nominal [mm], or the sentence that refuses. */
function errorsOf(name: 'pins' | 'holes', list: readonly SizeReading[] = []): number[] | string {
  const errors: number[] = [];
  for (const { nominal_mm, measured_mm } of list) {
    for (const measured of typeof measured_mm === 'number' ? [measured_mm] : measured_mm) {
      if (!Number.isFinite(measured) || Math.abs(measured - nominal_mm) > FARTHEST)
        return `${name}: ${measured} mm was read on the size ${nominal_mm} mm; a reading lies within ${FARTHEST} mm of its size, so it may belong to another one.`;
      errors.push(measured - nominal_mm);
    }
  }
  return errors;
}

/** Readings from parsed JSON; the sentence that refuses where it is none. */
export function readCouponReadings(
  value: unknown,
): { readonly ok: true; readonly readings: CouponReadings } | { readonly ok: false; readonly error: string } {
  const no = (error: string) => ({ ok: false, error }) as const;
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return no('Coupon readings are an object, as in { "thinnestWholeFin_mm": 0.5 }.');
  const keys = ['thinnestWholeFin_mm', 'pins', 'holes', 'narrowestOpenGap_mm', 'steepestCleanLean_deg'];
  for (const [key, entry] of Object.entries(value)) {
    if (!keys.includes(key)) return no(`${key} is no coupon reading; the readings are ${keys.join(', ')}.`);
    if (key !== 'pins' && key !== 'holes') {
      if (typeof entry !== 'number') return no(`${key} should be a number.`);
      continue;
    }
    if (!Array.isArray(entry) || !entry.every(isSizeReading))
      return no(`${key} should be a list as in [{ "nominal_mm": 5, "measured_mm": [5.1, 5.12] }].`);
  }
  return { ok: true, readings: value };
}

function isSizeReading(value: unknown): value is SizeReading {
  if (typeof value !== 'object' || value === null) return false;
  const { nominal_mm, measured_mm } = value as Record<string, unknown>;
  const list: unknown[] = Array.isArray(measured_mm) ? measured_mm : [measured_mm];
  return typeof nominal_mm === 'number' && list.length > 0 && list.every((m) => typeof m === 'number');
}
