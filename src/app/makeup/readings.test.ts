import { describe, expect, it } from 'vitest';
import { checkReadings, noReadings } from './readings.ts';

const one = {
  ...noReadings,
  resistance_mohm: '190',
  'noLoad.0.voltage_V': '7',
  'noLoad.0.current_A': '0,35',
  'noLoad.0.rpm': '21150',
};
const two = { ...one, 'noLoad.1.voltage_V': '3.5', 'noLoad.1.current_A': '0.27', 'noLoad.1.rpm': '10500' };

describe('checkReadings', () => {
  it('takes one reading or two', () => {
    const single = checkReadings(one);
    const pair = checkReadings(two);
    if (!single.ok || !pair.ok) throw new Error('refused');
    // 21150 rpm over 7 V - 0.35 A * 0.19 ohm
    expect(single.found.motor.velocityConstant_rpmPerV).toBeCloseTo(21150 / (7 - 0.35 * 0.19), 0);
    expect(single.found.constants.noLoadSteady_ratio).toBeNull();
    expect(pair.found.constants.noLoadSteady_ratio?.value).toBeGreaterThan(0.4);
  });

  it('says what is missing in the words of the form', () => {
    const checked = checkReadings({ ...one, 'noLoad.1.voltage_V': '3.5' });
    expect(checked).toMatchObject({
      ok: false,
      wrong: { 'noLoad.1.rpm': 'Speed, second reading is empty; it takes a number from 10 to 500000 rpm.' },
    });
  });

  it('carries the refusals of the core to their places', () => {
    const swapped = checkReadings({ ...two, 'noLoad.1.rpm': '23000' });
    if (swapped.ok) throw new Error('taken');
    expect(swapped.wrong['noLoad.0.rpm']).toContain('Speed, first reading is ');
    expect(JSON.stringify(swapped)).not.toContain('noLoad.0.rpm is');
  });
});
