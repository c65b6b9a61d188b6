import { levelWords } from '../sound/words.ts';
import { dischargeLimit } from '../drive/battery.ts';
import { WINDING_LIMIT_C } from '../drive/thermal.ts';
import type { Brief, Printer } from '../project/schema.ts';
import { formatMinutes, formatNumber as n } from '../quantities/format.ts';
import { leastHub } from './fan-family.ts';
import { FLOOR } from './propose-words.ts';
import type { SizeCell, SizeDesign, SizeMark, SizeStudy } from './size-types.ts';

/** Each mark in a few words, for a legend: "here ...". */
export const SIZE_MARKS: Readonly<Record<SizeMark, string>> = {
  meets: 'meets the brief',
  time: 'flies well, but for too short a time',
  margin: 'lifts, but with too little thrust to spare',
  hub: 'the hub fills the duct',
  shape: 'the parts do not fit together',
  wide: 'the duct is wider than allowed or than the bed',
  disc: 'the disc is too small for the mass',
  torque: 'the motor is out of torque',
  winding: 'the winding burns',
  controller: 'the controller cannot feed it',
  battery: 'the battery cannot feed it',
  slow: 'the motor turns too slowly for so small a fan',
  weak: 'the fans give too little for the mass',
};

/** One letter for each mark on a map; a plus is what one looks for. */
export const SIZE_LETTERS: Readonly<Record<SizeMark, string>> = {
  meets: '+',
  time: 'm',
  margin: 'l',
  hub: 'h',
  shape: 'x',
  wide: 'w',
  disc: 'd',
  torque: 't',
  winding: 'b',
  controller: 'c',
  battery: 'e',
  slow: 's',
  weak: 'f',
};

/** A length set in steps of half a millimetre. */
const mm = (length: number): string => String(Number(length.toFixed(1)));

/** Beyond this share of a limit it is the limit that holds the thrust down. Our choice. */
const NEAR = 0.85;

/** Below this share of what the motor stands for seconds it is not loaded. Our choice, as in the proposal. */
const UNLOADED = 0.7;

/** The first thing that stands in a design's way. */
export function markOf(design: SizeDesign, brief: Brief, burst_A: number): SizeMark {
  const { tightest, thrustToWeight } = design;
  if (tightest.ratio > 1) return tightest.kind;
  if (thrustToWeight < FLOOR) {
    if (design.leastPower_W > design.mostPower_W) return 'disc';
    const near = tightest.ratio > NEAR;
    if (near) return tightest.kind;
    if (design.motorCurrent_A < UNLOADED * burst_A) return 'slow';
    return thrustToWeight < 1 ? 'weak' : 'margin';
  }
  return design.hover_min < brief.wanted_min ? 'time' : 'meets';
}

/** Why a cell where nothing could be run is empty. */
export function emptyWords(
  kind: 'hub' | 'wide' | 'shape',
  study: Pick<SizeStudy, 'motors'>,
  cell: { readonly tipDiameter_mm: number; readonly motor: number; readonly outerWidth_mm: number },
  brief: Brief,
  printer: Printer,
  fault: string | null,
): string {
  const motor = study.motors[cell.motor];
  const tips = mm(cell.tipDiameter_mm);
  if (kind === 'hub')
    return `Here the hub fills the duct: a can of ${n(motor.canDiameter_mm)} mm needs a hub of ${n(leastHub(motor))} mm, which leaves no room for blades under ${tips} mm over the tips.`;
  if (kind === 'wide') {
    const bed = Math.min(printer.bedX_mm, printer.bedY_mm);
    const allowed =
      cell.outerWidth_mm > brief.largestDuctWidth_mm
        ? `you allow ${mm(brief.largestDuctWidth_mm)} mm`
        : `the bed holds ${mm(bed)} mm`;
    return `Here the duct is too wide: tips of ${tips} mm make it ${mm(cell.outerWidth_mm)} mm over the rim and ${allowed}.`;
  }
  return `Here the parts do not fit together: ${fault ?? 'no fan of this kind can be drawn.'}`;
}

/** Why a cell got its mark, with its figures. */
export function cellWords(
  mark: SizeMark,
  d: SizeDesign,
  { motors, batteries }: Pick<SizeStudy, 'motors' | 'batteries'>,
  brief: Brief,
): string {
  const motor = motors[d.motor];
  const lift = `${n(d.thrustToWeight)} times its ${n(d.mass_g)} g`;
  switch (mark) {
    case 'battery':
      return `Here the battery cannot feed it: full throttle draws ${n(d.packCurrent_A, 2)} A of the ${n(dischargeLimit(batteries[d.battery]), 2)} A its maker allows, and it lifts ${lift}.`;
    case 'torque':
      return `Here the motor is out of torque: full throttle takes ${n(d.motorCurrent_A, 2)} A of ${n(motor.burstCurrent_A, 2)} A for seconds${d.hoverCurrent_A === null ? '' : `, hover ${n(d.hoverCurrent_A, 2)} A of ${n(motor.continuousCurrent_A, 2)} A for minutes`}; it lifts ${lift}.`;
    case 'winding':
      return d.hoverWinding_C === null
        ? `Here the winding burns: in hover it never settles below ${WINDING_LIMIT_C} °C (an estimate); it would lift ${lift}.`
        : `Here the winding burns: hover alone brings it to ${n(d.hoverWinding_C, 2)} °C of ${WINDING_LIMIT_C} °C (an estimate); it lifts ${lift}.`;
    case 'controller':
      return `Here the controller cannot feed it: hover takes ${n(d.hoverCurrent_A ?? 0, 2)} A, more than it stands for minutes.`;
    case 'slow':
      return `Here the motor turns too slowly to be loaded: ${n(d.motorCurrent_A, 2)} A at full throttle of ${n(motor.burstCurrent_A, 2)} A, and it lifts ${lift}; more cells or more rpm for each volt would use it.`;
    case 'disc':
      return `Here the disc is too small: ${FLOOR} times the weight takes ${n(d.leastPower_W)} W a fan even without losses and this motor could give ${n(d.mostPower_W)} W at most; it lifts ${lift}.`;
    case 'margin':
      return `It lifts ${lift}; ${FLOOR} is the least for a gentle hover.`;
    case 'time':
      return `It lifts ${lift} and hovers for ${formatMinutes(d.hover_min)}; you want ${formatMinutes(brief.wanted_min)}.`;
    case 'meets':
      return `It meets the brief: ${formatMinutes(d.hover_min)}, ${lift}, ${n(d.outerWidth_mm)} mm over the rim.`;
    default:
      return `Here the fans give too little: ${lift}.`;
  }
}

/** "40 to 52 mm the hub fills the duct; 56 mm ...", along one motor and battery. */
export function alongTips(cells: readonly SizeCell[]): string {
  const runs: { mark: SizeMark; from: number; to: number }[] = [];
  for (const { mark, tipDiameter_mm } of cells) {
    const last = runs.at(-1);
    if (last?.mark === mark) last.to = tipDiameter_mm;
    else runs.push({ mark, from: tipDiameter_mm, to: tipDiameter_mm });
  }
  return runs
    .map(({ mark, from, to }) => `${mm(from)}${from === to ? '' : ` to ${mm(to)}`} mm: ${SIZE_MARKS[mark]}`)
    .join('; ');
}

/** The study in sentences. */
export function sizeWords(study: Omit<SizeStudy, 'words'>, brief: Brief): string[] {
  const { cells, close, lift, meet, front, tried, drawn, motors, batteries } = study;
  const words = [
    `Of ${cells.length} combinations of tip diameter, motor and battery (${tried} fans run) ${close} fit the width and overload nothing, ${lift} of them lift, and ${meet} meet the brief: ${formatMinutes(brief.wanted_min)} with ${FLOOR} times the weight within ${mm(brief.largestDuctWidth_mm)} mm.`,
    `The fan as drawn, ${mm(drawn.tipDiameter_mm)} mm over the tips, lifts ${n(drawn.thrustToWeight)} times its weight${drawn.hover_min > 0 ? ` and hovers for ${formatMinutes(drawn.hover_min)}` : ''}.`,
  ];
  const name = (d: SizeDesign) => {
    const parts = [
      `${mm(d.tipDiameter_mm)} mm over the tips`,
      ...(motors.length > 1 ? [motors[d.motor].name] : []),
      ...(batteries.length > 1 ? [batteries[d.battery].name] : []),
    ];
    return parts.join(', ');
  };
  if (front.length > 0) {
    const by = (f: (d: SizeDesign) => number) => front.reduce((a, b) => (f(b) > f(a) ? b : a));
    const longest = front[0];
    const strongest = by((d) => d.thrustToWeight);
    const narrowest = by((d) => -d.outerWidth_mm);
    const quietest = by((d) => -(d.level_dBA?.value ?? Infinity));
    words.push(
      `Longest hover: ${formatMinutes(longest.hover_min)} with ${name(longest)}.`,
      `Most thrust to spare: ${n(strongest.thrustToWeight)} times its weight with ${name(strongest)}.`,
      `Narrowest: ${n(narrowest.outerWidth_mm)} mm over the rim with ${name(narrowest)}.`,
      ...(quietest.level_dBA
        ? [
            `Quietest of these in hover, by estimate: ${levelWords(quietest.level_dBA)} at 3 m over hard ground with ${name(quietest)}; the search itself goes by tip speed.`,
          ]
        : []),
    );
  } else {
    const best = cells.reduce<SizeCell | null>(
      (a, b) => (b.design && (!a?.design || b.design.thrustToWeight > a.design.thrustToWeight) ? b : a),
      null,
    );
    words.push(
      best
        ? `None lifts with enough to spare within every limit. The strongest has ${mm(best.tipDiameter_mm)} mm over the tips. ${best.words}`
        : 'Nothing could be drawn at any of these sizes; try wider tips, a smaller motor or a wider duct.',
    );
  }
  return words;
}
