import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pull, standUp, verdict, type Stand } from './stand.ts';

let stand: Stand;
beforeAll(async () => {
  stand = await standUp();
});
afterAll(() => stand.close());

describe('the solid', () => {
  it('is built, turns, and follows the design', async () => {
    const { page, problems } = await stand.open();
    const canvas = page.locator('.solid canvas');
    const note = page.locator('.solid-note');
    await expect
      .poll(() => note.innerText(), { timeout: 30_000 })
      .toMatch(/Rotor [\d.]+ cm³, duct [\d.]+ cm³/);
    const first = await note.innerText();
    const before = await canvas.screenshot();
    const box = (await canvas.boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2 + 70, box.y + box.height / 2, { steps: 4 });
    await page.mouse.up();
    await expect.poll(async () => (await canvas.screenshot()).equals(before)).toBe(false);
    await pull(page, 'fan.tipDiameter_mm', 0, -30);
    await expect.poll(() => note.innerText(), { timeout: 30_000 }).not.toBe(first);
    expect(problems).toEqual([]);
  });

  it('comes back after a lost graphics context', async () => {
    const { page, problems } = await stand.open({ allow: /Context Lost/i });
    const note = page.locator('.solid-note');
    await expect.poll(() => note.innerText(), { timeout: 30_000 }).toContain('triangles');
    const canvas = page.locator('.solid canvas');
    const before = await canvas.screenshot();
    await page.evaluate(() => {
      const gl = document.querySelector<HTMLCanvasElement>('.solid canvas')!.getContext('webgl2')!;
      const lose = gl.getExtension('WEBGL_lose_context')!;
      lose.loseContext();
      setTimeout(() => lose.restoreContext(), 600);
    });
    await expect.poll(() => note.innerText()).toContain('let go of the picture');
    await expect.poll(() => note.innerText()).toContain('triangles');
    await expect.poll(async () => (await canvas.screenshot()).equals(before), { timeout: 15_000 }).toBe(true);
    expect(problems).toEqual([]);
  });

  it('is missed in one sentence where its kernel does not load, and comes with the next change', async () => {
    const { page, problems } = await stand.open({ allow: /./, holdBack: '**/*.wasm' });
    const note = page.locator('.solid-note');
    await expect.poll(() => note.innerText(), { timeout: 30_000 }).toContain('could not be built this time');
    const first = await verdict(page);
    await page.context().unroute('**/*.wasm');
    await pull(page, 'fan.tipDiameter_mm', 0, -20);
    expect(await verdict(page)).not.toBe(first);
    await expect.poll(() => note.innerText(), { timeout: 30_000 }).toContain('triangles');
    expect(problems).toEqual([]);
  });

  it('says where the fan cannot be built, and is back when it can', async () => {
    const { page, problems } = await stand.open();
    const note = page.locator('.solid-note');
    await page.getByRole('spinbutton', { name: /^Duct length/ }).click();
    await page.locator('.dimension-editor input').fill('12');
    await page.keyboard.press('Enter');
    await expect.poll(() => note.innerText(), { timeout: 30_000 }).toContain('cannot be built as drawn');
    expect(await page.locator('.faults').innerText()).toContain('longer would do');
    await page.keyboard.press('Control+z');
    await expect.poll(() => note.innerText(), { timeout: 30_000 }).toContain('triangles');
    expect(problems).toEqual([]);
  });

  it('is missed in one sentence where there is no WebGL, and the rest works', async () => {
    const { page, problems } = await stand.open({
      before: () => {
        const original = HTMLCanvasElement.prototype.getContext;
        HTMLCanvasElement.prototype.getContext = function (this: HTMLCanvasElement, kind: string) {
          return kind.startsWith('webgl') ? null : Reflect.apply(original, this, [kind]);
        } as typeof original;
      },
    });
    await expect.poll(() => page.locator('.solid-note').innerText()).toContain('WebGL is off');
    const first = await verdict(page);
    await pull(page, 'fan.tipDiameter_mm', 0, -20);
    expect(await verdict(page)).not.toBe(first);
    expect(problems).toEqual([]);
  });
});
