import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { dimension, standUp, verdict, type Stand } from './stand.ts';

let stand: Stand;
beforeAll(async () => {
  stand = await standUp();
});
afterAll(() => stand.close());

describe('a new project', () => {
  it('from six questions: a fan that closes', async () => {
    const { page, problems } = await stand.open();
    const demo = await dimension(page, 'fan.tipDiameter_mm');
    await page.getByRole('button', { name: 'New' }).click();
    await page.getByLabel('Mass without fans and battery').fill('90');
    await page.getByLabel('Largest outer width of one duct').fill('95');
    await page.getByRole('button', { name: 'Propose a fan' }).click();
    await page.getByRole('heading', { name: /This fan closes/ }).waitFor();
    expect(await page.locator('.proposal li').count()).toBeGreaterThan(2);
    await page.getByRole('button', { name: 'Take this design' }).click();
    expect(await verdict(page)).toMatch(/^It lifts/);
    const outer = await page.locator('.dimension.derived text').textContent();
    expect(Number(/[\d.]+/.exec(outer ?? '')?.[0])).toBeLessThanOrEqual(95);
    await page.keyboard.press('Control+z');
    expect(await dimension(page, 'fan.tipDiameter_mm')).toBe(demo);
    expect(problems).toEqual([]);
  });

  it('from six questions: the reasons why none closes', async () => {
    const { page, problems } = await stand.open();
    await page.getByRole('button', { name: 'New' }).click();
    await page.getByLabel('Mass without fans and battery').fill('4000');
    await page.getByRole('button', { name: 'Propose a fan' }).click();
    await page.getByRole('heading', { name: /No fan closes/ }).waitFor();
    expect(await page.locator('.proposal').innerText()).toContain('times the');
    expect(problems).toEqual([]);
  });

  it('says what is wrong with an answer and keeps it', async () => {
    const { page } = await stand.open();
    await page.getByRole('button', { name: 'New' }).click();
    await page.getByLabel('Number of fans').fill('many');
    await page.getByRole('button', { name: 'Propose a fan' }).click();
    expect(await page.getByRole('alert').innerText()).toContain(
      '"many" is not a number; Number of fans takes a whole number from 1 to 12.',
    );
    expect(await page.getByLabel('Number of fans').inputValue()).toBe('many');
  });

  it('from the demo that does not lift, which it says', async () => {
    const { page, problems } = await stand.open();
    await page.getByRole('button', { name: 'New' }).click();
    await page.getByRole('button', { name: 'The demo that does not lift' }).click();
    await expect.poll(() => verdict(page)).toMatch(/does not lift/i);
    await page.getByText('Why: the chain of reasons').click();
    expect(await page.locator('.reasons li').count()).toBeGreaterThan(3);
    expect(problems).toEqual([]);
  });
});
