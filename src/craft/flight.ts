import type { Air } from '../air/atmosphere.ts';
import { flightMap, mapAt, type FlightMap } from '../air/flight-map.ts';
import type { Passage } from '../air/passage.ts';
import type { RotorAir } from '../air/rotor.ts';
import { restVoltage } from '../drive/battery.ts';
import { motorConstants } from '../drive/motor.ts';
import { speedAtThrottle, supplyAt, type Supply } from '../drive/supply.ts';
import { findRoot } from '../numerics/root.ts';
import type { Project } from '../project/schema.ts';
import { GRAVITY } from '../quantities/constants.ts';
import type { PrintedVolumes } from '../shape/volumes.ts';
import { dragAreas, type DragAreas } from './drag.ts';
import { placementOf, type Placement, type PlacementOptions } from './placement.ts';

/** A craft ready to be flown: its fans over speed and axial speed, its drive, its mass and where that sits. SI. */
export interface Flown {
  readonly project: Project;
  readonly air: Air;
  readonly rotor: RotorAir;
  readonly passage: Passage | null;
  readonly map: FlightMap;
  readonly supply: Supply;
  readonly placement: Placement;
  readonly drag: DragAreas;
  /** [N] */
  readonly weight: number;
  /** Share of the thrust that lifts: the cosine of the fans' lean. */
  readonly upward: number;
}

/** What a flown craft is made of. */
export interface FlownParts {
  readonly project: Project;
  readonly air: Air;
  readonly rotor: RotorAir;
  readonly passage: Passage | null;
  readonly volumes: PrintedVolumes;
  /** State of charge; left out: half. */
  readonly charge?: number;
  readonly options?: PlacementOptions;
}

/** Makes a craft ready to be flown; building the map takes about 7 ms. */
export function flownOf({ project, air, rotor, passage, volumes, charge = 0.5, options }: FlownParts): Flown {
  const placement = placementOf(project, volumes, options);
  const highest = motorConstants(project.motor).velocityConstant * restVoltage(project.battery, 1);
  return {
    project,
    air,
    rotor,
    passage,
    map: flightMap(rotor, passage, air, { highest }),
    supply: supplyAt(project, charge, { cell_C: project.brief.airTemperature_C }),
    placement,
    drag: dragAreas(placement),
    weight: placement.whole.mass * GRAVITY,
    upward: -placement.fans[0].thrust[2],
  };
}

/** Speed [rad/s] of each fan with all at full throttle, the air coming at `axialSpeed` [m/s]. */
export const fullSpeedAt = ({ map, supply }: Flown, axialSpeed: number): number =>
  speedAtThrottle(supply, (omega) => mapAt(map, omega, axialSpeed).torque, 1);

/** Thrust of one fan at full throttle of all [N]. */
export const fullThrustAt = (flown: Flown, axialSpeed: number): number =>
  mapAt(flown.map, fullSpeedAt(flown, axialSpeed), axialSpeed).thrust;

/** Speed [rad/s] at which one fan gives `thrust` [N]; null where it doesn't within what the motor can turn on a full pack. */
export function speedForThrust({ map }: Flown, thrust: number, axialSpeed: number): number | null {
  const excess = (omega: number) => mapAt(map, omega, axialSpeed).thrust - thrust;
  const { highest, lowest } = map.atAdvance[0];
  if (!(excess(highest) >= 0) || !(excess(lowest) <= 0)) return null;
  return findRoot(excess, lowest, highest, 1e-9 * highest);
}

/** Thrust each fan gives when the craft hangs level in still air [N]. */
export const hoverThrust = ({ weight, upward, placement }: Flown): number =>
  weight / upward / placement.fans.length;
