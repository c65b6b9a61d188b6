import { restVoltage } from '../drive/battery.ts';
import { findRoot } from '../numerics/root.ts';
import type { BenchRun } from '../project/bench.ts';
import type { Battery } from '../project/schema.ts';

/** State of charge where nobody said: a pack fresh from the charger, some of it used by the sweep; and how far that may be off. */
const ASSUMED = { charge: 0.8, charge_sd: 0.13 };
const TOLD_SD = 0.07;

/** The state of charge at the bench with its standard deviation: as told, as the rest voltage shows it, or as is usual. */
export function chargeAtBench(battery: Battery, { charge_ratio, restVoltage_V }: BenchRun['battery']) {
  if (charge_ratio !== null) return { charge: charge_ratio, charge_sd: TOLD_SD };
  if (restVoltage_V === null || restVoltage_V <= 0) return ASSUMED;
  const over = (charge: number) => restVoltage(battery, charge) - restVoltage_V;
  const charge = over(1) <= 0 ? 1 : over(0) >= 0 ? 0 : findRoot(over, 0, 1, 1e-9);
  return { charge, charge_sd: TOLD_SD };
}
