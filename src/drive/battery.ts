import { interpolateLinear } from '../numerics/interpolate.ts';
import { findRoot } from '../numerics/root.ts';
import type { Battery } from '../project/schema.ts';
import type { Interval } from '../quantities/interval.ts';
import { kelvinFromCelsius } from '../quantities/units.ts';

/**
 * Rest voltage of one cell against state of charge.
 * Lithium-ion: mean of two cells measured at C/32 and C/20, Sunil, Pattipati, Balasingam, IEEE Trans. Instrum. Meas., 2025.
 * Lithium-polymer, and its high-voltage kind: typical values, from memory (spread between makes about 0.03 V).
 */
const CELL_VOLTAGE: Record<Battery['chemistry'], readonly (readonly [charge: number, volts: number])[]> = {
  'lithium-polymer': [
    [0, 3.27],
    [0.05, 3.61],
    [0.1, 3.69],
    [0.2, 3.73],
    [0.3, 3.77],
    [0.4, 3.8],
    [0.5, 3.84],
    [0.6, 3.87],
    [0.7, 3.95],
    [0.8, 4.02],
    [0.9, 4.11],
    [1, 4.2],
  ],
  'lithium-polymer high voltage': [
    [0, 3.3],
    [0.1, 3.7],
    [0.2, 3.76],
    [0.3, 3.79],
    [0.4, 3.83],
    [0.5, 3.88],
    [0.6, 3.95],
    [0.7, 4.04],
    [0.8, 4.13],
    [0.9, 4.23],
    [1, 4.35],
  ],
  'lithium-ion': [
    [0, 2.503],
    [0.015, 2.93],
    [0.04, 3.13],
    [0.09, 3.321],
    [0.143, 3.421],
    [0.2915, 3.578],
    [0.455, 3.698],
    [0.837, 4.065],
    [0.952, 4.107],
    [1, 4.197],
  ],
};

const curves = Object.fromEntries(
  Object.entries(CELL_VOLTAGE).map(([chemistry, points]) => [
    chemistry,
    { charge: points.map(([charge]) => charge), volts: points.map(([, volts]) => volts) },
  ]),
) as Record<Battery['chemistry'], { charge: number[]; volts: number[] }>;

/** Rest voltage of the pack [V] at `charge` (0 empty to 1 full). */
export function restVoltage(battery: Battery, charge: number): number {
  const { charge: x, volts } = curves[battery.chemistry];
  return battery.cells * interpolateLinear(x, volts, charge);
}

/** Cell temperature at which a cell's inner resistance is quoted [C]. */
export const QUOTED_CELL_C = 20;

/**
 * Inner resistance of a cell at `cell_C` over that at 20 °C: an Arrhenius law with 25 kJ/mol, so it doubles from 20 to 0 °C
 * and halves toward 40 °C. From memory; cells of one kind differ by half as much again. Held beyond -30 and 60 °C.
 */
export function coldFactor(cell_C: number): number {
  const kelvin = kelvinFromCelsius(Math.min(60, Math.max(-30, cell_C)));
  return Math.exp((25_000 / 8.314) * (1 / kelvin - 1 / kelvinFromCelsius(QUOTED_CELL_C)));
}

/** Inner resistance of the pack with its leads [ohm], its cells at `cell_C`. Leads do not mind the cold. */
export function packResistance(battery: Battery, cell_C = QUOTED_CELL_C): number {
  const cells = (battery.cells * battery.cellResistance_mohm * coldFactor(cell_C)) / battery.parallel;
  return (cells + battery.leadResistance_mohm) * 1e-3;
}

/** Largest steady current the maker of the pack allows [A]. */
export function dischargeLimit(battery: Battery): number {
  return (battery.dischargeLimit_C * battery.capacity_mAh) / 1000;
}

/** Resistance times capacity of one cell [ohm Ah], and the discharge limit it belongs to, by chemistry. */
const CELL_RULE: Record<Battery['chemistry'], { ohmAh: number; at_C: number; falls: number }> = {
  'lithium-polymer': { ohmAh: 0.0102, at_C: 45, falls: 0.4 },
  'lithium-polymer high voltage': { ohmAh: 0.0102, at_C: 45, falls: 0.4 },
  'lithium-ion': { ohmAh: 0.066, at_C: 6, falls: 0.4 },
};

/**
 * Usual inner resistance of one cell [mohm] at 20 °C, where nobody measured it, with the range nine of ten fall in: so much
 * for each ampere-hour, less for a higher discharge limit (labels promise more than cells keep: to the power 0.4). Common
 * practice, no source. The middle is what a meter shows of a new cell; under load for seconds, or old, it acts up to three
 * times as large (docs/checks.md: the one measured pack). `capacity_mAh` is that of one cell, not of cells side by side.
 */
export function typicalCellResistance(
  chemistry: Battery['chemistry'],
  capacity_mAh: number,
  dischargeLimit_C: number,
): Interval {
  const { ohmAh, at_C, falls } = CELL_RULE[chemistry];
  const value = ((ohmAh * 1000) / (capacity_mAh / 1000)) * (at_C / dischargeLimit_C) ** falls;
  return { value, low: value * 0.6, high: value * 3 };
}

/** Voltage under load at which a cell should be spared [V]. Common practice, no source. */
export const CUT_OFF_V: Record<Battery['chemistry'], number> = {
  'lithium-polymer': 3.3,
  'lithium-polymer high voltage': 3.3,
  'lithium-ion': 2.8,
};

/**
 * Charge (0..1) at which the pack under `current` [A] sags to its cut-off of `cutOff_V` for each cell; 0 where it never
 * does, 1 where even a full pack does.
 */
export function chargeAtCutOff(
  battery: Battery,
  current: number,
  cell_C = QUOTED_CELL_C,
  cutOff_V = CUT_OFF_V[battery.chemistry],
): number {
  const wanted = battery.cells * cutOff_V + current * packResistance(battery, cell_C);
  const spare = (charge: number) => restVoltage(battery, charge) - wanted;
  if (spare(0) >= 0) return 0;
  if (spare(1) <= 0) return 1;
  return findRoot(spare, 0, 1, 1e-12);
}

/** Share of the charge that can be drawn at a steady `current` [A]: the share the owner allows, or down to the cut-off. */
export const usableShare = (battery: Battery, current: number, cell_C = QUOTED_CELL_C): number =>
  Math.min(battery.usable_ratio, 1 - chargeAtCutOff(battery, current, cell_C));
