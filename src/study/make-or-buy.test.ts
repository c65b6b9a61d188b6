import { expect, test } from 'vitest';
import { assess } from '../assess/assess.ts';
import { GRAVITY } from '../quantities/constants.ts';
import { makeOrBuy, type BoughtUnit, type PrintCosts } from './make-or-buy.ts';
import { costsOf } from './purchases.ts';
import { demo } from '../../tests/demo.ts';

const assessment = assess(demo);
// Invented prices and an invented unit.
const costs: PrintCosts = {
  currency: 'coins',
  material_perKg: 25,
  motor_each: 14,
  controller_each: 9,
  scrap_ratio: 0.2,
};
const unit: BoughtUnit = { name: 'ready unit', price: 32, mass_g: 38, thrust_N: 1.4, current_A: 11 };
const run = (c: Partial<PrintCosts> = {}, u: Partial<BoughtUnit> = {}) =>
  makeOrBuy(demo, { ...costs, ...c }, [{ ...unit, ...u }], assessment);

test('the printed set is priced from its own mass, by hand', () => {
  const { printed } = run();
  const good = assessment.craft.items.filter((i) => i.kind === 'printed').reduce((s, i) => s + i.total_g, 0);
  expect(printed.material_g).toBeCloseTo(good / 0.8, 9);
  expect(printed.price).toBeCloseTo((good / 0.8 / 1000) * 25 + 4 * 23, 9);
  expect(printed.printing_h).toBeCloseTo((good / 0.8 / 1.27 / 4 / 3600) * 1000, 6);
  expect(printed.thrustToWeight).toBeCloseTo(assessment.craft.thrustToWeight, 9);
});

test('a bought unit takes the place of motor, rotor and duct, and keeps the controllers unless it has its own', () => {
  const [set] = run().bought;
  const gone = assessment.craft.items
    .filter((i) => ['motor', 'rotor', 'duct'].includes(i.name))
    .reduce((s, i) => s + i.total_g, 0);
  const craft_g = assessment.craft.mass_g - gone + 4 * 38;
  expect(set.thrustToWeight).toBeCloseTo(((4 * 1.4) / GRAVITY / craft_g) * 1000, 9);
  expect(set.price).toBe(4 * 41);
  const [own] = run({}, { includesController: true }).bought;
  expect(own.price).toBe(4 * 32);
  expect(own.mass_g).toBe(4 * 38);
});

test('more scrap costs more material, hours and money; thrust for money falls', () => {
  const few = run({ scrap_ratio: 0.05, printer_perHour: 0.3 }).printed;
  const many = run({ scrap_ratio: 0.5, printer_perHour: 0.3 }).printed;
  for (const key of ['price', 'material_g', 'printing_h'] as const)
    expect(many[key]).toBeGreaterThan(few[key]);
  expect(many.gramsOfThrustPerMoney).toBeLessThan(few.gramsOfThrustPerMoney);
  expect(many.mass_g).toBe(few.mass_g);
});

test('sentences name both, and a figure out of range is refused in a sentence', () => {
  const { words } = run();
  expect(words).toHaveLength(4);
  expect(words[1]).toContain('ready unit');
  expect(() => run({ scrap_ratio: 1 })).toThrow(
    'scrap_ratio (share of prints lost) is 1; a number from 0 to 0.95 would do.',
  );
  expect(() => run({}, { mass_g: Number.NaN })).toThrow('mass_g of bought unit 1');
});

test('what has no price or no thrust is said, and compared with nothing', () => {
  const { words } = makeOrBuy(demo, costsOf(demo), [{ ...unit, thrust_N: 0 }], assessment);
  expect(words.slice(1)).toEqual([
    "ready unit: without its thrust it can't be set beside yours.",
    'No price is given for the print material, a motor and a controller: they count as nothing here, so the costs are not set side by side in words.',
  ]);
  expect(run().words[2]).toMatch(
    /^Most thrust for the money: .*; most for its mass: |^Most thrust for the money and/,
  );
});
