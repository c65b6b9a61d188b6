import { climbOf } from '../../craft/climb.ts';
import { controlWords } from '../../craft/control.ts';
import type { Placement } from '../../craft/placement.ts';
import { nearnessRemarks, windWords } from '../../craft/wind-words.ts';
import { hoverControl, windLimits, type WindLimits } from '../../craft/wind.ts';
import type { DriveLimits } from '../../drive/limit-types.ts';
import type { Project } from '../../project/schema.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import { batteryStudy, type BatteryStudy } from '../../study/battery-choice.ts';
import { ductOrOpen, type DuctOrOpen } from '../../study/duct-or-open.ts';
import type { LargerFan } from '../../study/larger-fan-types.ts';
import { largerFan, projectLimits } from '../../study/larger-fan.ts';
import {
  compareStands,
  USUAL_STANDS,
  variantStands,
  type Stand,
  type StandResult,
} from '../../study/layouts.ts';
import { flownProject } from '../../study/tried.ts';

/** What the drive of a project can carry. */
export interface DriveAnswer {
  readonly limits: DriveLimits;
  readonly larger: LargerFan;
}

/** The whole machine: where its mass sits, what it stands, and what else it could be. */
export interface CraftAnswer {
  readonly placement: Placement;
  readonly flying: readonly string[];
  readonly wind: readonly string[];
  readonly nearness: readonly string[];
  readonly battery: BatteryStudy;
  /** The present one first. */
  readonly stands: readonly StandResult[];
  readonly ductOrOpen: DuctOrOpen;
}

export const driveAnswer = (project: Project): DriveAnswer => ({
  limits: projectLimits(project),
  larger: largerFan(project),
});

/** All of it in one run: 0.6 to 1.2 s on a busy machine of two cores. */
export function craftAnswer(project: Project): CraftAnswer {
  const flown = flownProject(project);
  const control = hoverControl(flown);
  const { rate } = climbOf(flown);
  return {
    placement: flown.placement,
    flying: [
      ...(control
        ? controlWords(control)
        : ['Its fans cannot give the thrust that hover needs, so there is no control to speak of.']),
      rate > 0
        ? `At full throttle, battery half full, it climbs straight up at ${n(rate, 2)} m/s.`
        : 'It does not climb: at full throttle its thrust is below its weight.',
    ],
    wind: bothSides(windLimits(flown, 'front'), windLimits(flown, 'side')),
    nearness: nearnessRemarks(flown),
    battery: batteryStudy(project),
    stands: distinct(compareStands(project, standsFor(project))),
    ductOrOpen: ductOrOpen(project),
  };
}

/** The weaker side in full, the other in a sentence. */
function bothSides(front: WindLimits, side: WindLimits): string[] {
  const [weaker, other] = front.steady <= side.steady ? [front, side] : [side, front];
  if (!other.atSteady) return [...windWords(weaker), ...windWords(other)];
  return [
    ...windWords(weaker),
    `From the ${other.from} a steady wind of ${n(other.steady, 2)} m/s is the most.`,
  ];
}

function standsFor(project: Project): Stand[] {
  const { fanCount, layout } = project.craft;
  const present: Stand = { fanCount, layout, battery: 'middle' };
  const others = USUAL_STANDS.filter(
    (s) => !(s.fanCount === fanCount && s.layout === layout && s.battery === 'middle'),
  );
  return [present, ...variantStands(project), ...others];
}

/** Stands that differ in something: four fans in a ring and in two rows stand on the same spots. */
const distinct = (stands: readonly StandResult[]): StandResult[] =>
  stands.filter(
    (s, i) =>
      !stands
        .slice(0, i)
        .some(
          (t) =>
            t.fanCount === s.fanCount &&
            t.battery === s.battery &&
            t.tilt_deg === s.tilt_deg &&
            Math.abs(t.circle_mm - s.circle_mm) < 0.01 &&
            Math.abs(t.length_mm - s.length_mm) < 0.01,
        ),
  );
