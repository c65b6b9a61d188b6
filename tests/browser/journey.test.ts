import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { dimension, downloadBy, kept, PHONE, pull, standUp, verdict, type Stand } from './stand.ts';

const TIP = 'fan.tipDiameter_mm';
let stand: Stand;
beforeAll(async () => {
  stand = await standUp();
});
afterAll(() => stand.close());

describe('the whole road on the page', () => {
  it('drag, new verdict, undo, reload, save, reopen', async () => {
    const { page, problems } = await stand.open();
    const drawn = await dimension(page, TIP);
    const first = await verdict(page);
    expect(first).toMatch(/^It lifts, with [\d.]+ times its weight \([\d.]+ to [\d.]+\)$/);

    await pull(page, TIP, 0, -30);
    const wider = await dimension(page, TIP);
    expect(wider).toBeGreaterThan(drawn + 4);
    expect(await verdict(page)).not.toBe(first);

    // A drag is one step, however many frames it took.
    await page.keyboard.press('Control+z');
    expect(await dimension(page, TIP)).toBe(drawn);
    expect(await verdict(page)).toBe(first);
    expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);
    await page.keyboard.press('Control+Shift+z');
    expect(await dimension(page, TIP)).toBe(wider);
    const changed = await verdict(page);

    await kept(page);
    await page.reload();
    expect(await dimension(page, TIP)).toBe(wider);
    expect(await verdict(page)).toBe(changed);

    const file = await downloadBy(page, () => page.getByRole('button', { name: 'Save file' }).click());
    expect(file.name).toBe('greenhouse-scout.fanwright.json');
    expect(JSON.parse(file.bytes.toString('utf8')).fan.tipDiameter_mm).toBe(wider);

    await pull(page, TIP, 0, 45);
    expect(await dimension(page, TIP)).toBeLessThan(wider - 4);
    await page
      .getByLabel('Project file to open')
      .setInputFiles({ name: file.name, mimeType: 'application/json', buffer: file.bytes });
    await expect.poll(() => dimension(page, TIP)).toBe(wider);
    expect(await verdict(page)).toBe(changed);
    expect(problems).toEqual([]);
  });

  it('survives a closed tab', async () => {
    const { page } = await stand.open();
    await pull(page, TIP, 0, -20);
    const wider = await dimension(page, TIP);
    await kept(page);
    const context = page.context();
    await page.close();
    const again = await context.newPage();
    await again.goto(stand.address);
    await again.locator(`[data-handle="${TIP}"]`).waitFor();
    expect(await dimension(again, TIP)).toBe(wider);
  });

  it('gives a drag up on Escape', async () => {
    const { page } = await stand.open();
    const drawn = await dimension(page, TIP);
    const box = (await page.locator(`[data-handle="${TIP}"]`).boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x, box.y - 30, { steps: 4 });
    await expect.poll(() => dimension(page, TIP)).toBeGreaterThan(drawn + 2);
    await page.keyboard.press('Escape');
    await page.mouse.move(box.x, box.y - 60, { steps: 4 });
    await page.mouse.up();
    expect(await dimension(page, TIP)).toBe(drawn);
    expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);
  });

  it('takes a drag by finger on a phone', async () => {
    const { page, problems } = await stand.open({ viewport: PHONE, hasTouch: true, isMobile: true });
    const drawn = await dimension(page, TIP);
    const box = (await page.locator(`[data-handle="${TIP}"]`).boundingBox())!;
    const x = box.x + box.width / 2;
    const y = box.y + box.height / 2;
    const finger = await page.context().newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', at: number) =>
      finger.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: type === 'touchEnd' ? [] : [{ x, y: at }],
      });
    await touch('touchStart', y);
    for (let i = 1; i <= 8; i++) await touch('touchMove', y - 3 * i);
    await touch('touchEnd', y - 24);
    await expect.poll(() => dimension(page, TIP)).toBeGreaterThan(drawn + 4);
    expect(await page.evaluate(() => scrollY)).toBe(0);
    expect(problems).toEqual([]);
  });

  it('keeps the colours chosen', async () => {
    const { page } = await stand.open({ colorScheme: 'light' });
    const paper = () => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    const light = await paper();
    await page.getByLabel('Colours').selectOption('dark');
    const dark = await paper();
    expect(dark).not.toBe(light);
    await page.reload();
    await page.getByRole('navigation', { name: 'Stages' }).waitFor();
    expect(await paper()).toBe(dark);
  });

  it('weighs a thicker wall', async () => {
    const { page } = await stand.open();
    const mass = page.locator('[data-answer="mass"] .value');
    const before = await mass.innerText();
    await pull(page, 'fan.duct.wall_mm', 0, -30);
    expect(await dimension(page, 'fan.duct.wall_mm')).toBeGreaterThan(1.2);
    expect(await mass.innerText()).not.toBe(before);
  });

  it('carries out a suggestion as one step', async () => {
    const { page } = await stand.open();
    const first = await verdict(page);
    await page
      .getByRole('button', { name: /^Make this change/ })
      .first()
      .click();
    expect(await verdict(page)).not.toBe(first);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await verdict(page)).toBe(first);
  });
});
