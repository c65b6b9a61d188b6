import { restVoltage } from '../../drive/battery.ts';
import type { Project } from '../../project/schema.ts';

/** Speeds a drive can reach, for the tachometer [rpm]. */
export interface SpeedRange {
  readonly low: number;
  readonly high: number;
}

/** Slowest running of a controller without sensors, as a share of the speed with no load; common practice, no source. */
const IDLE_SHARE = 0.06;
/** Motors turn up to a tenth faster for a volt than their label says; common practice, no source. */
const LABEL_SPREAD = 1.1;

/** From a controller's idle to the free motor on a full battery. */
export function speedRangeOf({ motor, battery }: Pick<Project, 'motor' | 'battery'>): SpeedRange {
  const free = motor.velocityConstant_rpmPerV * restVoltage(battery, 1);
  return { low: IDLE_SHARE * free, high: LABEL_SPREAD * free };
}
