import type { CauseId } from './causes.ts';
import { chiSquareAbove } from './gaussian.ts';
import { rankTests, type RankedTest } from './next-test.ts';
import { chanceOf } from './posterior.ts';
import type { Weighed } from './weigh.ts';

/** Causes by chance, likeliest first. */
export function rankedCauses(weighed: Weighed): { readonly id: CauseId; readonly chance: number }[] {
  return weighed.specs
    .map((s) => ({ id: s.id, chance: chanceOf(weighed, s.id) }))
    .sort((a, b) => b.chance - a.chance);
}

/** Whether the readings fit anything the tool knows. */
export interface Unexplained {
  /** Chance that something no cause covers is at work. */
  readonly chance: number;
  /** Chance of readings as odd as these if the hypothesis that fits best were true. */
  readonly fit: number;
  readonly flagged: boolean;
}

/** Readings odder than this under the best hypothesis fit none; one sound sweep in this many is odd by chance. */
const ODD = 1e-3;

export function unexplained(weighed: Weighed): Unexplained {
  const chance = weighed.hypotheses.reduce((s, h) => s + (h.unexplained ? h.chance : 0), 0);
  const best = Math.min(
    ...weighed.hypotheses.filter((h) => !h.unexplained && h.chance > 1e-12).map((h) => h.fit.chiSquare),
    weighed.sound.fit.chiSquare,
  );
  const fit = chiSquareAbove(best, weighed.rows.measuredCount);
  return { chance, fit, flagged: chance > 0.5 || fit < ODD };
}

/** Fewest bits a test must be worth to be asked for. */
const WORTH_ASKING = 0.05;

/** Tests that tell the two likeliest explanations apart, best information a minute first; the sound fan is one of them. */
export function nextTests(weighed: Weighed): RankedTest[] {
  const [a, b] = [...rankedCauses(weighed), { id: 'nothing' as const, chance: weighed.sound.chance }].sort(
    (x, y) => y.chance - x.chance,
  );
  return rankTests(weighed, a.id, b.id).filter((t) => t.bits >= WORTH_ASKING);
}
