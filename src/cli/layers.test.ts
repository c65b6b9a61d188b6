import { existsSync, readFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { example, here, workshop } from '../../tests/program.ts';

const shop = workshop('layers');
afterAll(shop.leave);
const heavy = example('greenhouse-scout-heavy');
const plain = (text: string) => text.replace(/\s+/g, ' ');
const thin = [0, 1, 2, 3].flatMap((i) => ['--set', `fan.blade.${i}.thickness_ratio=0.02`]);

describe('fanwright layers', () => {
  it('tells what was found in each part, and material and time that add up', async () => {
    const { code, out } = await here('layers', heavy, '--layer', '0.4');
    expect(code).toBe(0);
    expect(plain(out)).toContain('The 8 pieces: ');
    expect(out).toContain('rotor, right-hand (rotor-right)');
    expect(out).not.toContain('rotor, left-hand (rotor-left)\n');
    const { parts, mass_g, pieces } = JSON.parse(
      (await here('layers', heavy, '--layer', '0.4', '--json')).out,
    ) as {
      mass_g: number;
      pieces: number;
      parts: { quantity: number; print: { mass_g: number } }[];
    };
    expect(pieces).toBe(8);
    expect(mass_g).toBeCloseTo(
      parts.reduce((sum, p) => sum + p.quantity * p.print.mass_g, 0),
      9,
    );
  });

  it('names the radii where a blade is too fine for the nozzle; so does assess', async () => {
    const { out } = await here('layers', heavy, '--part', 'rotor-right', '--layer', '0.4', ...thin);
    expect(plain(out)).toContain('Will not print as it is: rotor, right-hand.');
    expect(plain(out)).toMatch(
      /- Stop: From 1[\d.]+ to [\d.]+ mm from the axis the blade is narrower than one line of 0\.42 mm/,
    );
    const assessed = plain((await here('assess', heavy, ...thin)).out);
    expect(assessed).toMatch(/- Stop: At [\d.]+ mm radius and further places nothing of the blade comes out/);
  });

  it('lists ways to lie and writes a project that lies so', async () => {
    const laid = shop.at('laid.fanwright.json');
    const args = ['layers', heavy, '--part', 'duct', '--layer', '0.4', '--lay', '2', '--out', laid];
    expect((await here(...args)).out).toContain(`Wrote ${laid}.`);
    expect((JSON.parse(readFileSync(laid, 'utf8')) as { fan: { lies: unknown } }).fan.lies).toEqual([
      { part: 'duct', downX: 0, downY: 0, downZ: -1 },
    ]);
    const again = await here(...args);
    expect(again.code).toBe(2);
    expect(again.err).toContain(laid);
  });

  it('gives the layers as CSV, whose areas sum to the volume', async () => {
    const rows = (await here('layers', heavy, '--part', 'duct', '--layer', '0.4', '--csv')).out
      .trim()
      .split('\n')
      .map((row) => row.split(','));
    expect(rows[0].slice(0, 2)).toEqual(['z_mm', 'area_mm2']);
    const area = rows.slice(1).reduce((sum, row) => sum + Number(row[1]), 0);
    const step = Number(rows[2][0]) - Number(rows[1][0]);
    const json = (await here('layers', heavy, '--part', 'duct', '--layer', '0.4', '--json')).out;
    const [{ check }] = (JSON.parse(json) as { parts: { check: { volume_mm3: number } }[] }).parts;
    expect(area * step).toBeCloseTo(check.volume_mm3, 0);
  });

  it('refuses in one sentence what makes no sense', async () => {
    for (const [args, words] of [
      [['--csv'], 'name it with --part'],
      [['--part', 'wing'], 'There is no part "wing"; this project has rotor-right, rotor-left, duct.'],
      [['--part', 'duct', '--lay', '2'], '--out'],
      [['--part', 'duct', '--lay', 'two', '--out', shop.at('no.json')], '--lay is "two"'],
    ] as const) {
      const { code, out, err } = await here('layers', heavy, ...args);
      expect(code).toBe(2);
      expect(out).toBe('');
      expect(plain(err)).toContain(words);
    }
    expect(existsSync(shop.at('no.json'))).toBe(false);
  });
});
