import { readFileSync } from 'node:fs';
import { unzipSync, strFromU8 } from 'fflate';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { downloadBy, standUp, toStage, verdict, type Stand } from './stand.ts';

const demo = readFileSync(
  new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url),
  'utf8',
);
let stand: Stand;
beforeAll(async () => {
  stand = await standUp();
});
afterAll(() => stand.close());

const give = (page: Page, text: string, name = 'other.fanwright.json') =>
  page
    .getByLabel('Project file to open')
    .setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });

/** Volume [cm3] of a binary STL in millimetres, by the divergence theorem. */
function stlVolume(bytes: Buffer): number {
  let volume = 0;
  for (let i = 0; i < bytes.readUInt32LE(80); i++) {
    const at = (corner: number, axis: number) => bytes.readFloatLE(84 + 50 * i + 12 + 12 * corner + 4 * axis);
    const [a, b, c] = [0, 1, 2].map((k) => [at(k, 0), at(k, 1), at(k, 2)]);
    volume +=
      (a[0] * (b[1] * c[2] - b[2] * c[1]) +
        a[1] * (b[2] * c[0] - b[0] * c[2]) +
        a[2] * (b[0] * c[1] - b[1] * c[0])) /
      6;
  }
  return volume / 1000;
}

describe('files of the parts', () => {
  it('are STL and 3MF of the volume the page states', async () => {
    const { page, problems } = await stand.open();
    await toStage(page, 'Print');
    const row = page.getByRole('row', { name: /rotor, right-hand/ });
    await row.waitFor();
    const stated = Number((await row.getByRole('cell').nth(2).innerText()).replace(' cm³', ''));
    const stl = await downloadBy(page, () =>
      page.getByRole('button', { name: 'Save STL of rotor, right-hand' }).click(),
    );
    expect(stl.name).toBe('greenhouse-scout-rotor-right.stl');
    expect(stl.bytes.length).toBe(84 + 50 * stl.bytes.readUInt32LE(80));
    expect(stl.bytes.readUInt32LE(80)).toBeGreaterThan(1000);
    expect(Math.abs(stlVolume(stl.bytes) / stated - 1)).toBeLessThan(0.005);

    const threeMf = await downloadBy(page, () => page.getByRole('button', { name: /as 3MF/ }).click());
    expect(threeMf.name).toBe('greenhouse-scout-bed-1.3mf');
    const inside = unzipSync(threeMf.bytes);
    const model = strFromU8(inside['3D/3dmodel.model']);
    expect(model).toContain('unit="millimeter"');
    // Three parts and the assembly; the ducts fill the first bed.
    expect(model.match(/<object /g)).toHaveLength(4);
    expect(model.match(/<item /g)).toHaveLength(4);

    const drawing = await downloadBy(page, () =>
      page.getByRole('button', { name: /drawing as PDF/ }).click(),
    );
    expect(drawing.name).toBe('greenhouse-scout-drawing.pdf');
    expect(drawing.bytes.subarray(0, 8).toString('latin1')).toBe('%PDF-1.4');
    const step = await downloadBy(page, () => page.getByRole('button', { name: /as STEP/ }).click());
    expect(step.name).toBe('greenhouse-scout-assembly.step');
    expect(step.bytes.toString('latin1').match(/MANIFOLD_SOLID_BREP\(/g)).toHaveLength(3);
    expect(problems).toEqual([]);
  }, 180_000);

  it('are refused in words where the fan cannot be built', async () => {
    const { page } = await stand.open();
    const broken = JSON.parse(demo);
    broken.fan.duct.length_mm = 12;
    await give(page, JSON.stringify(broken));
    await toStage(page, 'Print');
    await page.locator('.faults').waitFor();
    expect(await page.locator('.faults').innerText()).toContain('longer would do');
    expect(await page.getByRole('button', { name: /as 3MF/ }).isDisabled()).toBe(true);
  });
});

describe('project files', () => {
  it('that cannot be taken are explained, and the project on the page stays', async () => {
    const { page, problems } = await stand.open();
    const first = await verdict(page);
    const bad = JSON.parse(demo);
    bad.fan.bladeCount = 'five';
    bad.motor.mass_g = -4;
    await give(page, JSON.stringify(bad));
    const notice = page.getByRole('status').filter({ hasText: 'other.fanwright.json' });
    await notice.waitFor();
    const said = await notice.innerText();
    expect(said).toContain('the project on the page is unchanged');
    expect(said).toContain('fan.bladeCount');
    expect(said).toContain('motor.mass_g');
    expect(await verdict(page)).toBe(first);
    await give(page, '{"schemaVersion": 1,', 'torn.json');
    await expect.poll(() => page.locator('.notice').innerText()).toContain('line 1');
    expect(problems).toEqual([]);
  });

  it('open when dropped on the page', async () => {
    const { page, problems } = await stand.open();
    const mine = { ...JSON.parse(demo), name: 'Dropped' };
    await page.evaluate((text) => {
      const carried = new DataTransfer();
      carried.items.add(new File([text], 'dropped.fanwright.json', { type: 'application/json' }));
      for (const kind of ['dragover', 'drop'])
        document.body.dispatchEvent(
          new DragEvent(kind, { dataTransfer: carried, bubbles: true, cancelable: true }),
        );
    }, JSON.stringify(mine));
    await expect.poll(() => page.getByLabel('Name of the project').first().inputValue()).toBe('Dropped');
    expect(await page.title()).toBe('Dropped · Fanwright');
    expect(problems).toEqual([]);
  });

  it('keep the keys this program does not know', async () => {
    const { page } = await stand.open();
    const mine = JSON.parse(demo);
    mine.fan.paint = 'green';
    mine.diary = [{ day: 1 }];
    await give(page, JSON.stringify(mine));
    await page.locator('.notice', { hasText: 'paint' }).waitFor();
    await page.getByRole('spinbutton', { name: /^Hub diameter/ }).focus();
    await page.keyboard.press('ArrowUp');
    const saved = await downloadBy(page, () => page.keyboard.press('Control+s'));
    const back = JSON.parse(saved.bytes.toString('utf8'));
    expect(back.fan.paint).toBe('green');
    expect(back.diary).toEqual([{ day: 1 }]);
    expect(back.fan.hubDiameter_mm).toBe(mine.fan.hubDiameter_mm + 0.5);
  });
});
