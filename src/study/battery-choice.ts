import type { Battery, Project } from '../project/schema.ts';
import { formatMinutes, formatNumber as n, formatPercent } from '../quantities/format.ts';
import { peakOf, tryProject } from './tried.ts';

/** One size of battery of the same kind of cell. */
export interface BatteryChoice {
  readonly capacity_mAh: number;
  readonly mass_g: number;
  /** Battery over all-up mass. */
  readonly share: number;
  readonly hover_min: number;
  readonly thrustToWeight: number;
}

/** Flight time over battery size. */
export interface BatteryStudy {
  readonly now: BatteryChoice;
  /** From small to large. */
  readonly curve: readonly BatteryChoice[];
  /** The longest flight there is, and the longest that keeps `marginKept`; null where no size lifts, or keeps it. */
  readonly longest: BatteryChoice | null;
  readonly longestKept: BatteryChoice | null;
  readonly marginKept: number;
  /** Battery over all-up mass of the longest flight if winding, switches, cells and leads had no resistance; null: none. */
  readonly shareWithoutResistance: number | null;
  /** From the present size on: what one more minute costs; null where a larger battery no longer brings any. */
  readonly nextMinute: {
    readonly battery_g: number;
    readonly capacity_mAh: number;
    readonly thrustToWeightLost: number;
  } | null;
  readonly words: readonly string[];
}

/** Thrust to weight kept for steering and wind. Common practice, no source. */
const MARGIN_KEPT = 1.5;

/** Sizes looked at, as factors on the present battery. */
const [SMALLEST, LARGEST, POINTS] = [0.1, 12, 40];

/** Share of all-up mass at which a craft of constant efficiency hovers longest; see `constantEfficiencyTime`. */
export const CONSTANT_EFFICIENCY_SHARE = 2 / 3;

/**
 * A battery of `factor` times the capacity of the same kind of cell: mass in proportion, cell resistance inversely; leads,
 * C-rating and voltage stay. Source: cells side by side.
 */
export function resizedBattery(battery: Battery, factor: number): Battery {
  return {
    ...battery,
    capacity_mAh: battery.capacity_mAh * factor,
    cellResistance_mohm: battery.cellResistance_mohm / factor,
    mass_g: battery.mass_g * factor,
  };
}

/**
 * Hover time of a craft whose power is a constant times weight^1.5, up to that constant: m_b / (m_0 + m_b)^1.5. Zero slope
 * where m_b = 2 m_0. Source: momentum theory's P ~ W^1.5 and E ~ m_b; derived here.
 */
export const constantEfficiencyTime = (battery: number, bare: number): number =>
  battery / (bare + battery) ** 1.5;

const choiceOf = (project: Project, factor: number): BatteryChoice => {
  const battery = resizedBattery(project.battery, factor);
  const { answers, mass } = tryProject({ ...project, battery });
  return {
    capacity_mAh: battery.capacity_mAh,
    mass_g: battery.mass_g,
    share: battery.mass_g / 1000 / mass,
    hover_min: answers.hoverMinutes,
    thrustToWeight: answers.thrustToWeight,
  };
};

/** The longest hover over battery size for any `choose`, by a grid in ln(size) and golden section about its best point. */
export function longestHover(choose: (factor: number) => BatteryChoice): {
  readonly curve: readonly BatteryChoice[];
  readonly longest: BatteryChoice | null;
} {
  const step = Math.log(LARGEST / SMALLEST) / (POINTS - 1);
  const factorAt = (i: number) => SMALLEST * Math.exp(i * step);
  const curve = Array.from({ length: POINTS }, (_, i) => choose(factorAt(i)));
  let best = 0;
  curve.forEach((c, i) => {
    if (c.hover_min > curve[best].hover_min) best = i;
  });
  if (!(curve[best].hover_min > 0)) return { curve, longest: null };
  const centre = Math.log(factorAt(best));
  const { x } = peakOf((log) => choose(Math.exp(log)).hover_min, centre - step, centre + step, 1e-4);
  const refined = choose(Math.exp(x));
  return { curve, longest: refined.hover_min > curve[best].hover_min ? refined : curve[best] };
}

/** Flight time against battery size for a project, its optimum, and the price of one more minute. About 70 ms. */
export function batteryStudy(project: Project): BatteryStudy {
  const choose = (factor: number) => choiceOf(project, factor);
  const now = choose(1);
  const { curve, longest } = longestHover(choose);
  const longestKept = keepingMargin(choose, longest, curve);
  const smooth = withoutResistance(project);
  const draft = {
    now,
    curve,
    longest,
    longestKept,
    marginKept: MARGIN_KEPT,
    shareWithoutResistance: longestHover((factor) => choiceOf(smooth, factor)).longest?.share ?? null,
    nextMinute: nextMinute(choose, now),
  };
  return { ...draft, words: wordsOf(draft) };
}

const withoutResistance = (project: Project): Project => ({
  ...project,
  motor: { ...project.motor, resistance_mohm: 0 },
  controller: { ...project.controller, resistance_mohm: 0 },
  battery: { ...project.battery, cellResistance_mohm: 0, leadResistance_mohm: 0 },
});

/** Longest hover among sizes that keep the margin: the optimum where it keeps it, else the size where the margin is just met. */
function keepingMargin(
  choose: (factor: number) => BatteryChoice,
  longest: BatteryChoice | null,
  curve: readonly BatteryChoice[],
): BatteryChoice | null {
  if (longest && longest.thrustToWeight >= MARGIN_KEPT) return longest;
  const kept = curve.filter((c) => c.thrustToWeight >= MARGIN_KEPT);
  if (kept.length === 0) return null;
  const last = kept[kept.length - 1];
  const unit = choose(1).capacity_mAh;
  let low = last.capacity_mAh / unit;
  let high = (curve[curve.indexOf(last) + 1]?.capacity_mAh ?? last.capacity_mAh) / unit;
  for (let i = 0; i < 10; i++) {
    const middle = (low + high) / 2;
    if (choose(middle).thrustToWeight >= MARGIN_KEPT) low = middle;
    else high = middle;
  }
  const edge = choose(low);
  return kept.reduce((a, b) => (b.hover_min > a.hover_min ? b : a), edge);
}

/** Costs of the next minute by the slope over 5 % more battery. */
function nextMinute(choose: (factor: number) => BatteryChoice, now: BatteryChoice) {
  const more = choose(1.05);
  const gained = more.hover_min - now.hover_min;
  if (!(gained > 1e-6)) return null;
  return {
    battery_g: (more.mass_g - now.mass_g) / gained,
    capacity_mAh: (more.capacity_mAh - now.capacity_mAh) / gained,
    thrustToWeightLost: (now.thrustToWeight - more.thrustToWeight) / gained,
  };
}

function wordsOf({
  now,
  longest,
  longestKept,
  marginKept,
  nextMinute: next,
  shareWithoutResistance: share,
}: Omit<BatteryStudy, 'words'>): string[] {
  const words = [
    `The battery is ${formatPercent(now.share)} of the craft and ${now.hover_min > 0 ? `holds it up for ${formatMinutes(now.hover_min)}` : 'does not hold it up'}.`,
  ];
  if (!longest)
    return [
      ...words,
      'No size of this kind of battery lifts it; the fans must give more, or the craft weigh less.',
    ];
  words.push(
    next
      ? `One more minute would cost ${n(next.battery_g, 2)} g of battery (${n(next.capacity_mAh, 2)} mAh) and ${n(next.thrustToWeightLost, 2)} of its thrust over weight.`
      : 'A larger battery of this kind would not make it fly longer: it has to carry it.',
  );
  words.push(
    `The longest hover there is takes ${n(longest.capacity_mAh)} mAh (${n(longest.mass_g)} g, ${formatPercent(longest.share)} of the craft): ${formatMinutes(longest.hover_min)}, with ${n(longest.thrustToWeight, 3)} times its weight.`,
  );
  if (share !== null && longest.share < CONSTANT_EFFICIENCY_SHARE)
    words.push(
      `At constant efficiency the best share would be two thirds; without resistance in copper, switches and cells it would be ${formatPercent(share)} here, and with it ${formatPercent(longest.share)}: the heavier craft asks more current, which heats winding and cells, and the throttle comes to its end.`,
    );
  if (longestKept && longestKept.capacity_mAh < 0.99 * longest.capacity_mAh)
    words.push(
      `To keep ${n(marginKept, 2)} times its weight for steering, stop at ${n(longestKept.capacity_mAh)} mAh (${n(longestKept.mass_g)} g): ${formatMinutes(longestKept.hover_min)}.`,
    );
  else if (!longestKept) words.push(`No size keeps ${n(marginKept, 2)} times its weight for steering.`);
  return words;
}
