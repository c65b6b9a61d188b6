import { formatNumber as n, formatPercent } from '../quantities/format.ts';
import {
  drillDepth,
  massAtRadius,
  sandedVolume,
  splitCorrection,
  tapeLength,
  wholeTurn,
  type Moment,
} from './correction.ts';
import type { TrialAnswer } from './trial-runs.ts';
import type { OrderAnswer, Workshop } from './types.ts';

/** Misfit of the trial runs over the first reading above which they should be repeated. Common practice, no source. */
const POOR_FIT = 0.1;

/** Change of the vibration by the trial mass, over the first reading, outside which the answer is shaky. Common practice, no source. */
const TOO_LITTLE = 0.25;
const TOO_MUCH = 4;

const degrees = (angle_deg: number): string => `${Math.round(wholeTurn(angle_deg)) % 360}°`;

/** Masses at the bench are small: milligrams below a tenth of a gram. */
const massInWords = (mass_g: number): string =>
  mass_g < 0.1 ? `${n(mass_g * 1000, 2)} mg` : `${n(mass_g, 2)} g`;

/** Which order, what it leaves, and whether that will do. */
export function orderWords(order: Omit<OrderAnswer, 'words'>, workshop: Workshop): string[] {
  const { permissible_gmm } = workshop;
  const how = order.exact
    ? 'Every order was tried.'
    : 'Found by exchanging pairs from many starts; with so many blades not every order is tried.';
  const verdict =
    order.after_gmm <= permissible_gmm
      ? `The blades alone are then within the ${n(permissible_gmm, 2)} g mm of the grade; bore and seats add their own.`
      : `The grade permits ${n(permissible_gmm, 2)} g mm, so the blades need a correction too.`;
  return [
    `Set the blades round the hub in the order ${order.order.join(', ')} (numbers as weighed), either way round. ${how}`,
    `That leaves ${n(order.after_gmm, 2)} g mm in place of ${n(order.before_gmm, 2)} g mm in the order weighed, the centre of a blade ${n(workshop.bladeRadius_mm, 3)} mm from the axis. ${verdict}`,
    ...(order.after_gmm > permissible_gmm
      ? correctionWords(order.correction, workshop, {
          from: `blade ${order.order[0]}, toward blade ${order.order[1]}`,
          blades: order.order.map((blade) => `blade ${blade}`),
        })
      : []),
  ];
}

/** What the runs found, and how far to trust it. */
export function trialWords(trial: Extract<TrialAnswer, { ok: true }>, workshop: Workshop): string[] {
  const ratio = trial.effect / trial.original;
  const words = [
    `The runs (${trial.method}) find ${n(trial.unbalance.amount_gmm, 2)} g mm with the heavy side ${degrees(trial.unbalance.angle_deg)} past the mark; the grade permits ${n(workshop.permissible_gmm, 2)} g mm.`,
  ];
  if (trial.misfit !== null)
    words.push(
      trial.misfit > POOR_FIT
        ? `The readings miss each other by ${formatPercent(trial.misfit)} of the first one: too much. Hold the same speed, clamp the rig the same, and read them again before you cut anything.`
        : `The readings agree within ${formatPercent(trial.misfit, 1)} of the first one.`,
    );
  if (ratio < TOO_LITTLE)
    words.push(
      `The trial mass changed the vibration by only ${formatPercent(ratio)} of the first reading; one about ${n(1 / ratio, 2)} times as heavy gives a surer answer.`,
    );
  if (ratio > TOO_MUCH)
    words.push(
      `The trial mass weighs ${n(ratio, 2)} times as much as the unbalance; a lighter one gives a surer answer, and is safer.`,
    );
  return words;
}

/** From where the angles of a correction count, and what the blades are called where that is known. */
interface Places {
  readonly from: string;
  readonly blades?: readonly string[];
}

/** A correction as work: how much to add or take away, where and by what means. */
export function correctionWords(correction: Moment, workshop: Workshop, places: Places): string[] {
  const { from } = places;
  const { amount_gmm, angle_deg } = correction;
  if (!(amount_gmm > 0)) return [];
  const mass = massAtRadius(amount_gmm, workshop.radius_mm);
  const at = `${n(workshop.radius_mm, 3)} mm from the axis`;
  const tape =
    workshop.tape_gpm === null
      ? ''
      : `, which is ${n(tapeLength(mass, workshop.tape_gpm), 2)} mm of your tape`;
  return [
    `Add ${massInWords(mass)} ${at}, ${degrees(angle_deg)} past ${from}${tape}. At full throttle it pulls outward with ${n(amount_gmm * workshop.pullPerGmm_N, 2)} N: inside the rim it is pressed on, outside it flies off.`,
    `Or take ${massInWords(mass)} away on the other side, ${at}, ${degrees(angle_deg + 180)} past ${from}: ${drilling(mass, workshop)}, or ${n(sandedVolume(mass, workshop.density_kgpm3), 2)} mm³ sanded off. Drill or sand the hub rim, never a blade's root.`,
    ...onBlades(correction, workshop, places),
  ];
}

function drilling(mass: number, { drill_mm, density_kgpm3, depth_mm }: Workshop): string {
  const depth = drillDepth(mass, drill_mm, density_kgpm3);
  const bit = `a ${n(drill_mm, 2)} mm drill`;
  // Half the height keeps a floor under the hole and the rim in one piece.
  const most = depth_mm / 2;
  if (depth <= most) return `${bit}, ${n(depth, 2)} mm deep in solid material`;
  const holes = Math.ceil(depth / most);
  return holes <= 4
    ? `${bit}, ${holes} holes side by side, each ${n(depth / holes, 2)} mm deep in solid material`
    : `more than ${bit} should take from a hub ${n(depth_mm, 2)} mm high; add mass on the light side`;
}

function onBlades(correction: Moment, workshop: Workshop, { blades: names }: Places): string[] {
  const { blades, bladeRadius_mm } = workshop;
  if (blades < 2) return [];
  const split = splitCorrection(
    correction,
    Array.from({ length: blades }, (_, i) => (360 * i) / blades),
  );
  if (split.shares.length === 0) return [];
  const parts = split.shares.map(
    ({ place, amount_gmm }) =>
      `${massInWords(massAtRadius(amount_gmm, bladeRadius_mm))} on ${names?.[place] ?? `the blade at ${degrees((360 * place) / blades)}`}`,
  );
  const rest =
    split.left_gmm > 1e-9
      ? `; ${n(split.left_gmm, 2)} g mm across the blades remain, which only the hub can carry`
      : '';
  const mark = names ? '' : ' (the mark being at a blade)';
  return [
    `Or on the blades themselves${mark}: ${parts.join(' and ')}, ${n(bladeRadius_mm, 3)} mm from the axis${rest}. A thin coat of lacquer disturbs the air least.`,
  ];
}
