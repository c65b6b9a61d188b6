import { mapMassFlow, mapSpeedFor, mapThrust, mapTorque, type FanMap } from '../air/map.ts';
import { answersFrom } from '../assess/answers.ts';
import { dayOf, mapOf, modelOf, quotedSupply, QUOTED_CHARGE, type Model } from '../assess/model.ts';
import { strengthOfModel } from '../assess/strength.ts';
import type { DriveLimits } from '../drive/limit-types.ts';
import { driveLimits, type FanLoad } from '../drive/limits.ts';
import { driveAt } from '../drive/supply.ts';
import type { Fan, Project } from '../project/schema.ts';
import { gramsFromKilograms, millimetresFromMetres } from '../quantities/units.ts';
import { geometryFaults } from '../shape/faults.ts';
import type { FanSize, LargerFan } from './larger-fan-types.ts';
import { largerFanWords } from './larger-fan-words.ts';
import { scaledFan } from './tried.ts';

export interface LargerFanOptions {
  /** Tip diameters over the drawn one; left out: 0.7 to 1.7. */
  readonly from_ratio?: number;
  readonly to_ratio?: number;
  /** Sizes tried, at least 2; left out: 11. */
  readonly sizes?: number;
  /** Highest speed the drawn rotor stands [rpm], a larger one less in proportion; left out: from each size's own strength. */
  readonly strengthLimit_rpm?: number;
}

/**
 * Could this motor handle a larger fan: the drawn fan at other sizes (`scaledFan`) on the same motor, battery and craft. A size
 * is handled where hover passes no lasting limit and full throttle no other.
 */
export function largerFan(project: Project, options: LargerFanOptions = {}): LargerFan {
  const { from_ratio = 0.7, to_ratio = 1.7, sizes: count = 11 } = options;
  const at = (ratio: number) => sizeOf(project, ratio, options.strengthLimit_rpm);
  const ratios = Array.from(
    { length: Math.max(2, count) },
    (_, i) => from_ratio * (to_ratio / from_ratio) ** (i / (Math.max(2, count) - 1)),
  ).filter((ratio) => leavesBlade(project.fan, ratio));
  const sizes = ratios.map(at);
  const drawn = at(1);
  const good = (size: FanSize) => size.lifts && size.breaks === null;
  const last = sizes.findLastIndex(good);
  let largest: FanSize | null = last < 0 ? (good(drawn) ? drawn : null) : sizes[last];
  let next: FanSize | null = null;
  if (last >= 0 && last < sizes.length - 1) {
    let [low, high] = [ratios[last], ratios[last + 1]];
    next = sizes[last + 1];
    while (high - low > 0.01) {
      const middle = (low + high) / 2;
      const size = at(middle);
      if (good(size)) {
        low = middle;
        largest = size;
      } else {
        high = middle;
        next = size;
      }
    }
  }
  const longest = [...sizes, drawn, ...(largest ? [largest] : [])]
    .filter(good)
    .reduce<FanSize | null>((best, size) => (best && best.hover_min >= size.hover_min ? best : size), null);
  const answer = {
    sizes,
    drawn,
    largest,
    stoppedBy: next === null ? null : (next.breaks ?? ('weight' as const)),
    longest,
  };
  return { ...answer, words: largerFanWords(project, answer) };
}

/** Whether a blade is left outside the hub, which does not shrink. */
const leavesBlade = (fan: Fan, ratio: number): boolean =>
  fan.tipDiameter_mm * ratio >= 10 &&
  fan.tipDiameter_mm * ratio <= 1500 &&
  fan.hubDiameter_mm < 0.9 * fan.tipDiameter_mm * ratio;

/** Every limit of a project's drive along the throttle; the rotor's strength with its safety factor among them. */
export function projectLimits(project: Project, strengthLimit_rpm?: number): DriveLimits {
  const model = modelOf(project);
  const map = mapOf(model);
  const hoverSpeed = mapSpeedFor(map, model.needed);
  return driveLimits(project, fanLoad(model, map), {
    air_C: project.brief.airTemperature_C,
    ...dayOf(project),
    charge: QUOTED_CHARGE,
    hoverSpeed,
    ...strengthLimit(model, map, strengthLimit_rpm),
  });
}

/** The speed a rotor may run at: as told, else by its own strength; none where nothing loads it. */
function strengthLimit(model: Model, map: FanMap, told: number | undefined) {
  const safe = told ?? strengthOfModel(model, map)?.safeRpm ?? Infinity;
  return Number.isFinite(safe) ? { strengthLimit_rpm: Math.max(1, safe) } : {};
}

function sizeOf(project: Project, ratio: number, strengthLimit_rpm: number | undefined): FanSize {
  const sized: Project = { ...project, fan: scaledFan(project.fan, ratio * project.fan.tipDiameter_mm) };
  const model = modelOf(sized);
  const supply = quotedSupply(sized);
  const map = mapOf(model);
  const answers = answersFrom(sized, supply, map, model.needed);
  const lifts = answers.thrustToWeight >= 1;
  const limits = driveLimits(sized, fanLoad(model, map), {
    air_C: project.brief.airTemperature_C,
    ...dayOf(project),
    charge: QUOTED_CHARGE,
    hoverSpeed: lifts ? mapSpeedFor(map, model.needed) : null,
    ...strengthLimit(model, map, strengthLimit_rpm === undefined ? undefined : strengthLimit_rpm / ratio),
  });
  const hover =
    lifts && answers.hoverSpeed !== null
      ? driveAt(supply, mapTorque(map, answers.hoverSpeed), answers.hoverSpeed)
      : null;
  const width = millimetresFromMetres(
    2 * (model.passage ? model.layout.outerRadius : model.layout.tipRadius),
  );
  return {
    tipDiameter_mm: sized.fan.tipDiameter_mm,
    ductOuterDiameter_mm: width,
    mass_g: gramsFromKilograms(model.mass),
    thrustToWeight: answers.thrustToWeight,
    usableThrustToWeight: limits.first ? limits.first.at!.thrust_N / model.needed : answers.thrustToWeight,
    hoverThrottle: answers.hoverThrottle,
    hover_min: answers.hoverMinutes,
    hoverCurrent_A: hover?.motorCurrent ?? null,
    fullCurrent_A: limits.full.motorCurrent,
    hoverWinding_C: limits.heat.hover?.steady_C?.value ?? null,
    fullWinding_C: limits.heat.full.steady_C?.value ?? null,
    binding: limits.first,
    breaks: breakOf(limits),
    lifts,
    fault: geometryFaults(sized.fan, sized.motor)[0]?.text ?? null,
    withinWidth: width <= project.brief.largestDuctWidth_mm,
  };
}

/** The fan's own figures for its drive, off its map. */
function fanLoad(model: Model, map: FanMap): FanLoad {
  return {
    torqueAt: (omega) => mapTorque(map, omega),
    thrustAt: (omega) => mapThrust(map, omega),
    airSpeedAt: (omega) => mapMassFlow(map, omega) / (model.air.density * model.discArea),
  };
}

function breakOf({ limits, hoverThrottle }: DriveLimits): FanSize['breaks'] {
  for (const limit of limits) {
    if (!limit.at) break;
    if (!limit.lasting) return { limit, when: 'at full throttle' };
    if (hoverThrottle !== null && limit.at.throttle < hoverThrottle) return { limit, when: 'in hover' };
  }
  return null;
}
