import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { readProject } from '../project/read.ts';
import { writeProject } from '../project/write.ts';
import { bestAnswer, bestFrom, bestRounds } from './best-run.ts';
import { bestSpace } from './best-space.ts';
import { limitsOf, robustFigures } from './best.ts';
import type { SearchState } from './optimise.ts';
import { pooledHere, type StudyPool } from './pool/pool.ts';
import { runTask } from './pool/task.ts';

const read = readProject(
  readFileSync(new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url)),
);
if (!read.ok) throw new Error('The example does not read.');
const { project } = read;

async function after(pool: StudyPool, from: SearchState, evaluations: number, of = project) {
  let state = from;
  for await (const next of bestRounds(of, pool, from, evaluations)) state = next;
  return state;
}

describe('the figures a search goes by', () => {
  it('are the low ends that assess tells', () => {
    const [ours, { craft }] = [robustFigures(project), assess(project)];
    expect(ours.hover_min.low / craft.hoverMinutesInterval.low).toBeCloseTo(1, 2);
    expect(ours.thrustToWeight.low / craft.thrustToWeightInterval.low).toBeCloseTo(1, 2);
    expect(ours.outerWidth_mm).toBe(craft.ductOuterDiameter_mm);
  });

  it('are the present design where nothing is changed', () => {
    const { here, projectAt, variables } = bestSpace(project);
    expect(projectAt(here)).toEqual(project);
    variables.forEach((v, i) => {
      expect(here[i]).toBeGreaterThanOrEqual(v.low);
      expect(here[i]).toBeLessThanOrEqual(v.high);
    });
  });
});

describe('the search for a better design', () => {
  // Three at once that come back in odd order.
  const delays = [5, 1, 3];
  let asked = 0;
  const three: StudyPool = {
    size: 3,
    run: (task) => new Promise((done) => setTimeout(() => done(runTask(task)), delays[asked++ % 3])),
    dispose: () => undefined,
  };

  it('finds designs that keep every limit and beat the present one, the same on any pool and after a stop', async () => {
    const state = await after(pooledHere(), bestFrom(1), 520);
    const half = await after(three, bestFrom(1), 240);
    const stopped = JSON.parse(JSON.stringify(half)) as SearchState;
    expect(await after(three, stopped, 520)).toEqual(state);
    const answer = bestAnswer(project, state);
    expect(answer.proposals.length).toBeGreaterThan(1);
    const now = answer.present;
    const better = state.members.filter(
      ({ objectives: [minutes, lift], violation }) =>
        violation === 0 && -minutes > now.hover_min.low && -lift > now.thrustToWeight.low,
    );
    expect(better.length).toBeGreaterThan(0);
    for (const { project: proposed, figures, changes } of answer.proposals) {
      expect(limitsOf(proposed, figures).filter((l) => l.over > 0)).toEqual([]);
      // A file of it reads back: every value is one the project may hold.
      expect(readProject(writeProject(proposed)).ok).toBe(true);
      const { craft, strength } = assess(proposed);
      expect(craft.hoverMinutesInterval.low).toBeGreaterThan(0.98 * proposed.brief.wanted_min);
      expect(craft.ductOuterDiameter_mm).toBeLessThanOrEqual(proposed.brief.largestDuctWidth_mm);
      expect(strength!.holds).toBe(true);
      for (const change of changes) expect(change.differences.length).toBeGreaterThan(0);
    }
  });

  it('says which limits the nearest design still breaks where none keeps them all', async () => {
    const asked = { ...project, brief: { ...project.brief, wanted_min: 60 } };
    const answer = bestAnswer(asked, await after(pooledHere(), bestFrom(2), 80, asked));
    expect(answer.proposals).toEqual([]);
    expect(answer.nearest!.broken).toContain('minutes');
  });
});
