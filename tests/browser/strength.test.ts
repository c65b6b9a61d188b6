import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { example } from '../program.ts';
import { standUp, toStage, type Stand } from './stand.ts';

let stand: Stand;
beforeAll(async () => {
  stand = await standUp();
});
afterAll(() => stand.close());

const fields = { mimeType: 'application/json' };

describe('strength and the printed blade', () => {
  it('says the failure speed, stops a rotor past its factor with the safe speed, and undoes', async () => {
    const { page, problems } = await stand.open();
    await toStage(page, 'Fan');
    const card = page.locator('section[aria-labelledby="strength-card"]');
    expect(await card.innerText()).toMatch(/the rotor fails near [\d\s]+ rpm, [\d.]+ times that/);
    const factor = card.getByLabel('Safety factor');
    await factor.fill('12');
    await factor.press('Enter');
    const margin = page.getByRole('complementary');
    await expect.poll(() => margin.innerText()).toMatch(/Do not run this above [\d\s]+ rpm/);
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => margin.innerText()).not.toMatch(/Do not run this above/);
    expect(problems).toEqual([]);
  });

  it('tells where a blade too fine for the nozzle fails, on the Print stage', async () => {
    const file = JSON.parse(readFileSync(example('greenhouse-scout-heavy'), 'utf8')) as {
      project: { fan: { blade: { thickness_ratio: number }[] } };
      fan: { blade: { thickness_ratio: number }[] };
    };
    for (const station of (file.fan ?? file.project.fan).blade) station.thickness_ratio = 0.02;
    const { page, problems } = await stand.open();
    await page
      .getByLabel('Project file to open')
      .setInputFiles({ ...fields, name: 'thin.fanwright.json', buffer: Buffer.from(JSON.stringify(file)) });
    await toStage(page, 'Print');
    const limits = page.locator('section[aria-labelledby="limits-title"]');
    await expect
      .poll(() => limits.innerText())
      .toMatch(/At 10\.5 mm radius and further places nothing of the blade comes out/);
    const card = page.locator('section[aria-labelledby="layers-title"]');
    await card.getByRole('button', { name: 'Read the layers', exact: true }).click();
    const stop = card.locator('li[data-weight="stop"]');
    await stop.first().waitFor({ timeout: 60_000 });
    expect(await stop.first().innerText()).toMatch(
      /Stop\. From [\d.]+ to [\d.]+ mm from the axis the blade is narrower than one line/,
    );
    expect(problems).toEqual([]);
  });
});
