import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { kept, pull, standUp, type Stand } from './stand.ts';

const DEMO = new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url);
let stand: Stand;
beforeAll(async () => {
  stand = await standUp();
});
afterAll(() => stand.close());

interface File {
  readonly fan: { kind: string; blade: { angle_deg: number; chord_mm: number }[] };
}

/** Opens the demo with a change made in its file. */
async function openWith(page: Page, change: (file: File) => void): Promise<void> {
  const file = JSON.parse(readFileSync(DEMO, 'utf8')) as File;
  change(file);
  const buffer = Buffer.from(JSON.stringify(file));
  await page
    .getByLabel('Project file to open')
    .setInputFiles({ name: 'changed.fanwright.json', mimeType: 'application/json', buffer });
  await kept(page);
}

const entry = (page: Page) => page.locator('section[aria-labelledby="entry-card"]');
const solved = (page: Page) =>
  page.locator('section[aria-labelledby="entry-card"][aria-busy="false"]').waitFor();
const percentOf = (text: string) => Number(/^(−?[\d.]+)\s%/.exec(text)?.[1].replace('−', '-'));

describe('how the air enters', () => {
  it('is said with its numbers and solved again after an edit', async () => {
    const { page, problems } = await stand.open();
    await solved(page);
    const figure = (name: string) =>
      entry(page).locator('.figures > div').filter({ hasText: name }).locator('dd').innerText();
    const said = (await entry(page).locator('.said').innerText()).replaceAll(/\s+/g, ' ');
    expect(said).toMatch(/The air passes the rotor at [\d.]+ m\/s by the hub and [\d.]+ m\/s by the wall\./);
    expect(said).toMatch(/The air (stays on the lip|lets go [\d.]+ degrees round the lip)/);
    expect(said).toMatch(/A [\d.]+ mm lip/);
    const bySurface = percentOf(await figure('by surface pressure'));
    const byAnnuli = percentOf(await figure('by momentum in the annuli'));
    expect(bySurface).toBeGreaterThan(30);
    expect(bySurface).toBeLessThan(70);
    // The margin says the same of the annuli, and the difference is that of the two.
    const margin = await page.locator('[data-answer="duct"] .value').innerText();
    expect(Math.abs(percentOf(margin) - byAnnuli)).toBeLessThanOrEqual(1);
    const apart = Number.parseFloat(await figure('Difference'));
    expect(Math.abs(apart - (bySurface - byAnnuli))).toBeLessThanOrEqual(1.5);

    const words = await entry(page).locator('.said').innerText();
    await pull(page, 'fan.duct.lipRadius_mm', 30, -30);
    await solved(page);
    await expect.poll(() => entry(page).locator('.said').innerText()).not.toBe(words);
    expect(problems).toEqual([]);
  });

  it('is not there for an open rotor, which the page says', async () => {
    const { page, problems } = await stand.open();
    await openWith(page, (file) => (file.fan.kind = 'open'));
    await solved(page);
    expect(await entry(page).innerText()).toContain('An open rotor has no duct for the air to enter.');
    expect(await entry(page).locator('.figures').count()).toBe(0);
    expect(await page.locator('section[aria-labelledby="compare-card"]').count()).toBe(0);
    expect(problems).toEqual([]);
  });
});

describe('with the duct and without', () => {
  it('compares at equal power and at equal thrust, with why', async () => {
    const { page } = await stand.open();
    const card = page.locator('section[aria-labelledby="compare-card"]');
    const cells = async (name: RegExp) =>
      (await card.getByRole('row', { name }).getByRole('cell').allInnerTexts()).map(Number.parseFloat);
    const [ducted, open] = await cells(/^Thrust at [\d.]+ W/);
    const [power, openPower] = await cells(/^Power at [\d.]+ N/);
    expect(ducted).toBeGreaterThan(open);
    expect(openPower).toBeGreaterThan(power);
    const margin = await page.locator('[data-answer="open"] .value').innerText();
    expect(Number.parseFloat(margin)).toBe(open);
    const gain = Math.round(100 * (ducted / open - 1));
    const words = await card.locator('.compare-why').innerText();
    expect(Math.abs(Number(/(\d+)\s% more thrust/.exec(words)?.[1]) - gain)).toBeLessThanOrEqual(1);
  });
});

describe('loading limits', () => {
  it('stand on the blade where they are passed', async () => {
    const { page } = await stand.open();
    expect(await page.locator('.limits text').count()).toBe(0);
    await openWith(page, ({ fan }) => {
      for (const station of fan.blade) {
        station.angle_deg += 20;
        station.chord_mm *= 0.6;
      }
    });
    await expect.poll(() => page.locator('.limits text').allTextContents()).toContain('stall');
    const title = await page.locator('.limits g', { hasText: 'stall' }).locator('title').textContent();
    expect(await page.locator('.remarks').innerText()).toContain(title);
  });
});

describe('what the section is made of', () => {
  it('takes roughness and a measured table, which change the answers, and gives them back', async () => {
    const { page, problems } = await stand.open();
    const shaft = page.locator('#loss-card');
    const first = await shaft.innerText();
    const rough = page.getByLabel('Blade roughness', { exact: true });
    await rough.fill('0.4');
    await rough.press('Enter');
    expect(await shaft.innerText()).not.toBe(first);
    await page.keyboard.press('Control+z');

    const rows = [-10, -5, 0, 5, 10, 15].map((a) => `30000,${a},${(0.5 + 0.08 * a).toFixed(2)},0.09`);
    const take = (text: string) =>
      page
        .getByLabel('Table of measured lift and drag')
        .setInputFiles({ name: 'polar.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
    await take('Re,alpha,Cl\n30000,0,0.1\n');
    expect(await page.locator('.notice').innerText()).toContain('no column for cd');
    expect(await shaft.innerText()).toBe(first);
    await take(`Re,alpha,Cl,Cd\n${rows.join('\n')}\n`);
    await page.getByText('6 points, Re 30 000, in use.').waitFor();
    expect(await shaft.innerText()).not.toBe(first);
    await page.getByRole('button', { name: 'Give up' }).click();
    expect(await shaft.innerText()).toBe(first);
    expect(problems).toEqual([]);
  });

  it('shows the turn of the vanes where they are curved', async () => {
    const { page } = await stand.open();
    const turn = page.getByLabel('Turn of the vanes', { exact: true });
    expect(await turn.count()).toBe(0);
    await page.getByLabel('Curved vanes', { exact: true }).check();
    expect(await turn.inputValue()).not.toBe('');
  });
});
