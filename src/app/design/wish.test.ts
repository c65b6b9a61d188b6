import { describe, expect, it } from 'vitest';
import { checkWish, firstWish } from './wish.ts';

describe('checkWish', () => {
  it('takes the first wish: 55 % throttle, the blades of the fan, lift left free', () => {
    expect(checkWish(firstWish, 5)).toEqual({
      ok: true,
      wish: { loading: 'printable', throttle: 0.55, bladeCount: 5 },
    });
  });

  it('takes rpm in place of the throttle, and a decimal comma', () => {
    const typed = { ...firstWish, speedBy: 'rpm', rpm: '15000', blades: '7', lift: '0,6' } as const;
    expect(checkWish(typed, 5)).toEqual({
      ok: true,
      wish: { loading: 'printable', rpm: 15000, bladeCount: 7, lift: 0.6 },
    });
  });

  it('says what is wrong with each number and reads only the speed that is asked for', () => {
    const checked = checkWish({ ...firstWish, throttle: '0', rpm: 'x', blades: '2.5', lift: '9' }, 5);
    expect(checked).toMatchObject({
      ok: false,
      wrong: {
        throttle: 'Throttle in hover takes a number from 5 to 100 %; 0 lies outside.',
        blades: expect.stringContaining('2.5'),
        lift: expect.stringContaining('0.05 to 3'),
      },
    });
    expect(checked.ok ? {} : checked.wrong).not.toHaveProperty('rpm');
  });
});
