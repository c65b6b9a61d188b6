import { mapSpeedFor } from '../air/map.ts';
import { mapOf, modelOf, quotedSupply, type Model } from '../assess/model.ts';
import { fanPoint } from '../assess/point.ts';
import { sourceAt } from '../assess/sound.ts';
import type { Project } from '../project/schema.ts';
import { formatNumber as n } from '../quantities/format.ts';
import type { Interval } from '../quantities/interval.ts';
import { craftSound } from '../sound/craft-sound.ts';
import { levelDifference } from '../sound/difference.ts';
import type { Listener } from '../sound/levels.ts';
import { WISHED_PLACE } from '../sound/sound.ts';
import type { SoundAt } from '../sound/types.ts';
import { levelWords, loudestPart, PART_NAMES } from '../sound/words.ts';

/** One side of a comparison: its sound at the thrust both give. */
export interface SoundSide {
  readonly name: string;
  readonly ducted: boolean;
  readonly fans: number;
  /** Thrust of each fan [N]. */
  readonly thrust_N: number;
  /** null where it can't give that thrust at any speed. */
  readonly at: SoundAt | null;
}

/** Two craft heard at the same thrust of all fans together. */
export interface SoundComparison {
  readonly thrust_N: number;
  readonly distance_m: number;
  readonly reflectingPlane: boolean;
  readonly a: SoundSide;
  readonly b: SoundSide;
  /** Level of b less that of a [dB(A)]; null where one can't give the thrust. */
  readonly difference_dB: Interval | null;
  readonly words: readonly string[];
}

/** The sound of a model's craft where each fan gives `thrust` [N]; null where it can't. */
export function soundAtThrust(
  model: Model,
  thrust: number,
  listener: Listener = WISHED_PLACE,
  omega: number | null = mapSpeedFor(mapOf(model), thrust),
): SoundAt | null {
  if (omega === null || !(omega > 0)) return null;
  const point = fanPoint(model, quotedSupply(model.project), omega);
  return craftSound(sourceAt(model, point), model.project.craft.fanCount, listener);
}

/** The project with its rotors out of their ducts, as drawn otherwise. */
export const openedProject = (project: Project): Project => ({
  ...project,
  name: `${project.name}, open`,
  fan: { ...project.fan, kind: 'open' },
});

/**
 * Two craft at equal thrust: what the first needs in hover, from all fans of each. The mass of either stays out of it, as
 * does what each then weighs; a duct's own mass is charged by comparing two projects, each with its own.
 */
export function compareSound(
  first: Project,
  second: Project,
  listener: Listener = WISHED_PLACE,
  names: readonly [string, string] = [first.name, second.name],
): SoundComparison {
  const [modelA, modelB] = [modelOf(first), modelOf(second)];
  const whole = modelA.needed * first.craft.fanCount;
  const side = (model: Model, name: string): SoundSide => {
    const fans = model.project.craft.fanCount;
    const thrust_N = whole / fans;
    return {
      name,
      ducted: model.passage !== null,
      fans,
      thrust_N,
      at: soundAtThrust(model, thrust_N, listener),
    };
  };
  const a = side(modelA, names[0]);
  const b = side(modelB, names[1]);
  const difference_dB =
    a.at && b.at
      ? levelDifference(
          { at: a.at, fans: a.fans, ducted: a.ducted },
          { at: b.at, fans: b.fans, ducted: b.ducted },
        )
      : null;
  return { thrust_N: whole, ...listener, a, b, difference_dB, words: wordsOf(a, b, whole, difference_dB) };
}

function wordsOf(a: SoundSide, b: SoundSide, whole: number, difference: Interval | null): string[] {
  const mute = [a, b].filter(({ at }) => at === null);
  if (!difference || !a.at || !b.at)
    return mute.map(
      ({ name }) => `${name} can’t give ${n(whole)} N at any speed, so there is nothing to hear of it.`,
    );
  const size = Math.abs(difference.value);
  const sure = difference.low > 0 || difference.high < 0;
  const which = difference.value > 0 ? b.name : a.name;
  const other = difference.value > 0 ? a.name : b.name;
  const range = `${n(difference.low, 2)} to ${n(difference.high, 2)} dB, ${b.name} against ${a.name}`;
  const start = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
  return [
    size < 0.5
      ? `At the same ${n(whole)} N both are about as loud (${range}).`
      : sure
        ? `At the same ${n(whole)} N ${which} is ${n(size, 2)} dB louder than ${other} (${range}).`
        : `At the same ${n(whole)} N ${which} is likely ${n(size, 2)} dB louder than ${other}, but the interval leaves the order open (${range}).`,
    `${start(a.name)}: ${levelWords(a.at.overall_dBA)} at ${n(a.at.rpm)} rpm, mostly ${PART_NAMES[loudestPart(a.at)]}. ${start(b.name)}: ${levelWords(b.at.overall_dBA)} at ${n(b.at.rpm)} rpm, mostly ${PART_NAMES[loudestPart(b.at)]}.`,
    'What is wrong with the method is mostly wrong for both in the same direction: 0.8 of each part’s error is taken as common and falls out where the same part rules both, the rest as each design’s own.',
  ];
}
