import { afterAll, beforeAll, expect, it } from 'vitest';
import { standUp, toStage, type Stand } from './stand.ts';

let stand: Stand;
beforeAll(async () => {
  stand = await standUp();
});
afterAll(() => stand.close());

it('puts the craft together, says how it fits, and refuses a frame that does not', async () => {
  const { page, problems } = await stand.open();
  await toStage(page, 'Print');
  const card = page.locator('section[aria-labelledby="assembly-title"]');
  await card.getByRole('button', { name: /Put the craft together/ }).click();
  const note = card.locator('.solid-note');
  await expect.poll(() => note.innerText(), { timeout: 30_000 }).toMatch(/centre of mass of all \d+ g/);
  const rows = card.locator('tbody tr');
  await expect.poll(() => rows.count(), { timeout: 60_000 }).toBeGreaterThan(1);
  expect(await rows.first().innerText()).toMatch(
    /rotor of fan \d, duct of fan \d\s+4\s+0\.49 mm\s+0\.4\d mm/,
  );
  const canvas = card.locator('canvas');
  const before = await canvas.screenshot();
  await card.getByRole('button', { name: 'From above' }).click();
  await expect.poll(async () => (await canvas.screenshot()).equals(before)).toBe(false);
  await card.getByLabel('Frame', { exact: true }).selectOption('modular');
  await expect
    .poll(() => card.locator('.faults').first().innerText(), { timeout: 30_000 })
    .toContain('1 lug would do');
  expect(problems).toEqual([]);
}, 150_000);
