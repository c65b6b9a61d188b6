import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { readProject } from '../project/read.ts';
import { example, here, workshop } from '../../tests/program.ts';

const { leave, at } = workshop('bench');
afterAll(leave);
const scout = at('scout.fanwright.json');
copyFileSync(example('greenhouse-scout'), scout);
const log = at('stand.csv');
writeFileSync(
  log,
  '\ufeff# Stand\r\nZeit;Gas (%);Waage (g);Spannung;Strom (A);Drehzahl;Notiz\r\n10:00:00;0;0,4;12,5;0,2;0;leer\r\n10:00:20;30;8,5;12,3;0,6;9200;\r\n10:00:40;60;ERR;12,0;3,4;13300;\r\n10:01:00;70;42;11,7;2,2;13900;pfeift\r\n10:01:20;0;0,9;12,4;0,2;0;\r\n',
);
const bench = (...args: string[]) => here('bench', scout, ...args);
const figures = async (...args: string[]) => JSON.parse((await bench(...args, '--json')).out);

describe('bench', () => {
  it('reduces a log, shows how it took the columns, and holds it against the prediction', async () => {
    const { code, out, err } = await bench(log, '--rig', 'pressing', '--step', '0.1');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    for (const text of [
      'of what hover needs at this throttle (70',
      'carried on beyond what was read',
      'How the log was taken',
      'Waage (g)',
      'holds a cell that is no number (first: line 5, "ERR")',
      'Air side: at equal speed (13 900 rpm)',
      'Drive side:',
    ])
      expect(out.replace(/\s+/g, ' ')).toContain(text);
    expect(out).not.toMatch(/NaN|Infinity|undefined|unlimited/);
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100);
  });

  it('takes readings by hand, and columns as it is told', async () => {
    const hand = await figures('--fans', '4', '--at-rest', '512', '--reading', '0.45:305');
    // 207 g of lift shared by four fans
    expect(hand.reduced.points[0].thrust_N.value).toBeCloseTo((0.207 * 9.80665) / 4, 9);
    expect(hand.reduced.hoverShare.extrapolated).toBe(true);
    const heavy = await figures(log, '--rig', 'pressing', '--map', 'Waage (g)=scale:2000');
    const plain = await figures(log, '--rig', 'pressing');
    expect(heavy.reduced.points[0].thrust_N.value / plain.reduced.points[0].thrust_N.value).toBeCloseTo(
      2000,
      6,
    );
  });

  it('keeps a run in a build, whole, and reads it again', async () => {
    const before = readFileSync(scout, 'utf8');
    const first = await bench(log, '--rig', 'pressing', '--new-build', 'first', '--name', 'first spin');
    expect(first.code).toBe(0);
    expect(first.out).toContain('Kept as run "run-1" of build "first"');
    await bench(log, '--rig', 'pressing', '--save', 'first');
    const read = readProject(readFileSync(scout));
    if (!read.ok) throw new Error(read.errors[0].message);
    const [build] = read.project.builds;
    expect(build.state).toBe('made');
    expect(build.bench.map((run) => run.id)).toEqual(['run-1', 'run-2']);
    expect(build.bench[0]).toMatchObject({ name: 'first spin', rig: { kind: 'fan pressing down' } });
    expect(build.bench[0].source.text).toBe(readFileSync(log, 'utf8').slice(1));
    expect(JSON.stringify(build.design.fan)).toBe(JSON.stringify(read.project.fan));
    const kept = await figures('--build', 'first', '--run', 'run-1');
    const fresh = await figures(log, '--rig', 'pressing');
    expect(kept.reduced).toEqual(fresh.reduced);
    const again = await bench(log, '--new-build', 'first');
    expect(again).toMatchObject({ code: 2, out: '' });
    expect(again.err).toContain('Build "first" is there already');
    writeFileSync(scout, before);
  });

  it.each([
    [[], 'There is nothing to reduce: give a log (CSV), or readings by hand'],
    [['nowhere.csv'], 'nowhere.csv cannot be read: there is no such file'],
    [[log, '--reading', '1:2'], 'Give a log, --reading or --run, one of them.'],
    [['--reading', '5:2'], '--reading 1 is "5:2"; it must be throttle from 0 to 1'],
    [[log, '--rig', 'spring'], '--rig is "spring"; it must be one of craft, pressing, lifting, lever, cell.'],
    [[log, '--map', 'x'], '--map is "x"; it must be column=quantity'],
    [[log, '--map', 'x=scale'], 'There is no column "x"; the columns are "Zeit", "Gas (%)"'],
    [[log, '--save', 'nope'], 'There is no build "nope"'],
    [['--run', 'a'], '--run needs --build ID'],
    [[log, '--new-build', 'b', '--set', 'fan.tipDiameter_mm=80'], 'change the project file first'],
  ])('refuses %j in one sentence and writes nothing', async (args, sentence) => {
    const before = readFileSync(scout, 'utf8');
    const { code, out, err } = await bench(...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(sentence);
    expect(err.trim().split('\n')).toHaveLength(1);
    expect(readFileSync(scout, 'utf8')).toBe(before);
  });
});
