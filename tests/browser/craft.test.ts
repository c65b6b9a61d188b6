import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { standUp, toStage, verdict, type Stand } from './stand.ts';

let stand: Stand;
beforeAll(async () => {
  stand = await standUp();
});
afterAll(() => stand.close());

/** The worker answers after half a second of rest; a busy machine takes longer. */
const SLOW = { timeout: 20_000 };

const worked = '.craft-answers[aria-busy="false"]';
const first = (text: string): number => parseFloat(text.match(/[\d.]+/)![0]);

describe('the craft', () => {
  it('shows balance, wind, battery, layouts and duct or open, and follows a change', async () => {
    const { page, problems } = await stand.open();
    await toStage(page, 'Craft');
    await page.locator(worked).waitFor();
    const view = page.getByRole('figure', { name: /^The craft from above: 4 fans/ });
    expect(await view.locator('circle.rim').count()).toBe(4);
    expect(await view.locator('rect.battery').count()).toBe(1);
    const balance = page.locator('section[aria-labelledby="balance-title"]');
    expect(await balance.innerText()).toMatch(
      /rad\/s²[^]*climbs straight up at [\d.]+ m\/s[^]*steady wind of/,
    );

    const wide = async () => first(await view.locator('dd').first().innerText());
    const before = await wide();
    await page.getByLabel('Gap between rims').fill('24');
    await page.getByLabel('Gap between rims').press('Enter');
    await expect.poll(wide, SLOW).toBeCloseTo(before + 20, 0);
    await page.locator(worked).waitFor();
    for (const label of ['Battery below the rotors', 'Payload below the rotors', 'Lean of the fans'])
      expect(await page.getByLabel(label).count()).toBe(1);

    const battery = page.getByRole('figure', { name: /^Hover time over battery size/ });
    expect(await battery.locator('path.curve').count()).toBe(1);
    const duct = page.locator('section[aria-labelledby="duct-or-open-title"]');
    expect(await duct.locator('path.curve').count()).toBeGreaterThanOrEqual(3);
    expect(problems).toEqual([]);
  });

  it('puts another layout into the project as one step', async () => {
    const { page, problems } = await stand.open();
    await toStage(page, 'Craft');
    const table = page.getByRole('region', { name: 'Layouts side by side' });
    await table.waitFor();
    const said = await verdict(page);
    expect(await table.locator('tr.present').innerText()).toMatch(/^4 in a ring[^]*now/);
    await table.getByRole('button', { name: 'Use this layout: 6 in two rows' }).press('Enter');
    expect(await page.getByLabel('Number of fans', { exact: true }).inputValue()).toBe('6');
    expect(await page.getByLabel('Layout', { exact: true }).inputValue()).toBe('two rows');
    expect(await verdict(page)).not.toBe(said);
    await page.locator(worked).waitFor();
    await expect.poll(() => table.locator('tr.present').innerText(), SLOW).toMatch(/^6 in two rows/);
    expect(await page.locator('circle.rim').count()).toBe(6);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await verdict(page)).toBe(said);
    expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);
    expect(problems).toEqual([]);
  });

  it('tells in three sentences why a craft does not lift, and no longer once it does', async () => {
    const { page, problems } = await stand.open();
    const why = page.getByRole('region', { name: 'Why it does not lift' });
    expect(await why.count()).toBe(0);
    await toStage(page, 'Brief');
    await page.getByLabel('Payload').fill('600');
    await page.getByLabel('Payload').press('Enter');
    await expect.poll(() => why.locator('p').count(), SLOW).toBe(3);
    expect(await why.innerText()).toMatch(/its mass[^]*payload/);
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => why.count(), SLOW).toBe(0);
    expect(problems).toEqual([]);
  });

  it('sets printed fans beside a unit one can buy, row by row, and undoes it', async () => {
    const { page, problems } = await stand.open();
    await toStage(page, 'Craft');
    const card = page.locator('section[aria-labelledby="make-or-buy-title"]');
    const table = card.getByRole('region', { name: 'Printed and bought side by side' });
    expect(await card.innerText()).toContain('No price is given for the print material, a motor and');
    const set = async (label: string, value: string) => {
      await card.getByLabel(label, { exact: true }).fill(value);
      await card.getByLabel(label, { exact: true }).press('Enter');
    };
    await set('A kilogram of material', '25');
    await set('One motor', '12');
    await set('One controller channel', '8');
    await card.getByRole('button', { name: 'Add a unit one can buy' }).press('Enter');
    await set('price of unit 1', '20');
    await set('thrust of unit 1', '1.9');
    await expect.poll(() => table.locator('tbody tr').nth(1).innerText()).toMatch(/^unit 1\s+112\s/);
    expect(await card.innerText()).toMatch(/Most thrust for the money/);
    await card.getByLabel('unit 1 brings its controller').click();
    await expect.poll(() => table.locator('tbody tr').nth(1).innerText()).toMatch(/^unit 1\s+80\.0\s/);
    await card.getByRole('button', { name: 'Remove unit 1' }).press('Enter');
    expect(await table.locator('tbody tr').count()).toBe(1);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await table.locator('tbody tr').count()).toBe(2);
    expect(problems).toEqual([]);
  });
});
