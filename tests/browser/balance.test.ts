import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { standUp, toStage, type Stand } from './stand.ts';

let stand: Stand;
beforeAll(async () => {
  stand = await standUp();
});
afterAll(() => stand.close());

describe('balance', () => {
  it('orders weighed blades, draws the construction, says the correction, and undoes', async () => {
    const { page, problems } = await stand.open();
    await toStage(page, 'Balance');
    const masses = page.getByLabel(/^Masses of the \d+ blades/);
    await masses.fill('0.312 x');
    await masses.press('Enter');
    expect(await page.getByRole('alert').innerText()).toContain('Mass 2 is "x"');
    await masses.fill('0.312 0.298 0.305 0.320 0.301');
    await masses.press('Enter');
    const hub = page.getByRole('img', { name: /^Blades round the hub/ });
    expect(await hub.locator('line.blade').count()).toBe(5);

    await page.getByRole('button', { name: 'Start with four runs' }).click();
    for (const [i, reading] of [10, 7, 12, 18].entries()) {
      const field = page.getByLabel(`Vibration, run ${i + 1}`);
      await field.fill(String(reading));
      await field.press('Enter');
    }
    const circles = page.getByRole('img', { name: /^Circle construction/ });
    expect(await circles.locator('circle.trial-run').count()).toBe(3);
    const card = page.locator('section[aria-labelledby="runs-title"]');
    expect(await card.innerText()).toMatch(/Add \d+ mg [^]*42° past the mark/);

    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => circles.count()).toBe(0);
    expect(await card.innerText()).toContain('One run has no vibration yet');
    expect(problems).toEqual([]);
  });
});
