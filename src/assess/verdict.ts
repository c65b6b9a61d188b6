import { dischargeLimit } from '../drive/battery.ts';
import { idealPower } from '../air/momentum.ts';
import type { Project } from '../project/schema.ts';
import { formatMinutes, formatNumber as n, formatPercent } from '../quantities/format.ts';
import type { Answers } from './answers.ts';
import { QUOTED_CHARGE } from './model.ts';
import type { Assessment, Reason } from './types.ts';

type Draft = Omit<Assessment, 'verdict' | 'remarks' | 'helps'>;

/** The answer in sentences, and the chain of reasons that leads to it. Every figure is read off `draft`. */
export function verdictOf(project: Project, draft: Draft, answers: Answers): Assessment['verdict'] {
  return {
    lifts: draft.craft.lifts,
    headline: headline(draft),
    summary: summary(project, draft, answers),
    reasons: reasons(project, draft),
  };
}

function headline({ craft }: Draft): string {
  const { value, low, high } = craft.thrustToWeightInterval;
  const range = `(${n(low, 2)} to ${n(high, 2)})`;
  if (craft.lifts) {
    const doubt = low < 1 ? ', but it may not' : '';
    return `It lifts, with ${n(value, 3)} times its weight ${range}${doubt}`;
  }
  const hope = high >= 1 ? 'It probably does not lift' : 'It does not lift';
  return `${hope}: ${n(value, 2)} times its weight ${range}`;
}

function summary(project: Project, { craft, fan }: Draft, answers: Answers): string {
  if (craft.lifts && craft.hoverThrottle !== null) {
    const { low, high } = craft.hoverMinutesInterval;
    const early =
      answers.failsAtCharge > 0
        ? ` It can no longer hold itself below ${formatPercent(answers.failsAtCharge)} charge.`
        : '';
    return (
      `Hovers at ${formatPercent(craft.hoverThrottle)} throttle with the battery half full, ` +
      `for ${formatMinutes(craft.hover_min)} (${formatMinutes(low)} to ${formatMinutes(high)}) from a full one.${early}`
    );
  }
  const short = `Full throttle gives ${n(fan.full.thrust_N)} N a fan; hover needs ${n(fan.needed_N)} N.`;
  return `${short} ${largestCause(project, { craft, fan } as Draft)}`;
}

/** What stands most in the way of lifting. */
function largestCause(project: Project, { craft, fan }: Draft): string {
  if (!fan.hover) return 'This blade pushes no air down at any speed: look at its angles.';
  const supplied = fan.full.shaftPower_W;
  const least = fan.hover.losses_W.ideal;
  if (least > supplied) {
    return `Even a fan without losses would need ${n(least)} W at the shaft and the drive gives ${n(supplied)} W: the discs are too small for ${n(craft.mass_g)} g, or the drive too weak.`;
  }
  if (fan.full.motorCurrent_A > project.motor.burstCurrent_A) {
    return `The motor is out of torque: it would already draw ${n(fan.full.motorCurrent_A)} A where its winding stands ${n(project.motor.burstCurrent_A)} A for seconds.`;
  }
  return `Hover would take ${n(fan.hover.shaftPower_W)} W at each shaft and the drive gives ${n(supplied)} W at full throttle.`;
}

function reasons(project: Project, { craft, fan, air }: Draft): Reason[] {
  const list: Reason[] = [];
  const say = (id: string, text: string) => list.push({ id, text });
  const count = project.craft.fanCount;
  const heaviest = [...craft.items].sort((a, b) => b.total_g - a.total_g).slice(0, 3);
  say(
    'mass',
    `The craft weighs ${n(craft.mass_g)} g, most of it ${heaviest.map((i) => `${i.name} ${n(i.total_g, 2)} g`).join(', ')}.`,
  );
  say(
    'need',
    `Each of ${count} fans must give ${n(fan.needed_N)} N in air of ${n(air.density_kgpm3)} kg/m³.`,
  );
  const area_mm2 = (fan.needed_N / craft.discLoading_Npm2) * 1e6;
  const kind = project.fan.kind === 'ducted' ? 'in a duct' : 'as an open rotor';
  const { hover, full } = fan;
  if (!hover) {
    say('no-lift', `The blade gives no thrust downstream at any speed.`);
    return list;
  }
  say(
    'ideal',
    `Its disc of ${n(area_mm2)} mm² carries ${n(craft.discLoading_Npm2)} N/m², so even without losses it needs ${n(hover.losses_W.ideal)} W ${kind}` +
      (project.fan.kind === 'ducted'
        ? ` (open, at its best, ${n(idealPower(fan.needed_N, area_mm2 * 1e-6, null, air.density_kgpm3, 0))} W).`
        : '.'),
  );
  say(
    'air',
    `It moves ${n(hover.massFlow_kgps * 1000)} g of air a second: ${n(hover.axialVelocity_mps)} m/s through the disc, ${n(hover.exitVelocity_mps)} m/s at the exit.`,
  );
  if (project.fan.kind === 'ducted') {
    say(
      'duct',
      `The duct carries ${formatPercent(hover.ductThrust_N / hover.thrust_N)} of the thrust, the blades the rest.`,
    );
    if (fan.openAtEqualPower) {
      const ratio = fan.openAtEqualPower.thrust_N / hover.thrust_N;
      say(
        'open',
        `The same rotor without its duct would give ${n(fan.openAtEqualPower.thrust_N)} N from the same shaft power, ${formatPercent(Math.abs(1 - ratio))} ${ratio < 1 ? 'less' : 'more'}.`,
      );
    }
  }
  const losses = largestLosses(hover.losses_W);
  say(
    'shaft',
    `The real fan takes ${n(hover.shaftPower_W)} W at ${n(hover.rpm, 3)} rpm (figure of merit ${n(hover.figureOfMerit, 2)}); the largest losses are ${losses}.`,
  );
  if (hover.throttle !== null) {
    say(
      'drive',
      `Motor and controller turn ${n(hover.electricalPower_W)} W from the battery into that (${formatPercent(hover.motorEfficiency)}), ${n(hover.motorCurrent_A, 2)} A in the winding; ${n(hover.gramsPerWatt, 2)} g of thrust for each watt.`,
    );
    say(
      'battery',
      `All fans and the electronics take ${n(craft.hoverPower_W)} W; the pack stands at ${n(hover.batteryVoltage_V)} V under that load at ${formatPercent(QUOTED_CHARGE)} charge.`,
    );
  } else {
    say('drive', `No throttle gives that: the pack's voltage falls faster than the throttle rises.`);
  }
  say(
    'full',
    `At full throttle it turns at ${n(full.rpm, 3)} rpm and gives ${n(full.thrust_N)} N a fan, ${n(full.batteryCurrent_A * count)} A from the pack (its maker allows ${n(dischargeLimit(project.battery))} A).`,
  );
  return list;
}

const LOSS_WORDS: Record<Exclude<keyof Assessment['fan']['full']['losses_W'], 'ideal'>, string> = {
  unevenJet: 'an uneven jet',
  profileDrag: 'blade drag',
  tipGap: 'the tip gap',
  swirl: 'swirl left in the air',
  inletLip: 'the inlet lip',
  wallFriction: 'friction on the wall',
  hubBase: 'the blunt end of the hub',
  struts: 'the struts',
  exitExpansion: 'the exit cone',
};

function largestLosses(losses: Assessment['fan']['full']['losses_W']): string {
  return (Object.keys(LOSS_WORDS) as (keyof typeof LOSS_WORDS)[])
    .sort((a, b) => losses[b] - losses[a])
    .slice(0, 2)
    .map((key) => `${LOSS_WORDS[key]} (${n(losses[key], 2)} W)`)
    .join(' and ');
}
