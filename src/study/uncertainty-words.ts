import type { Project } from '../project/schema.ts';
import { formatMinutes, formatNumber as n, formatPercent } from '../quantities/format.ts';
import type { AnswerId, Driver, Uncertainty } from './uncertainty-types.ts';

/** Shrinking below this is not worth a sentence. */
const LEAST_SHRINK = 0.03;

/** What the intervals, chances and drivers come to, in sentences. Every figure is read off the answer. */
export function uncertaintyWords(project: Project, u: Omit<Uncertainty, 'words'>): string[] {
  const { answers, chances, drivers } = u;
  const { thrustToWeight, hover_min } = answers;
  const words = [
    `It lifts itself with a chance of ${odds(chances.lifts)}` +
      (thrustToWeight
        ? `: ${n(thrustToWeight.value)} times its weight, 9 times in 10 between ${n(thrustToWeight.low)} and ${n(thrustToWeight.high)}.`
        : '.'),
    `It hovers the ${project.brief.wanted_min} min you want with a chance of ${odds(chances.minutes)}` +
      (hover_min && hover_min.value > 0
        ? `: ${formatMinutes(hover_min.value)}, 9 times in 10 between ${formatMinutes(hover_min.low)} and ${formatMinutes(hover_min.high)}.`
        : '.'),
    `The rotor keeps its safety factor of ${project.fan.safetyFactor} at full throttle with a chance of ${odds(chances.strength)}.`,
  ];
  if (chances.lifts > 0 && chances.all < Math.min(chances.minutes, chances.strength))
    words.push(`All of that at once: ${odds(chances.all)}.`);
  for (const id of ['thrustToWeight', 'hover_min'] as const) {
    const said = driverWords(id, drivers[id]);
    if (said) words.push(said);
  }
  return words;
}

const INTERVAL_OF: Readonly<Record<AnswerId, string>> = {
  thrustToWeight: 'the thrust interval',
  hoverThrottle: 'the interval of the hover throttle',
  hover_min: 'the interval of the minutes',
  mass_g: 'the interval of the mass',
  speedMargin: 'the interval of the strength',
};

function driverWords(id: AnswerId, drivers: readonly Driver[]): string | null {
  const tried = drivers.filter((d) => d.halved !== null && d.halved >= LEAST_SHRINK);
  if (tried.length === 0) return null;
  const [first, second] = tried;
  const one = `Halve the doubt about ${first.name} and ${INTERVAL_OF[id]} shrinks by ${fraction(first.halved ?? 0)}`;
  return second ? `${one}; ${second.name}: by ${fraction(second.halved ?? 0)}.` : `${one}.`;
}

const FRACTIONS: readonly (readonly [number, string])[] = [
  [1 / 10, 'a tenth'],
  [1 / 8, 'an eighth'],
  [1 / 6, 'a sixth'],
  [1 / 5, 'a fifth'],
  [1 / 4, 'a quarter'],
  [1 / 3, 'a third'],
  [2 / 5, 'two fifths'],
  [1 / 2, 'half'],
];

/** A ratio as a spoken fraction, or in per cent where none is near. */
function fraction(ratio: number): string {
  const near = FRACTIONS.find(([value]) => Math.abs(ratio / value - 1) < 0.07);
  return near ? near[1] : formatPercent(ratio);
}

/** A chance in per cent; never a certainty that some thousand draws can't give. */
export function odds(chance: number): string {
  if (chance > 0.995) return 'over 99 %';
  if (chance < 0.005) return 'under 1 %';
  return formatPercent(chance);
}
