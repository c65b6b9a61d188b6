import { afterAll, describe, expect, it } from 'vitest';
import { example, here, workshop } from '../../tests/program.ts';

const scout = example('greenhouse-scout');
const HEADINGS = [
  'Where the mass sits',
  'Control and climb',
  'Wind',
  'Near ground, walls and each other',
  'Battery size',
  'Duct or open rotor, the same outer width',
  'Layouts',
  'What binds first along the throttle, battery half charged',
  'A larger fan on this motor',
];

const { child: program, leave } = workshop('craft');
afterAll(leave);
const child = (...args: string[]) => program('craft', ...args);
const craft = (...args: string[]) => here('craft', ...args);
const figures = async (...args: string[]) => JSON.parse((await craft(scout, ...args, '--json')).out);

describe('craft', () => {
  it('prints every section in order, and not why it does not lift where it does', () => {
    const { code, out, err } = child(scout);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const places = HEADINGS.map((heading) => out.indexOf(`\n${heading}\n`));
    expect(places.every((place) => place > 0)).toBe(true);
    expect([...places].sort((a, b) => a - b)).toEqual(places);
    expect(out).not.toMatch(/Why it does not lift/);
    expect(out).toMatch(/from the front or the side/);
    for (const line of out.split('\n')) expect(line.length, line).toBeLessThanOrEqual(120);
  });

  it('tells a craft that does not lift why, in three sentences, first', async () => {
    const { code, out } = await craft(example('greenhouse-scout-heavy'), '--section', 'battery');
    expect(code).toBe(0);
    const why = /Why it does not lift\n([\s\S]*?)\n\nBattery size/.exec(out)![1];
    expect(why.match(/^ {2}- /gm)).toHaveLength(3);
    expect(out).toMatch(/does not hold it up/);
    expect(out).not.toMatch(/Control and climb|for 0 s/);
  });

  it('gives the same as JSON, one section or all', async () => {
    const all = await figures();
    expect(Object.keys(all)).toEqual([
      'shortfall',
      'mass',
      'control',
      'wind',
      'battery',
      'duct',
      'layouts',
      'motor',
    ]);
    const total = all.mass.items.reduce((sum: number, item: { mass_g: number }) => sum + item.mass_g, 0);
    expect(total).toBeCloseTo(all.mass.mass_g, 6);
    expect(all.control.acceleration_radps2.roll).toBeGreaterThan(0);
    expect(all.battery.longest.hover_min).toBeGreaterThanOrEqual(all.battery.now.hover_min);
    expect(await figures('--section', 'mass')).toEqual({ shortfall: all.shortfall, mass: all.mass });
  });

  it('follows what is set: a battery hung lower, a row, a guard', async () => {
    const mass = await figures('--section', 'mass');
    const low = await figures('--section', 'mass', '--set', 'craft.batteryBelow_mm=60');
    const share = 62 / mass.mass.mass_g;
    expect(low.mass.centre_mm.belowRotors - mass.mass.centre_mm.belowRotors).toBeCloseTo(40 * share, 6);
    const row = await figures('--section', 'control', '--set', 'craft.layout=row');
    expect(row.control.without).toContain('pitch');
    const [bare, guarded] = [
      await figures('--section', 'duct'),
      await figures('--section', 'duct', '--guard', '6'),
    ];
    expect(guarded.duct.pairs[4].open.mass_g - bare.duct.pairs[4].open.mass_g).toBeCloseTo(24, 6);
  });

  it.each([
    [['--section', 'colour'], /Allowed choices are mass, control, wind, battery, duct, layouts, motor/],
    [['--guard', '-1'], /^--guard is -1; it must be a number from 0 to 10000 g/],
    [['--sections'], /see `fanwright craft --help`/],
  ])('refuses in one sentence: %#', async (args, sentence) => {
    const { code, out, err } = await craft(scout, ...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/^[^\n]+[.?]\n$/);
    expect(err).toMatch(sentence);
  });
});
