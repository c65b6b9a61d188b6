import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { standUp, verdict, type Stand } from './stand.ts';

let stand: Stand;
beforeAll(async () => {
  stand = await standUp();
});
afterAll(() => stand.close());

declare global {
  interface Window {
    frameTimes: number[];
  }
}

describe('speed', () => {
  it('starts soon and keeps up with a drag', async () => {
    const { page } = await stand.open();
    await page.locator('[data-handle="fan.tipDiameter_mm"]').waitFor();
    const start = await page.evaluate(() => performance.now());
    await page.waitForTimeout(2500);
    await page.evaluate(() => {
      window.frameTimes = [];
      let last = performance.now();
      const tick = (now: number) => {
        window.frameTimes.push(now - last);
        last = now;
        requestAnimationFrame(tick);
      };
      requestAnimationFrame(tick);
    });
    const box = (await page.locator('[data-handle="fan.tipDiameter_mm"]').boundingBox())!;
    const x = box.x + box.width / 2;
    const y = box.y + box.height / 2;
    await page.mouse.move(x, y);
    await page.mouse.down();
    const seen = new Set<string>();
    for (let i = 1; i <= 60; i++) {
      await page.mouse.move(x, y - 0.6 * i);
      if (i % 10 === 0) seen.add(await verdict(page));
    }
    const times = await page.evaluate(() => window.frameTimes.toSorted((a, b) => a - b));
    await page.mouse.up();
    const at = (share: number) =>
      times[Math.min(times.length - 1, Math.floor(share * times.length))].toFixed(1);
    console.log(
      `start to interactive ${start.toFixed(0)} ms; ${times.length} frames of a drag: median ${at(0.5)} ms, nine in ten below ${at(0.9)} ms, longest ${at(1)} ms`,
    );
    // The verdict moves with the drag, not after it.
    expect(seen.size).toBeGreaterThan(3);
    // Wide bounds: machines that test are shared. What was measured is printed above.
    expect(start).toBeLessThan(6000);
    expect(Number(at(0.5))).toBeLessThan(50);
  });
});
