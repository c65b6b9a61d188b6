import { describe, expect, it } from 'vitest';
import { demoProject } from '../state/examples.ts';
import { placeOf } from './place.ts';
import { nextThrottle, rowFrom, withRun } from './runs.ts';

describe('runs', () => {
  it('a first run writes the design down as a made build; the next keeps the rig', () => {
    const one = withRun(demoProject(), null, '2026-01-02');
    expect(one.project.builds).toHaveLength(1);
    expect(one.project.builds[0]).toMatchObject({ id: one.build, state: 'made', date: '2026-01-02' });
    const { build, run } = placeOf(one.project, { build: one.build, run: one.run })!;
    const lever = { ...run, rig: { ...run.rig, kind: 'lever' as const, leverRatio: 0.5 } };
    const edited = { ...one.project, builds: [{ ...build, bench: [lever] }] };
    const two = withRun(edited, one.build, '2026-01-03');
    expect(two.project.builds).toHaveLength(1);
    expect(two.project.builds[0].bench.map((r) => [r.id, r.rig.leverRatio])).toEqual([
      ['run-1', 0.5],
      ['run-2', 0.5],
    ]);
  });

  it('falls back on the last run there is', () => {
    expect(placeOf(demoProject(), { build: null, run: null })).toBeNull();
    const { project } = withRun(demoProject(), null, '2026-01-02');
    expect(placeOf(project, { build: 'gone', run: 'gone' })?.path).toBe('builds.0.bench.0');
  });

  it('reads a row with a decimal comma and percent, and says which field is wrong', () => {
    const good = rowFrom({ throttle: '45', scale_g: '305,5', voltage_V: '', rpm: '21500' });
    expect(good).toMatchObject({
      ok: true,
      row: { throttle: 0.45, scale_g: 305.5, voltage_V: null, rpm: 21500, atRest: false },
    });
    expect(rowFrom({ throttle: '0', scale_g: '512' })).toMatchObject({ row: { atRest: true } });
    expect(rowFrom({ throttle: '0,45', scale_g: '5' })).toMatchObject({
      ok: false,
      key: 'throttle',
      why: 'Throttle is in percent: write 45 for 0.45 of full.',
    });
    expect(rowFrom({ throttle: '120', scale_g: '5' })).toMatchObject({ ok: false, key: 'throttle' });
    expect(rowFrom({ throttle: '50' })).toMatchObject({ ok: false, key: 'scale_g' });
    expect(rowFrom({ throttle: '50', scale_g: 'x' })).toMatchObject({ ok: false, key: 'scale_g' });
  });

  it('proposes a sweep: rest, up in tenths to full, rest', () => {
    const rows: Parameters<typeof nextThrottle>[0][number][] = [];
    const taken: string[] = [];
    for (let i = 0; i < 12; i++) {
      const throttle = nextThrottle(rows);
      taken.push(throttle);
      const read = rowFrom({ throttle, scale_g: '1' });
      if (read.ok) rows.push(read.row);
    }
    expect(taken.join(' ')).toBe('0 20 30 40 50 60 70 80 90 100 0 ');
  });
});
