import { craftFrameFaults } from '../craft/frame.ts';
import { dischargeLimit } from '../drive/battery.ts';
import type { Project } from '../project/schema.ts';
import { formatMinutes, formatNumber as n, formatPercent } from '../quantities/format.ts';
import { degreesFromRadians } from '../quantities/units.ts';
import { exitHalfAngle, largestExitRatio, STEEPEST_EXIT } from '../shape/exit.ts';
import { geometryFaults } from '../shape/faults.ts';
import type { Answers } from './answers.ts';
import type { Model } from './model.ts';
import { soundRemarks } from './sound.ts';
import { strengthRemarks } from './strength.ts';
import type { Assessment, Remark } from './types.ts';

type Draft = Omit<Assessment, 'verdict' | 'remarks' | 'helps'>;

/** Thrust over weight below which control in gusts is thin. Common practice, no source. */
const THIN_MARGIN = 1.3;

/** Tip gap over tip diameter up to which a duct is usually worth having. Common practice, no source. */
const WIDE_GAP = 0.01;

/** Battery over all-up mass above which more battery buys little. Common practice, no source. */
const HEAVY_BATTERY = 0.5;

/** Share of thrust at the same power lost to the printer from which it is said. Our choice. */
const DEAR_PRINT = 0.05;

/** Reynolds number below which no section alone was measured. */
const UNMEASURED_REYNOLDS = 40_000;

/** What to mind about a project: what can't be made, what is run too hard, what the model does not know. */
export function remarksOn(project: Project, model: Model, draft: Draft, answers: Answers): Remark[] {
  const list: Remark[] = [...geometryFaults(project.fan, project.motor), ...craftFrameFaults(project)].map(
    ({ path, text }) => ({
      weight: 'stop',
      path,
      text,
    }),
  );
  const say = (weight: Remark['weight'], path: string, text: string) => list.push({ weight, path, text });
  limits(project, draft, say);
  margins(project, draft, answers, say);
  blade(project, draft, say);
  exit(model, say);
  list.push(...strengthRemarks(project, draft.strength), ...soundRemarks(draft.sound));
  const { full } = draft.fan;
  say(
    'care',
    'fan',
    `Full throttle is ${n(full.rpm, 3)} rpm, ${n(full.tipSpeed_mps, 2)} m/s at the tips. Tie the craft down and shield the first run; keep eyes and fingers out of the plane of the blades.`,
  );
  if (model.rotor.hubRadius < model.layout.hubRadius) {
    say('stop', 'fan.hubDiameter_mm', 'The hub fills the duct: no blade is left.');
  }
  return list;
}

type Say = (weight: Remark['weight'], path: string, text: string) => void;

function limits(project: Project, { craft, fan }: Draft, say: Say): void {
  const { motor, controller, battery, brief } = project;
  const { full, hover } = fan;
  const pack = full.batteryCurrent_A * project.craft.fanCount;
  const allowed = dischargeLimit(battery);
  if (full.motorCurrent_A > motor.burstCurrent_A) {
    say(
      'stop',
      'motor.burstCurrent_A',
      `Full throttle asks ${n(full.motorCurrent_A, 2)} A of a winding that stands ${n(motor.burstCurrent_A, 2)} A for seconds: it would burn. Limit the throttle or load it less.`,
    );
  } else if (full.motorCurrent_A > motor.continuousCurrent_A) {
    say(
      'care',
      'motor.continuousCurrent_A',
      `Full throttle asks ${n(full.motorCurrent_A, 2)} A of the motor, above its ${n(motor.continuousCurrent_A, 2)} A for minutes: use it in short bursts.`,
    );
  }
  if (hover && craft.lifts && hover.motorCurrent_A > motor.continuousCurrent_A) {
    say(
      'stop',
      'motor.continuousCurrent_A',
      `Hover already asks ${n(hover.motorCurrent_A, 2)} A of a winding that stands ${n(motor.continuousCurrent_A, 2)} A for minutes.`,
    );
  }
  if (full.motorCurrent_A > controller.continuousCurrent_A) {
    say(
      'care',
      'controller.continuousCurrent_A',
      `Full throttle asks ${n(full.motorCurrent_A, 2)} A of a controller made for ${n(controller.continuousCurrent_A, 2)} A.`,
    );
  }
  if (pack > allowed) {
    say(
      'stop',
      'battery.dischargeLimit_C',
      `Full throttle asks ${n(pack, 2)} A of a battery whose maker allows ${n(allowed, 2)} A: it would heat and may catch fire.`,
    );
  }
  if (project.fan.kind === 'ducted' && craft.ductOuterDiameter_mm > brief.largestDuctWidth_mm) {
    say(
      'care',
      'brief.largestDuctWidth_mm',
      `The duct is ${n(craft.ductOuterDiameter_mm)} mm wide; you allow ${n(brief.largestDuctWidth_mm)} mm.`,
    );
  }
}

function margins(project: Project, { craft }: Draft, answers: Answers, say: Say): void {
  if (craft.lifts && craft.thrustToWeight < THIN_MARGIN) {
    say(
      'care',
      'fan',
      `With less than ${THIN_MARGIN} times its weight it can hover in still air but hardly climb or catch itself.`,
    );
  }
  if (craft.lifts && craft.hover_min < project.brief.wanted_min) {
    say(
      'care',
      'brief.wanted_min',
      `It hovers ${formatMinutes(craft.hover_min)}; you want ${formatMinutes(project.brief.wanted_min)}.`,
    );
  }
  if (craft.lifts && answers.failsAtCharge > 0) {
    say(
      'care',
      'battery',
      `Full throttle no longer holds it below ${formatPercent(answers.failsAtCharge)} charge: land before.`,
    );
  }
  if (craft.batteryShare > HEAVY_BATTERY) {
    say(
      'note',
      'battery.mass_g',
      `The battery is ${formatPercent(craft.batteryShare)} of the mass; past about half, more battery buys few minutes.`,
    );
  }
}

function exit({ layout }: Model, say: Say): void {
  const angle = exitHalfAngle(layout);
  if (!layout.ducted || angle <= STEEPEST_EXIT) return;
  say(
    'care',
    'fan.duct.exitAreaRatio',
    `On its way to the exit the wall leans up to ${n(degreesFromRadians(angle), 2)}° outward; past about ${n(degreesFromRadians(STEEPEST_EXIT), 2)}° the air lets go of it (Pereira, University of Maryland, 2008: the best of 17 ducts). An area ratio up to ${n(largestExitRatio(layout), 3)}, or a longer duct would do.`,
  );
}

function blade(project: Project, { fan: { hover, full }, print }: Draft, say: Say): void {
  const { fan, printer } = project;
  if (fan.kind === 'ducted' && fan.tipGap_mm > WIDE_GAP * fan.tipDiameter_mm) {
    say(
      'care',
      'fan.tipGap_mm',
      `The tip gap is ${formatPercent(fan.tipGap_mm / fan.tipDiameter_mm, 1)} of the diameter; above about 1 % a duct pays little.`,
    );
  }
  const lost = print?.stations.filter((s) => s.lost) ?? [];
  if (lost.length > 0)
    say(
      'stop',
      'fan.blade',
      `At ${n(lost[0].radius_mm)} mm radius${lost.length > 1 ? ' and further places' : ''} nothing of the blade comes out of this printer: make it thicker, or print with a finer line.`,
    );
  else if (print?.stations.some((s) => s.weak)) {
    const weak = print.stations.find((s) => s.weak)!;
    say(
      'care',
      'fan.blade',
      `At ${n(weak.radius_mm)} mm radius the blade is ${n(weak.thickness_mm, 2)} mm thick as printed, thinner than this printer makes walls whole (${n(printer.minimumWall_mm, 2)} mm within a layer).`,
    );
  }
  if (print && print.thrustAtPowerLost_ratio > DEAR_PRINT)
    say(
      'care',
      'printer',
      `The printer costs ${formatPercent(print.thrustAtPowerLost_ratio)} of the thrust at the same power. ${print.words}`,
    );
  const reynolds = (hover ?? full).annuli.reynolds;
  const outer = reynolds[Math.floor(reynolds.length * 0.7)];
  if (outer < UNMEASURED_REYNOLDS) {
    say(
      'note',
      'fan.blade',
      `The blades work at a Reynolds number near ${n(outer, 2)}; sections alone were measured from ${n(UNMEASURED_REYNOLDS)} up, so their drag is an extrapolation held by measured small rotors.`,
    );
  }
  for (const limit of hover?.limits ?? []) say('care', 'fan.blade', `In hover: ${limit.text}`);
  if (full.tipMach > 0.5)
    say(
      'care',
      'fan.tipDiameter_mm',
      `The tips reach Mach ${n(full.tipMach, 2)} at full throttle: loud, and past the model's range at 0.6.`,
    );
}
