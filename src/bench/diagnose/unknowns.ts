import type { Project } from '../../project/schema.ts';
import { HALF_WIDTHS } from '../../assess/spread.ts';
import { metresFromMillimetres } from '../../quantities/units.ts';

/**
 * What may differ between the fan on the bench and the fan of the project. Each is 0 where nothing differs:
 *
 *   angle     added to the blade angle [rad]            edge     share of the chord that did not come out
 *   flat      share of the camber that did not come out drag     ln of a factor on section drag
 *   lift      ln of a factor on the lift slope          gap      added to the tip gap [m]
 *   loss      ln of a factor on the duct's losses       blocked  loss added in the duct, on the axial velocity head
 *   exit      ln of a factor on the area of the jet     kv       ln of a factor on speed per volt
 *   winding   ln of a factor on winding resistance      limit    share of the full-throttle current that is refused
 *   pack      ln of a factor on pack resistance         charge   added to the state of charge
 *   ripple    added to a factor of 1 on the loss at part throttle
 *   throttle  ln of the duty there was over the one stated
 *   scale     ln of thrust shown over thrust            pan      share of thrust that the jet gives back on the pan
 *   tachometer, voltmeter, ammeter                      ln of shown over true
 */
export const UNKNOWN_IDS = [
  'angle',
  'edge',
  'flat',
  'drag',
  'lift',
  'gap',
  'loss',
  'blocked',
  'exit',
  'kv',
  'winding',
  'limit',
  'pack',
  'charge',
  'ripple',
  'throttle',
  'scale',
  'pan',
  'tachometer',
  'voltmeter',
  'ammeter',
] as const;

export type UnknownId = (typeof UNKNOWN_IDS)[number];
export type Unknowns = Readonly<Record<UnknownId, number>>;

/** How the rotor meets the air: as drawn, turned backward, or put on the wrong way up. */
export type Turn = 'right' | 'backward' | 'upside down';

/** Unknowns that change the fan itself, in place in `UNKNOWN_IDS`. */
export const FAN_UNKNOWNS: readonly UnknownId[] = [
  'angle',
  'edge',
  'flat',
  'drag',
  'lift',
  'gap',
  'loss',
  'blocked',
  'exit',
];

/** Unknowns that change the drive. */
export const DRIVE_UNKNOWNS: readonly UnknownId[] = [
  'kv',
  'winding',
  'limit',
  'pack',
  'charge',
  'ripple',
  'throttle',
];

export const NOTHING: Unknowns = Object.fromEntries(UNKNOWN_IDS.map((id) => [id, 0])) as Record<
  UnknownId,
  number
>;

/** Half of a 90 % interval over one standard deviation of a normal spread. */
export const NINETY = 1.645;

/** What the bench itself adds, as standard deviations. */
export interface BenchSpread {
  readonly charge: number;
  readonly thrust: number;
  readonly rpm: number;
  readonly voltage: number;
  readonly current: number;
  readonly pan: number;
}

/**
 * Standard deviations of the ordinary scatter of each unknown, nothing being amiss. Those of fan and drive are the ones the
 * intervals of every answer are made with (`HALF_WIDTHS`, with their sources); edge 2 %, flat 5 %, throttle 1 %: common
 * practice, no source. 0: no ordinary scatter, differs only where it is the cause.
 */
export function ordinarySpread(project: Project, bench: BenchSpread): Unknowns {
  const ducted = project.fan.kind === 'ducted';
  return {
    angle: HALF_WIDTHS.angle / NINETY,
    edge: 0.02,
    flat: 0.05,
    drag: HALF_WIDTHS.drag / NINETY,
    lift: HALF_WIDTHS.lift / NINETY,
    gap: ducted ? Math.max(1e-5, metresFromMillimetres(project.printer.xyScatter_mm)) : 0,
    loss: ducted ? HALF_WIDTHS.ductLosses / NINETY : 0,
    blocked: 0,
    exit: ducted ? HALF_WIDTHS.exitArea / NINETY : 0,
    kv: HALF_WIDTHS.velocityConstant / NINETY,
    winding: HALF_WIDTHS.motorResistance / NINETY,
    limit: 0,
    pack: HALF_WIDTHS.packResistance / NINETY,
    charge: bench.charge,
    ripple: HALF_WIDTHS.ripple / NINETY,
    throttle: 0.01,
    scale: bench.thrust,
    pan: bench.pan,
    tachometer: bench.rpm,
    voltmeter: bench.voltage,
    ammeter: bench.current,
  };
}
