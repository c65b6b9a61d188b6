import { modelOf, highestSpeed } from '../assess/model.ts';
import { printEffect } from '../assess/print-effect.ts';
import type { Fan, Project } from '../project/schema.ts';
import { formatNumber as n, formatPercent } from '../quantities/format.ts';

/** One size of the family and what the printer costs there. */
export interface SizeTried {
  readonly tipDiameter_mm: number;
  /** Share of thrust lost at the same power. */
  readonly lost_ratio: number;
  /** Somewhere on the blade nothing comes out. */
  readonly incomplete: boolean;
}

export interface SmallestFan {
  /** Below this the printer takes more than it may; null: even the largest tried loses more. */
  readonly tipDiameter_mm: number | null;
  readonly allowed_ratio: number;
  /** Largest first. */
  readonly tried: readonly SizeTried[];
  readonly words: string;
}

/** Largest and smallest size tried, over the drawn one, and steps between. */
const LARGEST = 3;
const SMALLEST = 0.15;
const STEPS = 16;
const HALVINGS = 7;

/** Every length of a fan that the air sees times `k`; proportions stay. */
function alike(fan: Fan, k: number): Fan {
  const { duct, section } = fan;
  return {
    ...fan,
    tipDiameter_mm: fan.tipDiameter_mm * k,
    hubDiameter_mm: fan.hubDiameter_mm * k,
    hubHeight_mm: fan.hubHeight_mm * k,
    tipGap_mm: fan.tipGap_mm * k,
    section: {
      ...section,
      trailingEdge_mm: section.trailingEdge_mm * k,
      leadingEdge_mm: section.leadingEdge_mm * k,
    },
    blade: fan.blade.map((s) => ({ ...s, chord_mm: s.chord_mm * k })),
    duct: {
      ...duct,
      lipRadius_mm: duct.lipRadius_mm * k,
      length_mm: duct.length_mm * k,
      wall_mm: duct.wall_mm * k,
      rotorDepth_mm: duct.rotorDepth_mm * k,
    },
  };
}

/**
 * "Smallest fan this printer should try": the tip diameter below which fans of the project's proportions, at one tip speed,
 * lose more than `allowed` of their thrust at the same power to the printer. Every length shrinks, the line and the layer
 * do not. From the largest size down: the first that loses too much ends the search, halved to 1 % of the step.
 */
export function smallestFan(project: Project, allowed = 0.1): SmallestFan {
  const tipSpeed = (0.6 * highestSpeed(project) * project.fan.tipDiameter_mm) / 2e3;
  const at = (k: number): SizeTried => {
    const model = modelOf({ ...project, fan: alike(project.fan, k) });
    const effect = printEffect(model, tipSpeed / model.rotor.tipRadius)!;
    return {
      tipDiameter_mm: project.fan.tipDiameter_mm * k,
      lost_ratio: effect.thrustAtPowerLost_ratio,
      incomplete: effect.stations.some((s) => s.lost),
    };
  };
  const good = (s: SizeTried) => s.lost_ratio <= allowed && !s.incomplete;
  const tried: SizeTried[] = [];
  let low = 0;
  let high = LARGEST;
  for (let i = 0; i <= STEPS; i++) {
    const k = LARGEST * (SMALLEST / LARGEST) ** (i / STEPS);
    const size = at(k);
    tried.push(size);
    if (!good(size)) {
      low = k;
      break;
    }
    high = k;
  }
  const printer = project.printer.name;
  const share = formatPercent(allowed);
  if (!good(tried[0]))
    return {
      tipDiameter_mm: null,
      allowed_ratio: allowed,
      tried,
      words: `Even at ${n(tried[0].tipDiameter_mm, 3)} mm a fan of these proportions loses more than ${share} of its thrust to this printer (${printer}): draw thicker blades or print with a finer line.`,
    };
  for (let i = 0; low > 0 && i < HALVINGS; i++) {
    const middle = Math.sqrt(low * high);
    if (good(at(middle))) high = middle;
    else low = middle;
  }
  const tip = project.fan.tipDiameter_mm * high;
  return {
    tipDiameter_mm: tip,
    allowed_ratio: allowed,
    tried,
    words:
      low === 0
        ? `Down to ${n(tip, 2)} mm, the smallest tried, fans of these proportions keep ${formatPercent(1 - allowed)} of their thrust on this printer (${printer}).`
        : `Below ${n(tip, 2)} mm tip diameter fans of these proportions lose more than ${share} of their thrust at the same power to this printer (${printer}).`,
  };
}
