import { formatNumber as n, formatPercent } from '../quantities/format.ts';
import type { RotorDesign } from './rotor.ts';
import type { BumpTaken, FailureMode, Strength } from './types.ts';

/** What to do near a turning rotor; local rules come first. */
export const ROTOR_CAUTIONS: readonly string[] = [
  'Stand clear of the plane of the rotor and keep others clear of it: a blade that comes off leaves in that plane.',
  'Wear eye protection, tie the fan down, and run it up the first time from behind a screen.',
  'Look at the root of each blade for cracks and pale lines before every run; throw a cracked rotor away.',
  'This is an estimate and no certificate: local rules and licensed practice come first.',
];

/** Rounded down to two figures, so that a limit is never said higher than it is. */
export const roundedDown = (rpm: number): string => {
  if (!Number.isFinite(rpm)) return n(rpm);
  const step = 10 ** Math.max(0, Math.floor(Math.log10(Math.max(1, rpm))) - 1);
  return n(Math.floor(rpm / step) * step);
};

/** The one sentence that a rotor past its limit gets. */
export function stopSentence(s: Omit<Strength, 'words'>): string {
  const { safeRpm, fullRpm, safetyFactor, modes } = s;
  const weakest = modes[0];
  if (safeRpm === 0)
    return `Do not run this: in air of ${n(s.material.blade_C, 2)} °C the hub warms to about ${n(s.material.hub_C, 2)} °C, where this material is soft and ${placeOf(weakest)} has no strength left to count on.`;
  return `Do not run this above ${roundedDown(safeRpm)} rpm: full throttle on a full battery would turn it at ${n(fullRpm)} rpm, and ${placeOf(weakest)} keeps its factor of ${short(safetyFactor)} on strength only up to there (it fails near ${n(weakest.failureRpm, 2)} rpm).`;
}

const placeOf = ({ name, radius_mm }: FailureMode): string =>
  radius_mm === null || name.includes('root') ? name : `${name} at radius ${n(radius_mm)} mm`;

/** Without the zero behind the point. */
export const short = (value: number): string => n(value, 2).replace(/\.0$/, '');

const capital = (text: string): string => text[0].toUpperCase() + text.slice(1);

/** How strong the rotor is, in sentences: the answer first, then why, then what speed and blows do. */
export function strengthWords(s: Omit<Strength, 'words'>, { fan, material, printer }: RotorDesign): string[] {
  const weakest = s.modes[0];
  const words = [s.holds ? holdsSentence(s) : stopSentence(s)];
  words.push(
    `${capital(placeOf(weakest))} gives way first: ${n(weakest.stress_MPa, 2)} MPa at full throttle against ${n(weakest.strength_MPa, 2)} MPa.${rootReason(s)}`,
  );
  const way =
    s.material.layers === 'along'
      ? 'The blades lie flat on the bed, so the pull runs along their layers'
      : 'The blades stand on the bed, so the pull tears across their layers';
  words.push(
    `${way}; in air of ${n(s.material.blade_C, 2)} °C ${material.name} keeps ${formatPercent(s.material.bladeShare)} of its strength, and ${formatPercent(s.material.hubShare)} at a hub warmed to about ${n(s.material.hub_C, 2)} °C by the motor (rule of thumb: straight down from 23 °C to nothing at ${n(material.softening_C, 2)} °C).`,
  );
  const least = Math.min(...s.stations.carrying);
  if (least < 0.995)
    words.push(
      `With ${formatPercent(printer.infill_ratio)} infill the blade is a shell: where it is hollowest, ${formatPercent(least)} of its section carries.`,
    );
  if (fan.rotorParts === 'blades apart')
    words.push(
      'The key of a separate blade is counted with twice its mean stress in the corners; a print may be worse: pull each blade by hand, hard, before you spin it.',
    );
  words.push(growthSentence(s), freedSentence(s), ...s.bumps.map(bumpSentence));
  return words;
}

function holdsSentence({
  failureRpm,
  fullRpm,
  safeRpm,
  safetyFactor,
  speedMargin,
}: Omit<Strength, 'words'>): string {
  if (!Number.isFinite(failureRpm)) return 'Nothing loads the rotor at any speed.';
  if (fullRpm === 0) return `It does not turn; it would fail near ${n(failureRpm, 2)} rpm.`;
  return `Full throttle on a full battery is ${n(fullRpm)} rpm; the rotor fails near ${n(failureRpm, 2)} rpm, ${n(speedMargin, 2)} times that. With a factor of ${short(safetyFactor)} on strength it may run up to ${roundedDown(safeRpm)} rpm.`;
}

function rootReason({ modes, root, stations }: Omit<Strength, 'words'>): string {
  if (modes[0].kind !== 'blade' || !modes[0].name.includes('root')) return '';
  const [pull, bend] = [stations.centrifugal_MPa[0], stations.bending_MPa[0]];
  return ` Pull gives ${n(pull, 2)} MPa and bending ${n(bend, 2)} MPa, raised ${n(root.tensionFactor, 2)} and ${n(root.bendingFactor, 2)} times by a fillet of ${n(root.fillet_mm, 2)} mm.`;
}

function growthSentence({ growth: { hover, full } }: Omit<Strength, 'words'>): string {
  const turn = (deg: number) =>
    Math.abs(deg) < 0.05
      ? 'the tips keep their angle'
      : `the tips turn ${n(Math.abs(deg), 2)}° ${deg < 0 ? 'flatter' : 'steeper'}`;
  const gap =
    full.gap_mm === null
      ? ''
      : full.gap_mm > 0
        ? `, which leaves ${n(full.gap_mm, 2)} mm of the tip gap`
        : ', which closes the tip gap: the blades rub';
  const inHover =
    hover && hover.gap_mm !== null
      ? ` (in hover ${n(hover.radial_mm, 2)} mm, gap ${n(hover.gap_mm, 2)} mm)`
      : '';
  return `At full throttle the tips grow outward by ${n(full.radial_mm, 2)} mm${gap}${inHover}, and ${turn(full.tipTurn_deg)}. Creep and warmth come on top.`;
}

function freedSentence({ freedBlade: f }: Omit<Strength, 'words'>): string {
  const blade = `A blade that comes off at full throttle is ${n(f.mass_g, 2)} g at ${n(f.speed_mps, 2)} m/s, ${n(f.energy_J, 2)} J`;
  if (f.wall_J === null) return `${blade}, and nothing stands in its way.`;
  const held = f.energy_J < f.wall_J / 3;
  const likely = held ? 'likely hold it' : f.energy_J > 3 * f.wall_J ? 'not hold it' : 'perhaps hold it';
  return `${blade}; shearing through the duct wall takes about ${n(f.wall_J, 2)} J, so the wall would ${likely} (an estimate, good to a factor of three; a printed wall may also split along its layers).`;
}

function bumpSentence(b: BumpTaken): string {
  const what =
    b.part === 'duct'
      ? `Dropped ${short(b.height_m)} m on the side of one duct, lip and wall take`
      : `Landing flat from ${short(b.height_m)} m, the arms of the frame take`;
  const end =
    b.stress_MPa <= b.strength_MPa
      ? 'It should spring back.'
      : `Expect a crack or a part that stays bent: it springs back only from about ${n(100 * b.heldFrom_m, 1)} cm.`;
  return `${what} ${n(b.energy_J, 2)} J with a peak near ${n(b.force_N, 2)} N, ${n(b.load_g, 2)} times the weight of what they stop: ${n(b.stress_MPa, 2)} MPa against ${n(b.strength_MPa, 2)} MPa. ${end} An estimate for hard ground, nothing damped.`;
}
