import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readProject } from '../project/read.ts';
import { figuresOf } from './figures.ts';
import { inOrder, pooledHere, type StudyPool } from './pool/pool.ts';
import { runTask, sweepTasks, type SweepTask } from './pool/task.ts';
import {
  designAt,
  designCount,
  evenValues,
  figuresIn,
  sweepBlocks,
  sweepPlan,
  valuesAt,
  type SweepBlock,
  type SweepPlan,
} from './sweep.ts';
import { sweepHeading, sweepLines, tableState } from './sweep-table.ts';

const read = readProject(
  readFileSync(new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url)),
);
if (!read.ok) throw new Error('The example does not read.');
const { project } = read;

function planned(): SweepPlan {
  const made = sweepPlan(
    project,
    [
      { path: 'fan.tipDiameter_mm', values: evenValues('fan.tipDiameter_mm', 55, 70, 4) },
      { path: 'fan.bladeCount', values: evenValues('fan.bladeCount', 3, 7, 3) },
    ],
    { sound: false },
  );
  if (!made.ok) throw new Error(made.why);
  return made.plan;
}

const plan = planned();
const tableOf = (blocks: Iterable<SweepBlock>) => [...blocks].map((b) => sweepLines(plan, b)).join('');

describe('a sweep', () => {
  it('takes every value of the one with every value of the other', () => {
    expect(designCount(plan)).toBe(12);
    expect(valuesAt(plan, 0)).toEqual([55, 3]);
    expect(valuesAt(plan, 7)).toEqual([65, 5]);
    expect(designAt(plan, 11).fan).toMatchObject({ tipDiameter_mm: 70, bladeCount: 7 });
    const [block] = sweepBlocks(plan);
    expect(figuresIn(block, 7)).toEqual(figuresOf(designAt(plan, 7), { sound: false }));
  });

  it('gives whole numbers once each', () => {
    expect(evenValues('fan.bladeCount', 3, 5, 9)).toEqual([3, 4, 5]);
    expect(evenValues('fan.tipGap_mm', 0.3, 0.5, 3)).toEqual([0.3, 0.4, 0.5]);
  });

  it('is the same in any blocks, and taken up again where it stopped', () => {
    const whole = tableOf(sweepBlocks(plan));
    expect(tableOf(sweepBlocks(plan, 0, 5))).toBe(whole);
    const halves = sweepBlocks(plan, 0, 5);
    const first = halves.next().value!;
    expect(sweepLines(plan, first) + tableOf(sweepBlocks(plan, first.to))).toBe(whole);
  });

  it('is the same for any number of workers, whichever is done first', async () => {
    // Answers come back in another order than they were asked for.
    const late: StudyPool = {
      size: 3,
      run: (task) =>
        new Promise((done) =>
          setTimeout(() => done(runTask(task)), (task as SweepTask).from % 4 === 0 ? 30 : 1),
        ),
      dispose: () => undefined,
    };
    const texts: string[] = [];
    for (const pool of [pooledHere(), late]) {
      let text = '';
      for await (const block of inOrder(pool, sweepTasks(plan, 0, 12, 2))) text += sweepLines(plan, block);
      texts.push(text);
    }
    expect(texts[0]).toBe(tableOf(sweepBlocks(plan)));
    expect(texts[1]).toBe(texts[0]);
  });

  it('keeps few tasks out at once', async () => {
    let [out, most] = [0, 0];
    const counting: StudyPool = {
      size: 2,
      run: async (task) => {
        most = Math.max(most, ++out);
        await new Promise((done) => setTimeout(done, 1));
        out--;
        const { from, to } = task as SweepTask;
        return { from, to, figures: new Float64Array(0) } as never;
      },
      dispose: () => undefined,
    };
    let count = 0;
    for await (const _ of inOrder(counting, sweepTasks(plan, 0, 500, 1))) count++;
    expect(count).toBe(500);
    expect(most).toBeLessThanOrEqual(4);
  });

  it('says in a sentence what it cannot vary', () => {
    const why = (...varies: Parameters<typeof sweepPlan>[1][number][]) => {
      const made = sweepPlan(project, varies);
      return made.ok ? '' : made.why;
    };
    expect(why({ path: 'fan.tipDiamter_mm', values: [60] })).toMatch(/did you mean fan.tipDiameter_mm/);
    expect(why({ path: 'fan.tipDiameter_mm', values: [1, 60] })).toMatch(/tipDiameter_mm/);
    expect(why({ path: 'fan.kind', values: [1] })).not.toBe('');
    expect(why({ path: 'fan.blade.9.chord_mm', values: [8] })).toMatch(/is not there/);
    const gap = { path: 'fan.tipGap_mm', values: [0.3, 0.4] };
    expect(why(gap, gap)).toMatch(/twice/);
    expect(why()).toMatch(/one or two/);
  });
});

describe('the table of a sweep', () => {
  it('knows how far it has come, and a line that was cut is done again', () => {
    const whole = `${sweepHeading(plan)}\n${tableOf(sweepBlocks(plan))}`;
    expect(tableState(plan, whole)).toEqual({ ok: true, done: 12 });
    const cut = whole.slice(0, whole.length - 4);
    expect(tableState(plan, cut)).toEqual({ ok: true, done: 11 });
    expect(tableState(plan, whole.replace('\n55,3,', '\n56,3,'))).toMatchObject({ ok: false });
    expect(tableState(plan, 'something else\n')).toMatchObject({ ok: false });
  });
});
