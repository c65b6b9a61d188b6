import { interpolateLinear } from '../numerics/interpolate.ts';
import type { Battery } from '../project/schema.ts';

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

/** Inner resistance of the pack with its leads [ohm]. */
export function packResistance(battery: Battery): number {
  return (
    ((battery.cells * battery.cellResistance_mohm) / battery.parallel + battery.leadResistance_mohm) * 1e-3
  );
}

/** Largest steady current the maker of the pack allows [A]. */
export function dischargeLimit(battery: Battery): number {
  return (battery.dischargeLimit_C * battery.capacity_mAh) / 1000;
}
