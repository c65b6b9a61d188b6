import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { wavFile, synthesize } from '../../src/sound/synthesis.ts';
import { assess } from '../../src/assess/assess.ts';
import { demoProject } from '../../src/app/state/examples.ts';
import { standUp, toStage, type Stand } from './stand.ts';

let stand: Stand;
beforeAll(async () => {
  stand = await standUp();
});
afterAll(() => stand.close());

describe('sound', () => {
  it('says the level, compares with the open rotor at equal thrust, plays both, ranks counts and takes one', async () => {
    const { page, problems } = await stand.open();
    await toStage(page, 'Sound');
    const card = page.locator('section[aria-labelledby="sound-title"]');
    expect(await card.innerText()).toMatch(/dB\(A\) \(\d+ to \d+\) at 3 m over hard ground/);
    expect(await card.innerText()).toContain('the local ones hold');
    await page.getByRole('button', { name: 'Compare', exact: true }).click();
    const versus = page.locator('section[aria-labelledby="versus-title"]');
    await expect.poll(() => versus.innerText(), { timeout: 20_000 }).toMatch(/At the same [\d.]+ N/);
    expect(await versus.innerText()).toContain('A synthesis from predicted levels, not a recording');
    await versus.getByRole('button', { name: /^Listen to a synthesis of the open rotor/ }).click();
    await versus.getByRole('button', { name: 'Stop' }).click({ timeout: 20_000 });

    await page.getByRole('button', { name: 'Rank the counts' }).click();
    const counts = page.locator('section[aria-labelledby="counts-title"]');
    await expect.poll(() => counts.innerText(), { timeout: 20_000 }).toMatch(/Ranked first|rank first/);
    await counts
      .getByRole('button', { name: /^Take / })
      .first()
      .click();
    await expect.poll(() => counts.innerText()).toContain('The project has changed since.');
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => counts.innerText()).not.toContain('The project has changed since.');
    expect(problems).toEqual([]);
  });

  it('hears the tones of a recording', async () => {
    const { page, problems } = await stand.open();
    await toStage(page, 'Sound');
    const project = demoProject();
    const { hover } = assess(project).sound;
    const bytes = wavFile(synthesize(hover!, 1, 4), 'test');
    const file = { name: 'hover.wav', mimeType: 'audio/wav', buffer: Buffer.from(bytes) };
    await page.locator('input[aria-label="First recording"]').setInputFiles(file);
    const card = page.locator('section[aria-labelledby="recording-title"]');
    await expect
      .poll(() => card.innerText(), { timeout: 20_000 })
      .toContain('Blade tones against the strongest');
    await page.locator('input[aria-label^="Second recording"]').setInputFiles(file);
    await expect.poll(() => card.innerText(), { timeout: 20_000 }).toContain('as loud as before');
    await page
      .locator('input[aria-label="First recording"]')
      .setInputFiles({ name: 'note.wav', mimeType: 'audio/wav', buffer: Buffer.from('no sound') });
    await expect
      .poll(() => card.innerText())
      .toContain('note.wav is no recording that this browser can play');
    expect(problems).toEqual([]);
  });
});
