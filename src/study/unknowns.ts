import { AS_DRAWN, type Departure } from '../assess/model.ts';
import { HALF_WIDTHS } from '../assess/spread.ts';
import type { Project } from '../project/schema.ts';

/** Half of a 90 % interval over one standard deviation of a normal spread. */
export const NINETY = 1.645;

/** Each thing about a project that is not known before it is built and flown. */
export type UnknownId =
  | 'blade angle'
  | 'section drag'
  | 'section lift'
  | 'duct losses'
  | 'jet area'
  | 'tip gap'
  | 'motor speed per volt'
  | 'winding resistance'
  | 'battery resistance'
  | 'battery capacity'
  | 'part-throttle loss'
  | 'mass'
  | 'air temperature'
  | 'material strength';

/** One unknown with its spread: normal about what is drawn. */
export interface Unknown {
  readonly id: UnknownId;
  /** As the subject of a sentence. */
  readonly name: string;
  /** Half of the 90 % interval, in `unit`. */
  readonly halfWidth: number;
  /** rad, m or K; '': a ratio to what is drawn. */
  readonly unit: '' | 'rad' | 'm' | 'K';
}

/** Other half-widths (90 %) in the units of `unknownsOf`; 0: known for certain. */
export type Spreads = Readonly<Partial<Record<UnknownId, number>>>;

/**
 * Half-widths that no interval of `assess` counts. A cell's capacity and a printed part's strength from part to part: common
 * practice, no source. The warmth of the day: our choice.
 */
const MORE = { capacity: 0.05, temperature_K: 3, strength: 0.2 } as const;

/**
 * What is uncertain about a project, with the spreads that the intervals of `assess` rest on (src/assess/spread.ts), the
 * printer's own scatter for the tip gap, and three more: capacity, warmth of the air, strength of the material.
 */
export function unknownsOf(project: Project, own: Spreads = {}): readonly Unknown[] {
  const list: Unknown[] = [];
  const add = (id: UnknownId, name: string, halfWidth: number, unit: Unknown['unit'] = '') => {
    const width = own[id] ?? halfWidth;
    if (!(width >= 0 && width < Infinity))
      throw new Error(`The spread of ${id} is ${width}; it must be 0 or a positive number.`);
    if (width > 0) list.push({ id, name, halfWidth: width, unit });
  };
  add('blade angle', 'the angle of the blades', HALF_WIDTHS.angle, 'rad');
  add('section drag', 'the drag of the blade section', HALF_WIDTHS.drag);
  add('section lift', 'the lift of the blade section', HALF_WIDTHS.lift);
  if (project.fan.kind === 'ducted') {
    add('duct losses', 'the losses of the duct', HALF_WIDTHS.ductLosses);
    add('jet area', 'the area the jet fills at the exit', HALF_WIDTHS.exitArea);
    add('tip gap', 'the scatter of the tip gap', NINETY * project.printer.xyScatter_mm * 1e-3, 'm');
  }
  add('motor speed per volt', "the motor's speed per volt", HALF_WIDTHS.velocityConstant);
  add('winding resistance', 'the resistance of the winding', HALF_WIDTHS.motorResistance);
  add('battery resistance', 'the resistance of the battery', HALF_WIDTHS.packResistance);
  add('battery capacity', 'the capacity of the battery', MORE.capacity);
  add('part-throttle loss', 'the loss at part throttle', HALF_WIDTHS.ripple);
  add('mass', 'the mass of the craft', HALF_WIDTHS.mass);
  add('air temperature', 'the warmth of the air', MORE.temperature_K, 'K');
  add('material strength', 'the strength of the printed material', MORE.strength);
  return list;
}

/** Furthest an unknown is drawn from its middle, in half-widths: 1 in 1000 lies beyond. */
export const FURTHEST = 2;

/** What one draw makes of the unknowns: `x` counts half-widths from the middle, in the order of `unknowns`. */
export interface Draw {
  readonly departure: Departure;
  readonly project: Project;
  readonly massFactor: number;
  readonly strengthFactor: number;
}

/** The project and fan of one draw; ratios stop at a twentieth, losses at 0, the gap at 0. */
export function drawOf(project: Project, unknowns: readonly Unknown[], x: ArrayLike<number>): Draw {
  const departure: { -readonly [K in keyof Departure]: number } = { ...AS_DRAWN };
  let { motor, battery, controller, brief } = project;
  let [massFactor, strengthFactor] = [1, 1];
  unknowns.forEach(({ id, halfWidth }, i) => {
    const step = halfWidth * x[i];
    const factor = Math.max(0.05, 1 + step);
    switch (id) {
      case 'blade angle':
        departure.angle = step;
        break;
      case 'section drag':
        departure.dragFactor = factor;
        break;
      case 'section lift':
        departure.liftFactor = factor;
        break;
      case 'duct losses':
        departure.lossFactor = Math.max(0, 1 + step);
        break;
      case 'jet area':
        departure.exitFactor = factor;
        break;
      case 'tip gap':
        departure.gap = step;
        break;
      case 'motor speed per volt':
        motor = { ...motor, velocityConstant_rpmPerV: motor.velocityConstant_rpmPerV * factor };
        break;
      case 'winding resistance':
        motor = { ...motor, resistance_mohm: motor.resistance_mohm * factor };
        break;
      case 'battery resistance':
        battery = { ...battery, cellResistance_mohm: battery.cellResistance_mohm * factor };
        break;
      case 'battery capacity':
        battery = { ...battery, capacity_mAh: battery.capacity_mAh * factor };
        break;
      case 'part-throttle loss':
        controller = { ...controller, rippleLoss_S: controller.rippleLoss_S * Math.max(0, 1 + step) };
        break;
      case 'mass':
        massFactor = factor;
        break;
      case 'air temperature':
        brief = { ...brief, airTemperature_C: brief.airTemperature_C + step };
        break;
      case 'material strength':
        strengthFactor = factor;
        break;
    }
  });
  return {
    departure,
    project: { ...project, motor, battery, controller, brief },
    massFactor,
    strengthFactor,
  };
}
