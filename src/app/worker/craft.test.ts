import { describe, expect, it } from 'vitest';
import { setPath } from '../../project/path.ts';
import { demoProject } from '../state/examples.ts';
import { craftAnswer, driveAnswer } from './craft.ts';

const demo = demoProject();

describe('craftAnswer', () => {
  it('puts the present stand first and shows no stand twice', () => {
    const { stands } = craftAnswer(demo);
    expect(stands[0]).toMatchObject({ fanCount: 4, layout: 'ring', battery: 'middle' });
    const places = stands.map((s) =>
      [s.fanCount, s.battery, s.tilt_deg, s.circle_mm.toFixed(1), s.length_mm.toFixed(1)].join(),
    );
    expect(new Set(places).size).toBe(places.length);
  });

  it('says which side the wind may come from where only one is held', () => {
    const { wind, flying } = craftAnswer(setPath(demo, 'craft.layout', 'row'));
    expect(flying.join(' ')).toContain("can't steer it in pitch");
    expect(wind[0]).toMatch(/^It stands no wind from the front/);
    expect(wind.at(-1)).toMatch(/^From the side a steady wind of [\d.]+ m\/s is the most\.$/);
  });

  it('has an answer for a craft that does not lift', () => {
    const heavy = setPath(demo, 'brief.payload_g', 2000);
    const { battery, flying } = craftAnswer(heavy);
    expect(battery.longest).toBeNull();
    expect(flying.at(-1)).toMatch(/^It does not climb/);
    expect(driveAnswer(heavy).limits.hoverThrottle).toBeNull();
  });

  it('crosses to the page as plain data', () => {
    const answer = { ...craftAnswer(demo), ...driveAnswer(demo) };
    expect(structuredClone(answer)).toEqual(answer);
  });
});
