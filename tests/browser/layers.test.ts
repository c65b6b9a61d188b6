import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { standUp, toStage, type Stand } from './stand.ts';

let stand: Stand;
beforeAll(async () => {
  stand = await standUp();
});
afterAll(() => stand.close());

describe('layers', () => {
  it('reads the set, scrubs, shows a finding, lays a part and takes it back', async () => {
    const { page, problems } = await stand.open();
    await toStage(page, 'Print');
    const card = page.locator('section[aria-labelledby="layers-title"]');
    await card.getByRole('button', { name: 'Read the layers', exact: true }).click();
    const slider = card.getByRole('slider', { name: 'Layer, from the bed up' });
    await slider.waitFor({ timeout: 60_000 });
    const drawing = card.getByRole('img', { name: /^The rotor.* cut at .* mm height: [1-9]/ });
    await drawing.waitFor();
    const before = await drawing.locator('.layer-outline').getAttribute('d');
    await slider.focus();
    for (let i = 0; i < 30; i++) await page.keyboard.press('ArrowRight');
    expect(await card.innerText()).toMatch(/Layer 31 of \d+/);
    await expect.poll(() => drawing.locator('.layer-outline').getAttribute('d')).not.toBe(before);
    const find = card.getByRole('button', { name: /^Show the layer: .*narrower than one line/ }).first();
    await find.click();
    await expect.poll(() => drawing.getAttribute('aria-label')).toMatch(/[1-9]\d* places? lost/);

    await card.getByRole('combobox', { name: 'Part' }).selectOption({ label: 'duct' });
    const over = card.getByRole('button', { name: 'Lay the duct upstream side down' });
    await over.click();
    expect(await card.innerText()).toContain('read it again');
    expect(await card.getByRole('button', { name: 'Lay it as usual again' }).count()).toBe(1);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await card.innerText()).not.toContain('read it again');
    expect(await card.getByRole('button', { name: 'Lay it as usual again' }).count()).toBe(0);

    await card.getByRole('button', { name: 'Compare ways to divide it' }).click();
    await card.getByText(/^Making /).waitFor();
    await card.getByText(/^Lip apart from the duct: prints (better|worse|about as well)/).waitFor();
    // A part chosen since is drawn: the worker still has the set.
    await card.getByRole('combobox', { name: 'Part' }).selectOption({ label: 'rotor, left-hand' });
    await card.getByRole('img', { name: /^The rotor, left-hand cut at .* mm height: [1-9]/ }).waitFor();
    expect(problems).toEqual([]);
  });

  it('stops when told to, keeps the page awake meanwhile, and answers what the printer can do', async () => {
    const { page, problems } = await stand.open();
    await toStage(page, 'Print');
    // Fine layers, so that there is time to stop.
    const layer = page.getByLabel(/^Layer height/);
    await layer.fill('0.02');
    await layer.press('Enter');
    const card = page.locator('section[aria-labelledby="layers-title"]');
    await card.getByRole('button', { name: 'Read the layers', exact: true }).click();
    await card.getByText(/^Reading (rotor|duct)/).waitFor({ timeout: 60_000 });
    const late = await page.evaluate(
      () =>
        new Promise<number>((done) => {
          let worst = 0;
          let last = performance.now();
          const end = last + 300;
          const tick = () => {
            const now = performance.now();
            worst = Math.max(worst, now - last);
            last = now;
            if (now < end) setTimeout(tick);
            else done(worst);
          };
          tick();
        }),
    );
    expect(late).toBeLessThan(250);
    await card.getByRole('button', { name: 'Stop' }).click();
    await card.getByText('Stopped; nothing of this reading is kept.').waitFor();
    expect(await card.getByRole('slider').count()).toBe(0);
    const limits = page.locator('section[aria-labelledby="limits-title"]');
    await expect
      .poll(() => limits.innerText(), { timeout: 20_000 })
      .toMatch(/tip diameter fans|smallest tried/);
    expect(await limits.innerText()).toContain('thinnest blade this printer makes');
    expect(problems).toEqual([]);
  });
});
