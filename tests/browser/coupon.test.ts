import { afterAll, beforeAll, expect, it } from 'vitest';
import { downloadBy, standUp, toStage, type Stand } from './stand.ts';

let stand: Stand;
beforeAll(async () => {
  stand = await standUp();
});
afterAll(() => stand.close());

it('sets the printer from a coupon, says what is wrong in a reading, and takes it back', async () => {
  const { page, problems } = await stand.open();
  await toStage(page, 'Print');
  const card = page.getByRole('region', { name: 'Coupon' });
  const file = await downloadBy(page, () =>
    card.getByRole('button', { name: 'Save the coupon as STL' }).click(),
  );
  expect(file.name).toBe('coupon.stl');
  await card.getByLabel('Thinnest fin that came out whole').selectOption('0.5');
  const pin = card.getByRole('group', { name: /Pins/ }).getByLabel('5 mm');
  await pin.fill('about 5');
  expect(await card.getByRole('alert').innerText()).toContain('"about 5" at the pin of 5 mm');
  await pin.fill('5,12 5.08');
  expect(await card.getByRole('alert').count()).toBe(0);
  await card.getByRole('button', { name: 'Set the printer by these readings' }).click();
  const wall = page.locator('section[aria-labelledby="printer-title"]').getByLabel('Thinnest wall');
  await expect.poll(() => wall.inputValue()).toBe('0.5');
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => wall.inputValue()).not.toBe('0.5');
  expect(problems).toEqual([]);
});
