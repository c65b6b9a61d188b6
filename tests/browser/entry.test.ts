import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { dimension, standUp, toStage, verdict, type Stand } from './stand.ts';

const TIP = 'fan.tipDiameter_mm';
let stand: Stand;
beforeAll(async () => {
  stand = await standUp();
});
afterAll(() => stand.close());

describe('a number edited where it stands', () => {
  it('takes a good one on Enter and gives the old one back on Escape', async () => {
    const { page, problems } = await stand.open();
    const number = page.getByRole('spinbutton', { name: /^Tip diameter/ });
    const drawn = await dimension(page, TIP);
    await number.click();
    const field = page.locator('.dimension-editor input');
    await field.fill('70,5');
    await field.press('Enter');
    expect(await dimension(page, TIP)).toBe(70.5);
    expect(await field.count()).toBe(0);
    await page.keyboard.press('Enter');
    await field.fill('12');
    await field.press('Escape');
    expect(await dimension(page, TIP)).toBe(70.5);
    await page.keyboard.press('Control+z');
    expect(await dimension(page, TIP)).toBe(drawn);
    expect(problems).toEqual([]);
  });

  it('keeps a bad one, says why, and changes nothing', async () => {
    const { page, problems } = await stand.open();
    const first = await verdict(page);
    await page.getByRole('spinbutton', { name: /^Tip diameter/ }).click();
    const field = page.locator('.dimension-editor input');
    await field.fill('9000');
    await field.press('Enter');
    expect(await page.locator('.dimension-editor .wrong').innerText()).toContain(
      'Tip diameter takes a number from 10 to 1500 mm; 9000 lies outside.',
    );
    expect(await field.inputValue()).toBe('9000');
    await page.locator('h1').click();
    expect(await field.inputValue()).toBe('9000');
    expect(await verdict(page)).toBe(first);
    await page.getByRole('button', { name: /back$/ }).click();
    expect(await field.inputValue()).toBe(String(await dimension(page, TIP)));
    expect(problems).toEqual([]);
  });

  it('steps by the arrow keys on the drawing', async () => {
    const { page } = await stand.open();
    const drawn = await dimension(page, TIP);
    await page.getByRole('spinbutton', { name: /^Tip diameter/ }).focus();
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('ArrowUp');
    expect(await dimension(page, TIP)).toBe(drawn + 1);
    await page.getByRole('spinbutton', { name: /^Number of blades/ }).focus();
    await page.keyboard.press('ArrowDown');
    expect(
      await page.getByRole('spinbutton', { name: /^Number of blades/ }).getAttribute('aria-valuenow'),
    ).toBe('4');
  });

  it('does the same in the forms of the other stages', async () => {
    const { page } = await stand.open();
    await toStage(page, 'Brief');
    const payload = page.getByLabel('Payload', { exact: true });
    const first = await verdict(page);
    await payload.fill('heavy');
    await payload.press('Tab');
    expect(await page.getByRole('alert').innerText()).toContain(
      '"heavy" is not a number; Payload takes a number from 0 to 20000 g.',
    );
    await payload.fill('150');
    await payload.press('Enter');
    expect(await verdict(page)).not.toBe(first);
  });
});
