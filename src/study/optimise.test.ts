import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { answersFrom } from '../assess/answers.ts';
import { mapOf, modelOf, quotedSupply } from '../assess/model.ts';
import { readProject } from '../project/read.ts';
import { crowding, dominates, fittest, ranksOf } from './front.ts';
import {
  ask,
  bestOf,
  frontOf,
  search,
  searchFrom,
  tell,
  type SearchState,
  type Variable,
} from './optimise.ts';

const real = (name: string, low: number, high: number): Variable => ({ name, low, high, whole: false });
const whole = (name: string, low: number, high: number): Variable => ({ name, low, high, whole: true });
const free = (...objectives: number[]) => ({ objectives, violation: 0 });

describe('better and worse', () => {
  it('puts kept limits first, then the smaller violation, then the objectives', () => {
    expect(dominates(free(9, 9), { objectives: [1, 1], violation: 0.1 })).toBe(true);
    expect(dominates({ objectives: [9], violation: 0.1 }, { objectives: [1], violation: 0.2 })).toBe(true);
    expect(dominates(free(1, 2), free(2, 1))).toBe(false);
    expect(dominates(free(1, 2), free(1, 3))).toBe(true);
    expect(dominates(free(1), free(1))).toBe(false);
  });

  it('ranks, and thins the most crowded', () => {
    const members = [free(0, 4), free(1, 1), free(4, 0), free(2, 2), free(1.1, 0.9), free(5, 5)];
    expect(ranksOf(members)).toEqual([[0, 1, 2, 4], [3], [5]]);
    expect(crowding(members.slice(0, 3))[1]).toBe(2);
    expect(fittest(members, 3)).toContain(members[0]);
    expect(fittest(members, 3)).toContain(members[2]);
    expect(fittest(members, 5)).not.toContain(members[5]);
  });
});

/** Best of a full grid of some axes. */
function gridBest(
  axes: readonly (readonly number[])[],
  score: (x: number[]) => { objectives: readonly number[]; violation: number },
) {
  let best = Infinity;
  const total = axes.reduce((n, a) => n * a.length, 1);
  for (let i = 0; i < total; i++) {
    let rest = i;
    const x = axes.map((axis) => {
      const value = axis[rest % axis.length];
      rest = Math.floor(rest / axis.length);
      return value;
    });
    const { objectives, violation } = score(x);
    if (violation === 0 && objectives[0] < best) best = objectives[0];
  }
  return { best, total };
}

const axis = (low: number, high: number, n: number) =>
  Array.from({ length: n }, (_, i) => low + ((high - low) * i) / (n - 1));

describe('one objective comes within 1 % of a dense grid with 2 % of its runs', () => {
  it('on a hilly plane with three equal valleys', () => {
    // Branin 1972; smallest value 0.397887.
    const score = ([x, y]: readonly number[]) =>
      free(
        (y - (5.1 * x * x) / (4 * Math.PI ** 2) + (5 * x) / Math.PI - 6) ** 2 +
          10 * (1 - 1 / (8 * Math.PI)) * Math.cos(x) +
          10,
      );
    const { best, total } = gridBest([axis(-5, 10, 201), axis(0, 15, 201)], score);
    for (const seed of [1, 2, 3, 4, 5]) {
      const end = search([real('x', -5, 10), real('y', 0, 15)], score, searchFrom(seed, 16), 0.02 * total);
      expect(end.evaluations).toBeLessThanOrEqual(0.02 * total);
      expect(bestOf(end.members)!.objectives[0]).toBeLessThan(1.01 * best);
    }
  });

  it('on a mixed space with limits: a spring of whole coils', () => {
    // Mass of a spring: coils (whole), coil diameter, wire diameter. Arora, Introduction to Optimum Design, 1989.
    const score = ([n, D, d]: readonly number[]) => {
      const over = [
        1 - (D ** 3 * n) / (71785 * d ** 4),
        (4 * D * D - d * D) / (12566 * (D * d ** 3 - d ** 4)) + 1 / (5108 * d * d) - 1,
        1 - (140.45 * d) / (D * D * n),
        (D + d) / 1.5 - 1,
      ].reduce((sum, g) => sum + Math.max(0, g), 0);
      return { objectives: [(n + 2) * D * d * d], violation: over };
    };
    const { best, total } = gridBest([axis(2, 15, 14), axis(0.25, 1.3, 106), axis(0.05, 0.2, 76)], score);
    for (const seed of [1, 2, 3, 4, 5]) {
      const end = search(
        [whole('coils', 2, 15), real('coil', 0.25, 1.3), real('wire', 0.05, 0.2)],
        score,
        searchFrom(seed, 20),
        0.02 * total,
      );
      const { violation, objectives, x } = bestOf(end.members)!;
      expect(violation).toBe(0);
      expect(Number.isInteger(x[0])).toBe(true);
      expect(objectives[0]).toBeLessThan(1.01 * best);
    }
  });

  it('on the drive of the demo: battery size and speed per volt for the longest hover', () => {
    const read = readProject(
      readFileSync(
        new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url),
      ),
    );
    if (!read.ok) throw new Error('The example does not read.');
    const { project } = read;
    const model = modelOf(project);
    const map = mapOf(model);
    const score = ([size, kv]: readonly number[]) => {
      const changed = {
        ...project,
        motor: { ...project.motor, velocityConstant_rpmPerV: kv },
        battery: { ...project.battery, capacity_mAh: project.battery.capacity_mAh * size },
      };
      const heavier = 1 + ((size - 1) * project.battery.mass_g) / (model.mass * 1000);
      const { hoverMinutes, thrustToWeight } = answersFrom(
        changed,
        quotedSupply(changed),
        map,
        model.needed * heavier,
      );
      return { objectives: [-hoverMinutes], violation: Math.max(0, 1.6 - thrustToWeight) };
    };
    const { best, total } = gridBest([axis(0.5, 4, 101), axis(1800, 4200, 101)], score);
    const end = search(
      [real('size', 0.5, 4), real('kv', 1800, 4200)],
      score,
      searchFrom(1, 12),
      0.02 * total,
    );
    expect(bestOf(end.members)!.objectives[0]).toBeLessThan(best * 0.99);
  });
});

describe('a search', () => {
  const variables = [whole('a', 0, 9), real('b', -1, 1)];
  const score = ([a, b]: readonly number[]) => free((a - 4) ** 2 + b * b, (a - 6) ** 2 + (b - 0.3) ** 2);
  const plain = search(variables, score, searchFrom(7, 10), 200);

  it('goes on from a file as if it had never stopped, and does not mind who runs the designs', () => {
    let state = search(variables, score, searchFrom(7, 10), 90);
    state = JSON.parse(JSON.stringify(state)) as SearchState;
    expect(search(variables, score, state, 200)).toEqual(plain);
    let shared = searchFrom(7, 10);
    while (shared.evaluations < 200) {
      const designs = ask(variables, shared);
      // Run from the last to the first, as another core might.
      const backward = designs.map((_, i) => score(designs[designs.length - 1 - i])).reverse();
      shared = tell(shared, designs, backward);
    }
    expect(shared).toEqual(plain);
    expect(search(variables, score, searchFrom(8, 10), 200)).not.toEqual(plain);
  });

  it('begins at the designs it is given', () => {
    expect(ask(variables, searchFrom(1, 4), [[3, 0.25]])[0]).toEqual([3, 0.25]);
  });

  it('leaves a front without doubles or beaten designs', () => {
    const front = frontOf(plain.members);
    for (const a of front) for (const b of front) expect(dominates(a, b)).toBe(false);
    expect(new Set(front.map((m) => m.x.join())).size).toBe(front.length);
    expect(front.every((m) => m.x[0] >= 4 && m.x[0] <= 6)).toBe(true);
  });
});
