import { formatNumber as n, formatPercent } from '../quantities/format.ts';
import type { DriveLimit, DriveLimits, LimitKind, WindingHeat } from './limit-types.ts';
import { WINDING_LIMIT_C } from './thermal.ts';

/** What binds, as the subject of a sentence. */
export const LIMIT_NAMES: Record<LimitKind, string> = {
  'motor continuous': "the motor's current for minutes",
  'motor burst': "the motor's current for seconds",
  'winding temperature': 'the warmth of the winding (an estimate)',
  controller: "the controller's current",
  'cell current': "the battery's current",
  'rotor strength': 'the strength of the rotor',
};

const capital = (text: string): string => text[0].toUpperCase() + text.slice(1);

const amount = ({ limit, unit }: DriveLimit): string => `${n(limit)} ${unit}`;

/** Which limit binds first, which else do, and how long the winding stands full throttle. */
export function limitWords(answer: Omit<DriveLimits, 'words'>): string[] {
  const { limits, first, heat, hoverThrottle, full } = answer;
  const words: string[] = [];
  if (!first) {
    words.push(
      `Nothing binds up to full throttle: ${n(full.motorCurrent, 2)} A in each motor, ${n(full.rpm)} rpm, ${n(full.thrust_N)} N a fan.`,
    );
  } else {
    const { throttle, thrust_N } = first.at!;
    const where = `at ${formatPercent(throttle)} throttle, where a fan gives ${n(thrust_N)} N`;
    const meaning = first.lasting
      ? 'beyond it only for a while'
      : first.kind === 'cell current'
        ? 'beyond it the cells heat and may catch fire'
        : first.kind === 'rotor strength'
          ? 'beyond it the rotor may burst'
          : 'beyond it the winding burns';
    words.push(`${capital(LIMIT_NAMES[first.kind])} binds first, ${amount(first)} ${where}: ${meaning}.`);
    if (hoverThrottle !== null && throttle < hoverThrottle)
      words.push(`That is below the ${formatPercent(hoverThrottle)} of hover: it cannot stay in the air so.`);
    const others = limits.filter((l) => l !== first && l.at);
    if (others.length > 0)
      words.push(
        `Behind it come ${others.map((l) => `${LIMIT_NAMES[l.kind]} (${amount(l)} at ${formatPercent(l.at!.throttle)})`).join(', ')}.`,
      );
  }
  if (heat.hover) words.push(heatWords('In hover', heat.hover));
  words.push(heatWords('At full throttle', heat.full));
  return words;
}

/** Hotter than this no winding lives to settle [C]. */
const BURNT_C = 250;

function heatWords(when: string, { steady_C, timeToLimit_s }: WindingHeat): string {
  const high = steady_C && steady_C.high < BURNT_C ? `${n(steady_C.high, 2)} °C` : 'burnt';
  const steady =
    steady_C && steady_C.value < BURNT_C
      ? `${when} the winding settles near ${n(steady_C.value, 2)} °C (${n(steady_C.low, 2)} °C to ${high})`
      : `${when} the winding never settles: it burns`;
  const { value, low } = timeToLimit_s;
  if (value !== null)
    return value === 0
      ? `${steady} and is past ${WINDING_LIMIT_C} °C from the start.`
      : `${steady} and passes ${WINDING_LIMIT_C} °C after about ${duration(value)}.`;
  if (low !== null)
    return low === 0
      ? `${steady}; a motor that cools badly would be past ${WINDING_LIMIT_C} °C from the start.`
      : `${steady}; a motor that cools badly would pass ${WINDING_LIMIT_C} °C after ${duration(low)}.`;
  return `${steady}.`;
}

const duration = (seconds: number): string =>
  seconds < 90 ? `${n(seconds, 2)} s` : `${n(seconds / 60, 2)} min`;
