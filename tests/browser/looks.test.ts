import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { AxeBuilder } from '@axe-core/playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DESK, PHONE, standUp, toStage, type Stand } from './stand.ts';

const shots = fileURLToPath(new URL('shots/', import.meta.url));
let stand: Stand;
beforeAll(async () => {
  mkdirSync(shots, { recursive: true });
  stand = await standUp();
});
afterAll(() => stand.close());

const stages = ['Brief', 'Make-up', 'Craft', 'Fan', 'Sound', 'Print', 'Balance'] as const;

describe.each([
  ['desk', DESK],
  ['phone', PHONE],
] as const)('on a %s', (place, viewport) => {
  it.each(['light', 'dark'] as const)(
    'every stage in %s: nothing cut off, nothing in the way',
    async (colorScheme) => {
      const { page, problems } = await stand.open({ viewport, colorScheme, hasTouch: place === 'phone' });
      const look = async (name: string) => {
        await page.screenshot({ path: `${shots}${place}-${colorScheme}-${name}.png`, fullPage: true });
        const wider = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        expect(wider, `${name} is wider than the screen`).toBeLessThanOrEqual(0);
        // On a desk the columns scroll, the page does not.
        const longer = await page.evaluate(() => document.documentElement.scrollHeight - innerHeight);
        if (place === 'desk') expect(longer, `${name} is longer than the screen`).toBeLessThanOrEqual(0);
        const { violations } = await new AxeBuilder({ page }).analyze();
        const serious = violations.filter((v) => v.impact === 'serious' || v.impact === 'critical');
        expect(serious.map((v) => `${name}: ${v.help}: ${v.nodes.map((n) => n.html).join(' ')}`)).toEqual([]);
      };
      for (const stage of stages) {
        await toStage(page, stage);
        if (stage === 'Fan') {
          await expect
            .poll(() => page.locator('.solid-note').innerText(), { timeout: 30_000 })
            .toContain('triangles');
          await page.getByRole('button', { name: 'Draw a blade' }).click();
          await page.getByRole('button', { name: 'Use this blade' }).waitFor();
          await page.locator('section[aria-labelledby="entry-card"][aria-busy="false"]').waitFor();
          await page.getByText('What this flow does not know').click();
          await page.mouse.move(0, 0);
          await page.evaluate(() => {
            scrollTo(0, 0);
            document.querySelector('main')?.scrollTo(0, 0);
          });
        }
        if (stage === 'Make-up')
          for (const title of ['Motor from bench readings', 'Motor from its stator size'])
            await page.getByText(title).click();
        if (stage === 'Make-up' || stage === 'Craft')
          await page.locator('.craft-answers[aria-busy="false"]').waitFor({ timeout: 30_000 });
        if (stage === 'Print') {
          await page.getByRole('row', { name: /duct/ }).waitFor({ timeout: 30_000 });
          await page.getByRole('button', { name: 'Read the layers', exact: true }).click();
          await page.getByRole('slider', { name: /^Layer/ }).waitFor({ timeout: 60_000 });
        }
        if (stage === 'Balance') await page.getByRole('button', { name: 'Start with four runs' }).click();
        await look(stage.toLowerCase());
      }
      await page.getByRole('button', { name: 'New' }).click();
      await page.getByRole('heading', { name: 'A new project' }).waitFor();
      await look('new');
      expect(problems).toEqual([]);
    },
  );
});
