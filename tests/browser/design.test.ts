import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { standUp, verdict, type Stand } from './stand.ts';

let stand: Stand;
beforeAll(async () => {
  stand = await standUp();
});
afterAll(() => stand.close());

describe('a blade drawn on request', () => {
  it('is shown beside the one in hand, used as one step, and taken out again', async () => {
    const { page, problems } = await stand.open();
    const card = page.locator('section[aria-labelledby="design-card"]');
    const first = await verdict(page);
    const chord = page.getByLabel('Chord, station 1');
    const drawn = await chord.inputValue();
    await card.getByRole('button', { name: 'Draw a blade' }).press('Enter');
    const use = card.getByRole('button', { name: 'Use this blade' });
    await use.waitFor();
    // Nothing has changed yet.
    expect(await verdict(page)).toBe(first);
    expect(await card.locator('.drawn h4').first().innerText()).toMatch(
      /^5 blades for [\d.]+ N at [\d\u2009\u202f ]+ rpm, 55\s% throttle$/,
    );
    const throttle = card.getByRole('row', { name: /^Hover throttle/ }).getByRole('cell');
    expect(await throttle.nth(1).innerText()).toMatch(/^5[456]\s%$/);
    expect(await throttle.nth(0).innerText()).not.toBe(await throttle.nth(1).innerText());
    const stations = card.getByRole('region', { name: 'Stations of the drawn blade' }).locator('tbody tr');
    expect(await stations.count()).toBeGreaterThanOrEqual(6);
    const newChord = Number(await stations.nth(0).locator('td').nth(0).innerText());

    await use.press('Enter');
    expect(Number(await chord.inputValue())).toBeCloseTo(newChord, 0);
    expect(await verdict(page)).not.toBe(first);
    expect(await page.locator('[data-answer="throttle"] .value').innerText()).toMatch(/^5[456]\s%/);
    await card.getByText('This blade is in the fan now').waitFor();

    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await verdict(page)).toBe(first);
    expect(await chord.inputValue()).toBe(drawn);
    expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);
    // The drawn blade is for this project again.
    expect(await use.isEnabled()).toBe(true);

    // After another change it no longer is.
    await page.getByLabel('Number of blades').first().focus();
    await page.keyboard.press('ArrowUp');
    expect(await use.isDisabled()).toBe(true);
    expect(await card.innerText()).toContain('draw it again to use it');
    expect(problems).toEqual([]);
  });

  it('says why there is none', async () => {
    const { page, problems } = await stand.open();
    const card = page.locator('section[aria-labelledby="design-card"]');
    await card.getByLabel('Speed given by').selectOption('rpm');
    await card.getByRole('button', { name: 'Draw a blade' }).click();
    expect(await card.getByRole('alert').innerText()).toBe(
      'Speed in hover is empty; it takes a number from 10 to 200000 rpm.',
    );
    await card.getByLabel('Speed in hover').fill('3000');
    await card.getByRole('button', { name: 'Draw a blade' }).click();
    const why = card.getByRole('region', { name: 'Why there is no such blade' });
    await why.waitFor();
    expect(await why.innerText()).toMatch(
      /3[ \u2009\u202f]?000 rpm is out of reach of this rotor.*would do\.$/,
    );
    expect(await card.getByRole('button', { name: 'Use this blade' }).count()).toBe(0);
    expect(problems).toEqual([]);
  });
});

describe('the air at one radius', () => {
  it('follows the slider', async () => {
    const { page } = await stand.open();
    const speed = page.locator('.air-at-blade dd').first();
    const at70 = parseFloat(await speed.innerText());
    const slider = page.getByRole('slider', { name: /^Place along the blade/ });
    await slider.press('End');
    const atTip = parseFloat(await speed.innerText());
    expect(await slider.getAttribute('aria-valuetext')).toBe('radius 32.0 mm');
    expect(atTip / at70).toBeCloseTo(32 / 25.35, 1);
  });
});
