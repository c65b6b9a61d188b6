import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { AxeBuilder } from '@axe-core/playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DESK, PHONE, standUp, toStage, verdict, type Stand } from './stand.ts';

const shots = fileURLToPath(new URL('shots/', import.meta.url));
let stand: Stand;
beforeAll(async () => {
  mkdirSync(shots, { recursive: true });
  stand = await standUp();
});
afterAll(() => stand.close());

describe('which size would do', () => {
  it('maps the sizes, explains a square, and puts one into the project as one step', async () => {
    const { page, problems } = await stand.open();
    await toStage(page, 'Craft');
    const card = page.locator('section[aria-labelledby="size-title"]');
    await card.getByRole('button', { name: 'Look for sizes' }).press('Enter');
    const grid = card.getByRole('grid', { name: 'Which size would do' });
    await grid.waitFor({ timeout: 30_000 });
    expect(await grid.getByRole('row').count()).toBe(6);

    // The widest tips are past the width allowed, by design of the sizes looked at.
    await grid.locator('[tabindex="0"]').first().focus();
    await page.keyboard.press('End');
    const why = card.locator('.size-why');
    expect(await why.innerText()).toMatch(/Here the duct is too wide: tips of \d+/);
    const row = grid.getByRole('row').nth(1);
    const letters = (await row.getByRole('gridcell').allInnerTexts()).join('');
    expect(letters).toMatch(/w$/);
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowDown');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toMatch(
      /motor B\. /,
    );
    const legend = card.getByLabel('What the letters mean');
    expect(await legend.innerText()).toContain('here the duct is wider than allowed');
    for (const letter of new Set((await grid.getByRole('gridcell').allInnerTexts()).map((t) => t.trim())))
      expect(await legend.getByText(letter, { exact: true }).count(), letter).toBe(1);

    const said = await verdict(page);
    const best = card.getByRole('region', { name: 'The best of them' });
    const line = best.locator('tbody tr').first();
    const ratio = (await line.locator('td').nth(2).innerText()).trim();
    await line.getByRole('button', { name: /^Use this one/ }).press('Enter');
    await expect.poll(() => verdict(page)).not.toBe(said);
    expect(await verdict(page)).toContain(`${ratio} times its weight`);
    // The map holds for the next one too: only what a sized fan brings itself has changed.
    expect(await best.locator('tbody tr').nth(1).getByRole('button').isEnabled()).toBe(true);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await verdict(page)).toBe(said);
    expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);

    await toStage(page, 'Brief');
    await page.getByLabel('Payload').first().fill('90');
    await page.getByLabel('Payload').first().press('Enter');
    await toStage(page, 'Craft');
    expect(await line.getByRole('button').isDisabled()).toBe(true);
    expect(await card.getByRole('status').innerText()).toMatch(/changed since: look again/);
    expect(problems).toEqual([]);
  });

  it('sizes for another number of fans and brings that number along', async () => {
    const { page, problems } = await stand.open();
    await toStage(page, 'Craft');
    const card = page.locator('section[aria-labelledby="size-title"]');
    await card.getByLabel('Look over').selectOption('tips');
    await card.getByLabel('Number of fans to size for').selectOption('6');
    await card.getByRole('button', { name: 'Look for sizes' }).press('Enter');
    await card.getByRole('grid', { name: 'Which size would do' }).waitFor({ timeout: 30_000 });
    expect(await card.innerText()).toContain('This map is for 6 fans; the project has 4.');
    const uses = card.getByRole('button', { name: /^Use this one/ });
    await uses.first().press('Enter');
    await expect.poll(() => page.getByLabel('Number of fans', { exact: true }).inputValue()).toBe('6');
    expect(await uses.nth(1).isEnabled()).toBe(true);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await page.getByLabel('Number of fans', { exact: true }).inputValue()).toBe('4');
    expect(problems).toEqual([]);
  });

  it('stops on request and keeps what is done', async () => {
    const { page, problems } = await stand.open();
    await toStage(page, 'Craft');
    const card = page.locator('section[aria-labelledby="size-title"]');
    await card.getByLabel('Look over').selectOption('both');
    await card.getByRole('button', { name: 'Look for sizes' }).click();
    await card.getByRole('button', { name: 'Stop' }).click();
    await card.getByRole('button', { name: 'Look again' }).waitFor();
    expect(await card.getByRole('status').innerText()).toMatch(/^Stopped before its end/);
    expect(await card.locator('[data-at]').count()).toBeLessThan(200);
    expect(problems).toEqual([]);
  });

  it.each([
    ['desk', 'light', DESK],
    ['desk', 'dark', DESK],
    ['phone', 'light', PHONE],
    ['phone', 'dark', PHONE],
  ] as const)('reads well on a %s in %s', async (place, colorScheme, viewport) => {
    const { page, problems } = await stand.open({ viewport, colorScheme, hasTouch: place === 'phone' });
    await toStage(page, 'Craft');
    await page.locator('.craft-answers[aria-busy="false"]').waitFor({ timeout: 30_000 });
    const card = page.locator('section[aria-labelledby="size-title"]');
    await card.getByRole('button', { name: 'Look for sizes' }).click();
    const cells = card.getByRole('gridcell');
    await cells.first().waitFor({ timeout: 30_000 });
    await cells.nth(10).click();
    await page.setViewportSize({ ...viewport, height: 2600 });
    await card.screenshot({ path: `${shots}${place}-${colorScheme}-size.png` });
    const wider = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(wider).toBeLessThanOrEqual(0);
    const { violations } = await new AxeBuilder({ page }).analyze();
    const serious = violations.filter((v) => v.impact === 'serious' || v.impact === 'critical');
    expect(serious.map((v) => `${v.help}: ${v.nodes.map((node) => node.html).join(' ')}`)).toEqual([]);
    expect(problems).toEqual([]);
  });
});
