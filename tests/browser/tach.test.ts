import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { makeRecording } from '../../src/bench/tach/recordings.ts';
import { writeWav } from '../../src/bench/tach/wav.ts';
import { PHONE, standUp, toStage, type Stand } from './stand.ts';

const RPM = 14_200;
const folder = mkdtempSync(join(tmpdir(), 'fanwright-tach-'));
const fan = join(folder, 'fan.wav');
writeFileSync(
  fan,
  writeWav(
    makeRecording({
      seed: 4,
      sampleRate: 48_000,
      duration_s: 4,
      fans: [{ rpm: () => RPM, blades: 5 }],
      noise_dB: 0,
      hum: { mains_Hz: 50, level_dB: 0 },
    }),
    48_000,
  ),
);

let stand: Stand;
beforeAll(async () => {
  // Chromium plays the file in place of a microphone.
  stand = await standUp([
    '--use-fake-device-for-media-stream',
    '--use-fake-ui-for-media-stream',
    `--use-file-for-fake-audio-capture=${fan}`,
  ]);
});
afterAll(async () => {
  await stand.close();
  rmSync(folder, { recursive: true });
});

const shown = async (page: Page) =>
  Number((await page.locator('[data-tach="rpm"]').innerText()).replaceAll(/\D/g, ''));
const near = (rpm: number) => Math.abs(rpm / RPM - 1) < 0.005;

async function bench(page: Page, blades: string): Promise<void> {
  await toStage(page, 'Bench');
  await page.getByLabel('Blades', { exact: true }).fill(blades);
  await page.getByLabel('Blades', { exact: true }).press('Enter');
}

it('reads the speed live from the microphone, and once more from the whole take', async () => {
  const { page, problems } = await stand.open({ viewport: PHONE, permissions: ['microphone'] });
  await bench(page, '5');
  await page.getByRole('button', { name: 'Listen with the microphone' }).click();
  await page.locator('[data-tach="rpm"]').waitFor();
  await expect.poll(async () => near(await shown(page)), { timeout: 15_000 }).toBe(true);
  await page.getByRole('button', { name: 'Stop and read the whole take' }).click();
  await page.locator('.tach-track').waitFor();
  expect(near(await shown(page))).toBe(true);
  expect(await page.locator('.tach-words').innerText()).toContain('5 blades sound at');
  expect(problems).toEqual([]);
});

it('reads a recording, again when another blade count is given, and refuses what is no sound', async () => {
  const { page, problems } = await stand.open();
  await bench(page, '5');
  await page.getByLabel('Recording of the fan').setInputFiles(fan);
  await page.locator('.tach-track').waitFor();
  expect(near(await shown(page))).toBe(true);
  const said = await page.locator('.tach-words').innerText();
  await page.getByLabel('Blades', { exact: true }).fill('40');
  await page.getByLabel('Blades', { exact: true }).press('Enter');
  expect(await page.locator('.tach-field [role=alert]').innerText()).toBe('A whole number from 1 to 20.');
  await page.getByLabel('Blades', { exact: true }).fill('10');
  await page.getByLabel('Blades', { exact: true }).press('Enter');
  await expect.poll(() => page.locator('.tach').innerText()).not.toContain(said);
  await page.getByLabel('Recording of the fan').setInputFiles({
    name: 'notes.txt',
    mimeType: 'text/plain',
    buffer: Buffer.from('no sound'),
  });
  await page.locator('.tach > [role=alert]').waitFor();
  expect(await page.locator('.tach > [role=alert]').innerText()).toBe(
    'notes.txt holds no sound this browser can play; save it as WAV, or record it again.',
  );
  expect(problems).toEqual([]);
});

it('says what to do when the microphone is not allowed', async () => {
  const { page } = await stand.open({
    before: () => {
      navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('no', 'NotAllowedError'));
    },
  });
  await bench(page, '5');
  await page.getByRole('button', { name: 'Listen with the microphone' }).click();
  await page.locator('.tach > [role=alert]').waitFor();
  expect(await page.locator('.tach > [role=alert]').innerText()).toContain('allow it for this page');
  expect(await page.getByRole('button', { name: 'Listen with the microphone' }).isEnabled()).toBe(true);
});
