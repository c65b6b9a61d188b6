import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { standUp, toStage, verdict, type Stand } from './stand.ts';

let stand: Stand;
beforeAll(async () => {
  stand = await standUp();
});
afterAll(() => stand.close());

/** The worker answers after half a second of rest; a busy machine takes longer. */
const SLOW = { timeout: 20_000 };

const ONE: readonly (readonly [string, string])[] = [
  ['Line-to-line resistance', '190'],
  ['Voltage, first reading', '7'],
  ['Current, first reading', '0.35'],
  ['Speed, first reading', '21150'],
];

describe('a motor from bench readings', () => {
  it('gives constants with intervals, used as one step', async () => {
    const { page, problems } = await stand.open();
    await toStage(page, 'Make-up');
    const card = page.locator('section[aria-labelledby="readings-title"]');
    await card.locator('summary').press('Enter');
    const speedPerVolt = page.getByLabel('Speed per volt');
    const [said, before] = [await verdict(page), await speedPerVolt.inputValue()];
    for (const [label, text] of ONE) await card.getByLabel(label).fill(text);
    await card.getByLabel('Speed, first reading').press('Enter');
    const found = card.getByRole('region', { name: 'What the readings say' });
    expect(await found.innerText()).toMatch(/One no-load reading cannot tell/);
    const row = await found.getByRole('row', { name: /^Speed for each volt/ }).innerText();
    const [low, high] = row
      .match(/([\d\s\u2009\u202f]+) and ([\d\s\u2009\u202f]+)/)!
      .slice(1)
      .map((t) => Number(t.replace(/\D/g, '')));
    // 21150 rpm over 7 V less 0.35 A through 0.19 ohm, by hand.
    const byHand = 21150 / (7 - 0.35 * 0.19);
    expect(low).toBeLessThan(byHand);
    expect(high).toBeGreaterThan(byHand);
    expect(await verdict(page)).toBe(said);

    await found.getByRole('button', { name: 'Use these' }).press('Enter');
    expect(Number(await speedPerVolt.inputValue())).toBeCloseTo(byHand, 0);
    expect(await page.getByLabel('Steady share of that current').first().inputValue()).toBe('0.5');
    expect(await found.getByRole('button', { name: 'Use these' }).isDisabled()).toBe(true);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await speedPerVolt.inputValue()).toBe(before);
    expect(await verdict(page)).toBe(said);
    expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);
    expect(problems).toEqual([]);
  });

  it('refuses what no motor gives, at its place', async () => {
    const { page } = await stand.open();
    await toStage(page, 'Make-up');
    const card = page.locator('section[aria-labelledby="readings-title"]');
    await card.locator('summary').press('Enter');
    await card.getByRole('button', { name: 'Find the constants' }).click();
    expect(await card.getByRole('alert').count()).toBe(4);
    for (const [label, text] of ONE) await card.getByLabel(label).fill(text);
    await card.getByLabel('Line-to-line resistance').fill('9000');
    await card.getByLabel('Current, first reading').fill('3');
    await card.getByRole('button', { name: 'Find the constants' }).click();
    expect(await card.getByRole('alert').innerText()).toMatch(
      /^Current, first reading is 3\S* A; through .* nothing is left to turn the motor/,
    );
    expect(await card.getByRole('button', { name: 'Use these' }).count()).toBe(0);
  });
});

describe('a motor from its stator size', () => {
  it('is an estimate with a wide range, used as one step', async () => {
    const { page, problems } = await stand.open();
    await toStage(page, 'Make-up');
    const card = page.locator('section[aria-labelledby="stator-title"]');
    await card.locator('summary').press('Enter');
    await card.getByLabel('Stator diameter').fill('40');
    await card.getByLabel('Stator height').fill('4');
    await card.getByRole('button', { name: 'Estimate it' }).click();
    expect(await card.getByRole('alert').innerText()).toMatch(
      /^Stator diameter takes a number from 9 to 30 mm/,
    );
    await card.getByLabel('Stator diameter').fill('14');
    await card.getByRole('button', { name: 'Estimate it' }).click();
    const found = card.getByRole('region', { name: 'What is usual for this stator' });
    expect(await found.innerText()).toContain('Nobody measured this motor');
    const ohms = await found.getByRole('row', { name: /^Resistance/ }).innerText();
    const [value, low, high] = ohms.match(/[\d.]+/g)!.map(Number);
    expect(high / low).toBeGreaterThan(2);
    const resistance = page.getByLabel('Resistance', { exact: true }).first();
    const before = await resistance.inputValue();
    await found.getByRole('button', { name: 'Use this estimate' }).press('Enter');
    expect(Math.abs(Number(await resistance.inputValue()) / value - 1)).toBeLessThan(0.06);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await resistance.inputValue()).toBe(before);
    expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);
    expect(problems).toEqual([]);
  });
});

describe('what binds first', () => {
  it('follows the motor', async () => {
    const { page, problems } = await stand.open();
    await toStage(page, 'Make-up');
    const worked = page.locator('.craft-answers[aria-busy="false"]');
    await worked.waitFor();
    const limits = page.getByRole('region', { name: 'Limits along the throttle' });
    const reached = () =>
      limits
        .getByRole('row', { name: /^motor, for minutes/ })
        .locator('td')
        .last()
        .innerText();
    const motor = page.locator('section[aria-labelledby="motor-title"]');
    await motor.getByLabel('Continuous current').fill('1');
    await motor.getByLabel('Continuous current').press('Enter');
    await expect.poll(reached, SLOW).toMatch(/^\d+\s%$/);
    await worked.waitFor();
    const low = parseFloat(await reached());
    expect(await page.locator('section[aria-labelledby="binding-title"]').innerText()).toMatch(
      /motor's current for minutes binds first/,
    );
    await motor.getByLabel('Continuous current').fill('100');
    await motor.getByLabel('Continuous current').press('Enter');
    await expect.poll(reached, SLOW).toBe('never');
    expect(low).toBeLessThan(60);
    const larger = page.locator('section[aria-labelledby="larger-title"]');
    expect(
      await larger.getByRole('region', { name: 'The fan at other sizes' }).locator('tbody tr').count(),
    ).toBeGreaterThan(8);
    expect(problems).toEqual([]);
  });
});
