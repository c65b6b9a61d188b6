import { readFileSync, writeFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import type { MakeOrBuy } from '../study/make-or-buy.ts';
import { example, here, workshop } from '../../tests/program.ts';

const scout = example('greenhouse-scout');
const prices = ['--material', '25', '--motor', '12', '--controller', '8'];

const { at, child: program, leave } = workshop('buy');
afterAll(leave);
const child = (...args: string[]) => program('buy', ...args);
const buy = (...args: string[]) => here('buy', ...args);
const figures = async (...args: string[]) =>
  JSON.parse((await buy(scout, ...prices, ...args, '--json')).out) as MakeOrBuy;

describe('buy', () => {
  it('sets printed beside bought, in a table and in sentences', () => {
    const { code, out, err } = child(
      scout,
      ...prices,
      '--currency',
      'crowns',
      '--unit',
      'pod: small:19:21:1.2:8',
    );
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/prices in crowns\n/);
    expect(out).toMatch(/ {2}printed here +\d/);
    expect(out).toMatch(/ {2}pod: small +108 /);
    for (const line of out.split('\n')) expect(line.length, line).toBeLessThanOrEqual(110);
  });

  it('reckons price from what is given', async () => {
    const plain = await figures('--unit', 'pod:19:21:1.2:8', '--unit', 'pod:19:21:1.2:8:controller');
    expect(plain.bought.map((set) => set.price)).toEqual([4 * 27, 4 * 19]);
    expect(plain.bought[0].mass_g - plain.bought[1].mass_g).toBeCloseTo(4 * 2.6, 9);
    const { material_g, printing_h } = plain.printed;
    expect(plain.printed.price).toBeCloseTo((material_g / 1000) * 25 + 4 * 20, 9);
    const dear = await figures('--printer-hour', '2', '--labour', '10', '--hands-on', '1');
    expect(dear.printed.price - plain.printed.price).toBeCloseTo(2 * printing_h + 40, 9);
    const lossy = await figures('--scrap', '0.5');
    expect(lossy.printed.material_g / material_g).toBeCloseTo(0.85 / 0.5, 9);
    expect((await figures('--rate', '8')).printed.printing_h).toBeCloseTo(printing_h / 2, 9);
  });

  it('reads prices and units from the project file; what is given on the line stands before it', async () => {
    const project = JSON.parse(readFileSync(scout, 'utf8'));
    project.material.pricePerKg = 25;
    project.purchases = {
      currency: 'crowns',
      motorPrice: 12,
      controllerPrice: 8,
      scrap_ratio: 0.5,
      units: [{ name: 'pod', price: 19, mass_g: 21, thrust_N: 1.2, current_A: 8 }],
    };
    const filed = at('filed.json');
    writeFileSync(filed, JSON.stringify(project));
    const { out } = await buy(filed);
    expect(out).toMatch(/prices in crowns\n/);
    const from = async (...args: string[]) =>
      JSON.parse((await buy(filed, ...args, '--json')).out) as MakeOrBuy;
    const lineOnly = await figures('--scrap', '0.5', '--currency', 'crowns', '--unit', 'pod:19:21:1.2:8');
    expect(await from()).toEqual(lineOnly);
    const dearer = await from('--motor', '20', '--unit', 'other:10:20:1:5');
    expect(dearer.printed.price - lineOnly.printed.price).toBeCloseTo(4 * 8, 9);
    expect(dearer.bought.map(({ name }) => name)).toEqual(['other']);
  });

  it.each([
    [
      [],
      /^buy needs the prices of .* does not say material.pricePerKg, purchases.motorPrice, .*--controller PRICE\.$/m,
    ],
    [
      ['--material', '25', '--set', 'purchases.motorPrice=12'],
      /does not say purchases.controllerPrice: add it/,
    ],
    [[...prices, '--unit', 'pod:19:21'], /it must be name, price, mass in g/],
    [[...prices, '--unit', ':19:21:1.2:8'], /it must be name, price/],
    [[...prices, '--unit', 'pod:19:0:1.2:8'], /its mass g is out of range/],
    [[...prices, '--unit', 'pod:19:21:x:8'], /its thrust N is out of range or no number/],
    [[...prices, '--scrap', '1'], /^--scrap is 1; it must be a number from 0 to 0.95/],
    [['--prices'], /see `fanwright buy --help`/],
  ])('refuses in one sentence: %#', async (args, sentence) => {
    const { code, out, err } = await buy(scout, ...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/^[^\n]+[.?]\n$/);
    expect(err).toMatch(sentence);
  });
});
