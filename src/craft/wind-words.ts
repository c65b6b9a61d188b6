import { formatNumber as n, formatPercent } from '../quantities/format.ts';
import { degreesFromRadians, millimetresFromMetres } from '../quantities/units.ts';
import type { Flown } from './flight.ts';
import { FASTEST, MARGIN_KEPT, type WindLimits } from './wind.ts';

const LIMITED_BY = {
  thrust: 'then the thrust is used up',
  control: 'then too little difference of thrust is left to hold it level',
  model: 'beyond it the air comes faster than this model of the fan reaches',
} as const;

/** Wind across the disc over the air through it past which the windward lip is likely to stall. Common practice, no source. */
const LIP_STALLS = 0.7;

/** Said wherever a wind figure is shown. */
const UNPROVEN =
  'No measured craft of this size stands behind these wind figures, so take them as estimates: one published quad of 66 mm ducted rotors held a gust of at least 4 m/s and had about 2.5 times the drag and tipping moment of the same craft without ducts.';

/** What wind it stands, in sentences. */
export function windWords(limits: WindLimits): string[] {
  const { from, steady, gust, steadyLimit, atSteady } = limits;
  const side = from === 'front' ? 'from the front' : 'from the side';
  if (!atSteady)
    return [
      steadyLimit === 'thrust'
        ? `It stands no wind ${side}: its thrust is used up in hover.`
        : `It stands no wind ${side}: the fans' speeds alone can't hold it level about that axis.`,
    ];
  const words = [
    `It stands a steady wind of ${n(steady, 2)} m/s ${side} with ${formatPercent(MARGIN_KEPT)} of its control left, leaning ${n(degreesFromRadians(atSteady.lean), 2)} degrees; ${LIMITED_BY[steadyLimit]}.`,
    `There the air its fans swallow drags with ${n(atSteady.momentumDrag, 2)} N and the body with ${n(atSteady.bodyDrag, 2)} N.`,
    gust >= FASTEST
      ? `No sudden gust below ${n(FASTEST, 2)} m/s takes that from it in a still hover.`
      : `A sudden gust of ${n(gust, 2)} m/s in a still hover leaves the same control.`,
  ];
  words.push(UNPROVEN);
  if (atSteady.crossRatio > LIP_STALLS)
    words.push(
      `At that wind the air crosses the mouths at ${formatPercent(atSteady.crossRatio)} of the speed it goes through them: the windward lips may stall, which costs thrust and shakes, and this reckoning does not see it.`,
    );
  return words;
}

/** Rim to rim over the tip diameter below which neighbouring mouths feed on the same air. Common practice, no source. */
const CROWDED = 0.05;

/**
 * What nearness does: to the ground, to a wall, of fan to fan. Source of the ground's reach: Cheeseman and Bennett, ARC R&M
 * 3021, 1955, T / T_far = 1 / (1 - (R / 4 z)^2) for an open rotor at height z, 1.6 % at z of one diameter (from memory).
 */
export function nearnessRemarks({ placement, passage, rotor, project }: Flown): string[] {
  const diameter = 2 * rotor.tipRadius;
  const mm = (x: number) => n(millimetresFromMetres(x), 2);
  const remarks = [
    passage
      ? `Closer to the ground than ${mm(diameter)} mm under the exits (one tip diameter) the jets back up: the blades work harder, the air that comes up between the ducts is swallowed again, and it wanders.`
      : `Closer to the ground than ${mm(diameter)} mm (one tip diameter) the rotors gain a few percent and the craft floats; between them air comes up and shakes it.`,
    `Within ${mm(2 * diameter)} mm of a wall or a ceiling (two tip diameters) the mouths draw it toward the wall; keep clear of it. Common practice, no source.`,
  ];
  const gap = placement.pitch - placement.rimDiameter;
  if (placement.fans.length > 1 && gap < CROWDED * diameter)
    remarks.push(
      `Only ${mm(gap)} mm part the ${passage ? 'rims' : 'rotors'}, ${formatPercent(gap / diameter)} of the tip diameter: neighbouring fans draw on the same air, and one that slows is fed unevenly. Some percent of thrust may go; it is not reckoned here.`,
    );
  if (project.craft.tilt_deg < 0)
    remarks.push(
      'The fans lean outward, so the jets meet under the middle: air comes up there and the body stands in it.',
    );
  return remarks;
}
