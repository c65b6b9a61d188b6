import { describe, expect, it } from 'vitest';
import { latestOnly } from './latest.ts';

describe('latestOnly', () => {
  it('runs the first and the newest and leaves out what lies between', async () => {
    const ran: number[] = [];
    const seen: number[] = [];
    const ask = latestOnly(
      async (n: number) => {
        ran.push(n);
        await new Promise((r) => setTimeout(r, 5));
        return n * 10;
      },
      (out) => seen.push(out),
      () => {},
    );
    for (const n of [1, 2, 3, 4]) ask(n);
    await new Promise((r) => setTimeout(r, 30));
    expect(ran).toEqual([1, 4]);
    expect(seen).toEqual([10, 40]);
  });

  it('goes on after a failure', async () => {
    const failures: unknown[] = [];
    const seen: number[] = [];
    const ask = latestOnly(
      async (n: number) => {
        if (n === 1) throw new Error('no');
        return n;
      },
      (out) => seen.push(out),
      (error) => failures.push(error),
    );
    ask(1);
    ask(2);
    await new Promise((r) => setTimeout(r, 10));
    expect(failures).toHaveLength(1);
    expect(seen).toEqual([2]);
  });
});
