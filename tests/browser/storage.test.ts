import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { dimension, downloadBy, kept, pull, standUp, verdict, type Stand } from './stand.ts';

const TIP = 'fan.tipDiameter_mm';
let stand: Stand;
beforeAll(async () => {
  stand = await standUp();
});
afterAll(() => stand.close());

describe('storage', () => {
  it('that is closed: said in one sentence, and the work goes on to a file', async () => {
    const { page, problems } = await stand.open({
      before: () => {
        Object.defineProperty(window, 'indexedDB', {
          get: () => ({
            open: () => {
              throw new DOMException('denied', 'SecurityError');
            },
          }),
        });
        Object.defineProperty(window, 'localStorage', {
          get: () => {
            throw new DOMException('denied', 'SecurityError');
          },
        });
      },
    });
    await page.locator('.notice', { hasText: 'does not keep your work' }).waitFor();
    await pull(page, TIP, 0, -20);
    const wider = await dimension(page, TIP);
    await page.getByLabel('Colours').selectOption('dark');
    const file = await downloadBy(page, () => page.getByRole('button', { name: 'Save file' }).click());
    expect(JSON.parse(file.bytes.toString('utf8')).fan.tipDiameter_mm).toBe(wider);
    expect(problems).toEqual([]);
  });

  it('that fills up while working: said, nothing lost, and kept again when there is room', async () => {
    const { page, problems } = await stand.open();
    await page.evaluate(() => {
      const put = IDBObjectStore.prototype.put;
      let full = true;
      Object.assign(window, { makeRoom: () => (full = false) });
      IDBObjectStore.prototype.put = function (...given: Parameters<typeof put>) {
        if (full) throw new DOMException('full', 'QuotaExceededError');
        return put.apply(this, given);
      };
    });
    await pull(page, TIP, 0, -20);
    await page.locator('[data-saved="failed"]').waitFor();
    const wider = await dimension(page, TIP);
    expect(await page.locator('.notice').innerText()).toContain('Nothing is lost while the page is open');
    await page.evaluate(() => (window as unknown as { makeRoom(): void }).makeRoom());
    await page.getByRole('spinbutton', { name: /^Tip diameter/ }).press('ArrowUp');
    await kept(page);
    await page.reload();
    expect(await dimension(page, TIP)).toBeGreaterThan(wider);
    expect(problems).toEqual([]);
  });

  it('that holds what cannot be read: the demo opens and the old text stays', async () => {
    const { page, problems } = await stand.open();
    await pull(page, TIP, 0, -20);
    await kept(page);
    const text = '{"schemaVersion": 1, "name": "torn';
    await page.evaluate(async (torn) => {
      const db = await new Promise<IDBDatabase>((done) => {
        const asked = indexedDB.open('fanwright');
        asked.onsuccess = () => done(asked.result);
      });
      const work = db.transaction('work', 'readwrite');
      work.objectStore('work').put({ text: torn, at: new Date() }, 'current');
      await new Promise((done) => (work.oncomplete = done));
      db.close();
    }, text);
    await page.reload();
    await page.locator('.notice', { hasText: 'could not be read' }).waitFor();
    expect(await verdict(page)).toMatch(/^It lifts/);
    const aside = await page.evaluate(async () => {
      const db = await new Promise<IDBDatabase>((done) => {
        const asked = indexedDB.open('fanwright');
        asked.onsuccess = () => done(asked.result);
      });
      const all = db.transaction('work').objectStore('work').getAll();
      await new Promise((done) => (all.onsuccess = done));
      return (all.result as { text: string }[]).map((kept) => kept.text);
    });
    expect(aside).toContain(text);
    expect(problems).toEqual([]);
  });
});
