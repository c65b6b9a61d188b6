import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { kept, standUp, toStage, type Stand } from './stand.ts';

let stand: Stand;
beforeAll(async () => {
  stand = await standUp();
});
afterAll(() => stand.close());

describe('own parts', () => {
  it('are kept on the machine, offered beside the generic ones, taken from a table, and deleted', async () => {
    const { page, problems } = await stand.open();
    await toStage(page, 'Make-up');
    const card = page.locator('section[aria-labelledby="motor-title"]');
    const list = card.getByLabel('Start from a generic motor');
    const mass = card.getByLabel('Mass', { exact: true });
    await card.getByLabel('Name').fill('mine, weighed');
    await card.getByLabel('Name').press('Enter');
    await mass.fill('7.77');
    await mass.press('Enter');
    await card.getByRole('button', { name: 'Keep this motor among my parts' }).click();
    await card.getByRole('button', { name: 'Delete this motor from my parts' }).waitFor();
    await list.selectOption({ label: 'generic outrunner, stator 1204, 5000 rpm/V' });
    expect(await mass.inputValue()).toBe('6.2');
    await kept(page);

    await page.reload();
    await toStage(page, 'Make-up');
    await list.selectOption({ label: 'mine, weighed' });
    expect(await mass.inputValue()).toBe('7.77');
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await mass.inputValue()).toBe('6.2');
    await page.getByRole('button', { name: 'Redo' }).click();
    await card.getByRole('button', { name: 'Delete this motor from my parts' }).press('Enter');
    await card.getByRole('button', { name: 'Keep this motor among my parts' }).waitFor();
    expect(await list.locator('optgroup').count()).toBe(0);
    expect(await mass.inputValue()).toBe('7.77');

    const table = (text: string) => ({ name: 'mine.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
    const head = 'name,resistance_mohm,switchingLoss_ratio,continuousCurrent_A,mass_g\n';
    await page.getByLabel('Table of speed controllers').setInputFiles(table(`${head}board,9,0.04,x,2`));
    await page.locator('.notice', { hasText: 'Line 2, column 4' }).waitFor();
    await page.getByLabel('Table of speed controllers').setInputFiles(table(`${head}board,9,0.04,21,2`));
    await page.locator('.notice', { hasText: '1 of your speed controllers' }).waitFor();
    const controller = page.locator('section[aria-labelledby="controller-title"]');
    await controller.getByLabel('Start from a generic speed controller').selectOption({ label: 'board' });
    expect(await controller.getByLabel('Continuous current').inputValue()).toBe('21');
    expect(problems).toEqual([]);
  });
});
