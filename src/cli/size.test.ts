import { existsSync, readFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { readProject } from '../project/read.ts';
import type { SizeStudy } from '../study/size-types.ts';
import { example, here, workshop } from '../../tests/program.ts';

const scout = example('greenhouse-scout');

const { at, child: program, leave } = workshop('size');
afterAll(leave);
const child = (...args: string[]) => program('size', ...args);
const size = (...args: string[]) => here('size', ...args);

describe('size', () => {
  it('prints the map, its legend, the front and sentences', () => {
    const { code, out, err } = child(scout, '--tip', '30:80:10', '--motors', 'own', 'motor-1102-10000');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/tips mm +A +B\n/);
    expect(out).toMatch(/\n +60 +\+ +t\n/);
    expect(out).toMatch(/\n +80 +w +w\n/);
    expect(out).toMatch(/\+ {2}meets the brief\n/);
    expect(out).toMatch(/t {2}the motor is out of torque\n/);
    expect(out).toMatch(/Of 12 combinations/);
    expect(out).toMatch(/Quietest of these in hover, by estimate: \d+ dB/);
    expect(out).toMatch(/The front/);
    for (const line of out.split('\n')) expect(line.length, line).toBeLessThanOrEqual(110);
  });

  it('gives the same as JSON, batteries as columns, fans as told', async () => {
    const { out } = await size(
      scout,
      '--tip',
      '56:66:5',
      '--motors',
      'own',
      '--batteries',
      'own',
      'battery-lp-3s-650',
      '--fans',
      '6',
      '--json',
    );
    const study = JSON.parse(out) as SizeStudy;
    expect(study.tips_mm).toEqual([56, 61, 66]);
    expect(study.fanCount).toBe(6);
    expect(study.batteries.map((b) => b.cells)).toEqual([2, 3]);
    expect(study.cells).toHaveLength(6);
    expect(study.front.length).toBeGreaterThan(0);
    expect((await size(scout, '--motors', 'own', '--batteries', 'all')).out).toMatch(/tips mm( +\d+){22}\n/);
    const starved = await size(scout, '--motors', 'own', '--set', 'battery.dischargeLimit_C=3');
    expect(starved.out).toMatch(/Here the battery cannot feed it/);
  });

  it('writes a row of the front as a project that assess agrees with', async () => {
    const out = at('wider.fanwright.json');
    const args = [scout, '--motors', 'motor-1204-5000', '--tip', '60:68:4', '--blades', '5'];
    const told = await size(...args, '--take', '1', '--out', out);
    expect(told).toMatchObject({ code: 0, err: '' });
    expect(told.out).toMatch(/Wrote .*: row 1 of the front\.\n$/);
    const study = JSON.parse((await size(...args, '--json')).out) as SizeStudy;
    const read = readProject(readFileSync(out));
    if (!read.ok) throw new Error(read.errors[0].message);
    expect(read.project.motor.name).toMatch(/1204, 5000/);
    expect(read.project.fan.bladeCount).toBe(5);
    expect(assess(read.project).craft.hover_min / study.front[0].hover_min).toBeCloseTo(1, 1);
    const again = await size(...args, '--take', '1', '--out', out);
    expect(again.code).toBe(2);
    const beyond = await size(...args, '--take', '8', '--out', at('b.fanwright.json'));
    expect(beyond.err).toMatch(/^--take is 8; the front has \d rows?\.\n$/);
    expect(existsSync(at('b.fanwright.json'))).toBe(false);
  });

  it('says why for a craft that no such fan lifts', async () => {
    const { code, out } = await size(example('greenhouse-scout-heavy'), '--motors', 'own');
    expect(code).toBe(0);
    expect(out).toMatch(/None lifts with enough to spare/);
    expect(out).not.toMatch(/The front/);
  });

  it.each([
    [['--tip', '50'], /^--tip is "50"; it must be A:B:STEP in mm/],
    [['--tip', '80:50:5'], /must be A:B:STEP/],
    [['--tip', '10:1500:0.5'], /at most 250/],
    [['--tip', '30:90:1', '--all-motors'], /61 tip diameters, 18 motors and 1 batteries make 1098/],
    [['--motors', 'motor-9'], /^--motors has "motor-9"; the catalogue knows own, all, motor-1102-10000/],
    [['--motors', 'own', '--all-motors'], /not both/],
    [['--take', '1'], /^--take N and --out FILE go together/],
    [['--blades', 'three'], /^--blades is "three"; it must be a whole number/],
    [['--fans', '0'], /^--fans is 0; it must be a whole number from 1 to 12/],
    [['--tips', '50:60:5'], /see `fanwright size --help`/],
  ])('refuses in one sentence: %#', async (args, sentence) => {
    const { code, out, err } = await size(scout, ...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/^[^\n]+[.?]\n$/);
    expect(err).toMatch(sentence);
  });
});
