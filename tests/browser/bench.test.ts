import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { modelOf } from '../../src/assess/model.ts';
import { demoProject } from '../../src/app/state/examples.ts';
import { seededRandom } from '../../src/numerics/random.ts';
import { NOTHING } from '../../src/bench/diagnose/unknowns.ts';
import { SWEEP } from '../../src/bench/synthetic/cases.ts';
import { syntheticRig } from '../../src/bench/synthetic/rig.ts';
import { DESK, kept, PHONE, standUp, toStage, type Stand } from './stand.ts';

const shots = fileURLToPath(new URL('shots/', import.meta.url));
let stand: Stand;
beforeAll(async () => {
  mkdirSync(shots, { recursive: true });
  stand = await standUp();
});
afterAll(() => stand.close());

/** A sweep of the demo's fan with blades that stand 7 degrees too flat, as the whole model runs it, with the usual noise. */
function sweep(): string[][] {
  const model = modelOf(demoProject());
  const angle = (-7 * Math.PI) / 180;
  const truth = {
    causes: ['angle'] as const,
    u: { ...NOTHING, angle },
    turn: 'right',
    sign: 1,
    lacks: null,
  } as const;
  const { evidence } = syntheticRig(model, truth, { ...SWEEP, jetOnPan: false }, seededRandom(7));
  return evidence.points.map((p) => [
    String(Math.round(100 * p.throttle!)),
    ((1000 * p.thrust) / 9.80665).toFixed(1),
    p.voltage!.toFixed(2),
    p.current!.toFixed(2),
    ((30 * p.omega!) / Math.PI).toFixed(0),
  ]);
}

const table = (rows: string[][]) =>
  [
    'Throttle (%)\tThrust (g)\tVoltage (V)\tCurrent (A)\tSpeed (1/min)',
    '0\t0,0\t\t\t',
    ...rows.map((r) => r.map((c) => c.replace('.', ',')).join('\t')),
    '0\t0,0\t\t\t',
  ].join('\n');

async function begin(page: Page): Promise<void> {
  await toStage(page, 'Bench');
  await page.getByRole('button', { name: 'Start a run', exact: true }).click();
  await page.getByRole('radio', { name: /^Fan pressing down/ }).check();
  const far = page.getByLabel('Exit to pan or table');
  await far.fill('400');
  await far.press('Enter');
}

async function openEntry(page: Page): Promise<void> {
  expect(await page.getByLabel('Scale, g').count()).toBe(0);
  const open = page.getByRole('button', { name: 'All done: open the entry' });
  expect(await open.isDisabled()).toBe(true);
  for (const box of await page.locator('.ticks input').all()) await box.check();
  await open.click();
}

async function pasteTable(page: Page, text: string): Promise<void> {
  await page.getByText('A table of readings').click();
  await page.getByLabel('Pasted table').fill(text);
  await page.getByRole('button', { name: 'Read the pasted table' }).click();
}

const rowsRead = (page: Page) => page.locator('.bench-rows tbody tr').count();

describe('bench', () => {
  it('takes readings by hand with Enter alone, leaves one out, undoes, and keeps them', async () => {
    const { page, problems } = await stand.open({ viewport: PHONE, hasTouch: true });
    await begin(page);
    await openEntry(page);
    const scale = page.getByLabel('Scale, g');
    const throttle = page.getByLabel('Throttle, %');
    await throttle.focus();
    for (const [i, grams] of ['0', '12', '27,5', '46'].entries()) {
      await page.keyboard.press('Enter');
      await page.keyboard.type(grams);
      await page.keyboard.press('Enter');
      await expect.poll(() => rowsRead(page)).toBe(i + 1);
      await expect.poll(() => throttle.evaluate((e) => e === document.activeElement)).toBe(true);
    }
    expect(await throttle.inputValue()).toBe('50');
    await expect.poll(() => page.locator('.bench-entry .reading').count(), { timeout: 20_000 }).toBe(3);

    await scale.fill('much');
    await scale.press('Enter');
    expect(await page.getByRole('alert').innerText()).toContain('Scale is "much"');
    expect(await scale.inputValue()).toBe('much');
    await scale.fill('');

    await page.getByRole('button', { name: 'Leave out' }).nth(1).click();
    await expect.poll(() => page.locator('.bench-entry .reading').count()).toBe(2);
    expect(await rowsRead(page)).toBe(4);
    await page.getByRole('button', { name: /^Undo: left out/ }).click();
    await expect.poll(() => page.locator('.bench-entry .reading').count()).toBe(3);
    await page.getByRole('button', { name: /^Undo: reading 4/ }).click();
    await expect.poll(() => rowsRead(page)).toBe(3);
    await kept(page);
    await page.reload();
    await toStage(page, 'Bench');
    await expect.poll(() => rowsRead(page)).toBe(3);
    expect(problems).toEqual([]);
  });

  it('takes a pasted table with decimal commas, finds the cause, accepts it, undoes, and shows it in the builds', async () => {
    const { page, problems } = await stand.open();
    await begin(page);
    await pasteTable(page, table(sweep()));
    await page.getByRole('button', { name: 'Take 8 readings' }).waitFor();
    expect(await page.getByLabel('What Thrust (g) is').inputValue()).toBe('scale');
    expect(await page.getByLabel('Unit of Speed (1/min)').inputValue()).toBe('rpm');
    await page.getByLabel('What Current (A) is').selectOption('nothing');
    await expect.poll(() => page.getByLabel('What Current (A) is').inputValue()).toBe('nothing');
    await page.getByLabel('What Current (A) is').selectOption('current');
    await page.getByRole('button', { name: 'Take 8 readings' }).click();
    expect(await rowsRead(page)).toBe(8);

    const causes = page.locator('[data-bench="causes"]');
    const first = causes.locator('.causes > li').first();
    await expect.poll(() => first.innerText(), { timeout: 20_000 }).toMatch(/angle/i);
    expect(await page.locator('[data-bench="results"]').innerText()).toMatch(
      /Air side: at equal speed[^]*% \(\d+ to \d+\)[^]*of the predicted thrust/,
    );
    expect(await page.locator('.hover-share').innerText()).toMatch(/% .*of what hover needs/);
    await first.getByRole('button', { name: /^Accept/ }).click();
    await expect
      .poll(() => page.locator('[data-bench="learned"]').innerText())
      .toContain('the next build inherits it');
    // With the cause taken as true there is no shortfall left to explain.
    await expect
      .poll(() => causes.locator('.why').innerText(), { timeout: 20_000 })
      .not.toMatch(/: [1-9]\d % less/);
    await page.screenshot({ path: `${shots}desk-bench-accepted.png`, fullPage: true });
    await page.getByRole('banner').getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => page.locator('[data-bench="learned"]').count()).toBe(0);
    await page.getByRole('banner').getByRole('button', { name: 'Redo' }).click();
    await page.locator('[data-bench="learned"]').waitFor();

    await toStage(page, 'Builds');
    const card = page.locator('section.build').first();
    await expect
      .poll(() => card.innerText(), { timeout: 20_000 })
      .toMatch(/Measured\s+\d[^]*times its weight/);
    expect(await card.innerText()).toContain('With what the bench taught');
    await toStage(page, 'Fan');
    const blades = page.locator('[data-path="fan.bladeCount"]').first();
    await blades.fill('7');
    await blades.press('Enter');
    await toStage(page, 'Builds');
    await page.getByLabel('What changed, and why').first().fill('two blades more');
    await page.getByRole('button', { name: 'Write the design down as a build' }).click();
    await expect.poll(() => page.locator('section.build').count()).toBe(2);
    await page.getByLabel('Second').selectOption({ index: 1 });
    const differ = page.locator('section[aria-labelledby="differ-title"]');
    expect(await differ.innerText()).toContain('fan, bladeCount');
    await kept(page);
    await page.reload();
    await toStage(page, 'Builds');
    await expect.poll(() => page.locator('section.build').count()).toBe(2);
    expect(problems).toEqual([]);
  });

  it('says what a table lacks and keeps a second table as a run of its own', async () => {
    const { page, problems } = await stand.open();
    await begin(page);
    await pasteTable(page, 'hello world');
    await page.getByRole('alert').waitFor();
    expect((await page.getByRole('alert').innerText()).length).toBeGreaterThan(20);
    await page.locator('input[aria-label="Log of readings"]').setInputFiles({
      name: 'stand.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from('throttle (%),thrust (g)\n0,0\n100,60\n'),
    });
    await page.getByRole('button', { name: 'Take 2 readings' }).click();
    await pasteTable(page, 'throttle (%);thrust (g)\n0;0\n50;20,5\n100;61').catch(() => {});
    await page.getByRole('button', { name: 'Take 3 readings' }).click();
    await expect.poll(() => page.getByLabel('Run', { exact: true }).locator('option').count()).toBe(2);
    expect(problems).toEqual([]);
  });
});

describe.each([
  ['desk', DESK],
  ['phone', PHONE],
] as const)('looks on a %s', (place, viewport) => {
  it.each(['light', 'dark'] as const)('bench and builds in %s', async (colorScheme) => {
    const { page, problems } = await stand.open({ viewport, colorScheme, hasTouch: place === 'phone' });
    const look = async (name: string) => {
      await page.screenshot({ path: `${shots}${place}-${colorScheme}-${name}.png`, fullPage: true });
      const wider = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(wider, `${name} is wider than the screen`).toBeLessThanOrEqual(0);
      const { violations } = await new AxeBuilder({ page }).analyze();
      const serious = violations.filter((v) => v.impact === 'serious' || v.impact === 'critical');
      expect(serious.map((v) => `${name}: ${v.help}: ${v.nodes.map((n) => n.html).join(' ')}`)).toEqual([]);
    };
    await toStage(page, 'Bench');
    await look('bench-empty');
    await toStage(page, 'Builds');
    await look('builds-empty');
    await begin(page);
    await look('bench-start');
    await pasteTable(page, table(sweep()));
    await page.getByRole('button', { name: 'Take 8 readings' }).waitFor();
    await look('bench-import');
    await page.getByRole('button', { name: 'Take 8 readings' }).click();
    await openEntry(page);
    await page.getByText('The air exit speed').click();
    await page.getByRole('button', { name: 'Add an exit speed' }).click();
    await page.getByLabel('Exit speed, m/s').fill('14,6');
    await page.getByLabel('Exit speed, m/s').press('Enter');
    await expect
      .poll(() => page.locator('.air-readings').innerText(), { timeout: 20_000 })
      .toMatch(/m\/s expected at/);
    await page.locator('[data-bench="causes"][aria-busy="false"]').waitFor({ timeout: 20_000 });
    await page.locator('.causes > li').first().waitFor({ timeout: 20_000 });
    await look('bench-results');
    await page.locator('.causes > li').first().getByRole('button').click();
    await toStage(page, 'Builds');
    await page.locator('section.build .build-facts', { hasText: 'times its weight' }).waitFor();
    await look('builds');
    expect(problems).toEqual([]);
  });
});
