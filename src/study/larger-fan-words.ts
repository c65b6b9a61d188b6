import { LIMIT_NAMES } from '../drive/limit-words.ts';
import type { Project } from '../project/schema.ts';
import { formatMinutes, formatNumber as n, formatPercent } from '../quantities/format.ts';
import type { FanSize, LargerFan } from './larger-fan-types.ts';

const mm = ({ tipDiameter_mm }: FanSize): string => `${n(tipDiameter_mm)} mm`;

/** The answer in a sentence, then what it is good for and what would have to give way. */
export function largerFanWords(project: Project, answer: Omit<LargerFan, 'words'>): string[] {
  const { sizes, drawn, largest, stoppedBy, longest } = answer;
  const words = [headline(answer)];
  if (largest && longest)
    words.push(
      `Of the sizes it can handle, ${mm(longest)} hovers longest: ${formatMinutes(longest.hover_min)} at ${formatPercent(longest.hoverThrottle ?? 0)} throttle, against ${drawn.lifts ? `${formatMinutes(drawn.hover_min)} as drawn` : 'no hover as drawn'}.`,
    );
  if (largest && stoppedBy && stoppedBy !== 'weight')
    words.push(
      `Above ${mm(largest)} it is ${LIMIT_NAMES[stoppedBy.limit.kind]} that gives way: ${n(stoppedBy.limit.limit)} ${stoppedBy.limit.unit} is passed ${stoppedBy.when}.`,
    );
  if (largest && stoppedBy === 'weight')
    words.push(`Above ${mm(largest)} it no longer lifts its own weight.`);
  const along = bindingAlong(sizes);
  if (along) words.push(along);
  const wide = largest && !largest.withinWidth;
  if (wide)
    words.push(
      `Its duct would be ${n(largest.ductOuterDiameter_mm)} mm wide; you allow ${n(project.brief.largestDuctWidth_mm)} mm.`,
    );
  if (largest?.fault) words.push(`Scaled as it is, ${mm(largest)} cannot be built yet: ${largest.fault}`);
  return words;
}

function headline({ drawn, largest, sizes }: Omit<LargerFan, 'words'>): string {
  const top = Math.max(...sizes.map((s) => s.tipDiameter_mm));
  if (!largest && !sizes.some((size) => size.lifts) && !drawn.lifts)
    return `No: between ${n(Math.min(...sizes.map((s) => s.tipDiameter_mm)))} and ${n(top)} mm no size lifts the craft; this motor and battery are too weak for its mass.`;
  if (!largest)
    return `No: between ${n(Math.min(...sizes.map((s) => s.tipDiameter_mm)))} and ${n(top)} mm no size lifts the craft without breaking a limit of motor, controller or battery.`;
  const there = `it lifts ${n(largest.thrustToWeight)} times its weight there at ${n(largest.fullCurrent_A, 2)} A a motor (${n(drawn.thrustToWeight)} times at ${n(drawn.fullCurrent_A, 2)} A as drawn)`;
  if (largest.tipDiameter_mm > 1.01 * drawn.tipDiameter_mm)
    return largest.tipDiameter_mm > 0.99 * top
      ? `Yes: this motor can handle every size up to ${mm(largest)}, the largest looked at; ${there}.`
      : `Yes: this motor can handle a fan up to ${mm(largest)} over the tips (drawn: ${mm(drawn)}); ${there}.`;
  if (drawn.breaks || !drawn.lifts)
    return `No: ${mm(drawn)} is already too large for it; ${mm(largest)} is the largest it can handle.`;
  return `No: ${mm(drawn)} is about the largest this motor can handle; ${there}.`;
}

/** "Along the size, what binds first is …" with the sizes at which that changes. */
function bindingAlong(sizes: readonly FanSize[]): string | null {
  const runs: { name: string; from: FanSize; to: FanSize }[] = [];
  for (const size of sizes) {
    const name = size.binding ? LIMIT_NAMES[size.binding.kind] : 'nothing up to full throttle';
    const last = runs.at(-1);
    if (last?.name === name) last.to = size;
    else runs.push({ name, from: size, to: size });
  }
  if (runs.length === 0) return null;
  const said = runs.map(({ name, from, to }) =>
    from === to ? `at ${mm(from)} ${name}` : `from ${mm(from)} to ${mm(to)} ${name}`,
  );
  return `What binds first along the throttle: ${said.join('; ')}.`;
}
