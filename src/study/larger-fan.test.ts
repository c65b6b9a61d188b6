import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { assess } from '../assess/assess.ts';
import { projectSchema, type Project } from '../project/schema.ts';
import { largerFan } from './larger-fan.ts';
import { scaledFan } from './tried.ts';

const read = (name: string): Project =>
  projectSchema.parse(
    JSON.parse(
      readFileSync(
        new URL(`../../examples/greenhouse-scout/${name}.fanwright.json`, import.meta.url),
        'utf8',
      ),
    ),
  );
const demo = read('greenhouse-scout');
const heavy = read('greenhouse-scout-heavy');

describe('a larger fan on the same motor', () => {
  const answer = largerFan(demo);

  test('the drawn size is what assess says of the project', () => {
    const { craft, fan } = assess(demo);
    expect(answer.drawn.thrustToWeight / craft.thrustToWeight).toBeCloseTo(1, 2);
    expect(answer.drawn.hover_min / craft.hover_min).toBeCloseTo(1, 1.5);
    expect(answer.drawn.fullCurrent_A / fan.full.motorCurrent_A).toBeCloseTo(1, 2);
    expect(answer.drawn.mass_g).toBeCloseTo(craft.mass_g, 9);
  });
  test('along the size the current grows and the hover throttle falls, and the sizes lie in order', () => {
    for (let i = 1; i < answer.sizes.length; i++) {
      const [before, after] = [answer.sizes[i - 1], answer.sizes[i]];
      expect(after.tipDiameter_mm).toBeGreaterThan(before.tipDiameter_mm);
      expect(after.fullCurrent_A).toBeGreaterThan(before.fullCurrent_A);
      expect(after.usableThrustToWeight).toBeLessThanOrEqual(after.thrustToWeight + 1e-9);
    }
  });
  test('the largest it can handle breaks nothing, one a little larger does', () => {
    const { largest } = answer;
    expect(largest!.breaks).toBeNull();
    const ratio = largest!.tipDiameter_mm / demo.fan.tipDiameter_mm;
    const beyond = largerFan(
      { ...demo, fan: scaledFan(demo.fan, ratio * 1.02 * demo.fan.tipDiameter_mm) },
      { sizes: 2 },
    ).drawn;
    expect(beyond.breaks).not.toBeNull();
    expect(answer.words[0]).toMatch(/^Yes: this motor can handle a fan up to [\d.]+ mm/);
    expect(answer.words.join(' ')).toMatch(/gives way: 9\.00 A is passed at full throttle/);
  });
  test('a motor that stands less can handle less, down to none', () => {
    const weaker = (burst: number) =>
      largerFan(
        { ...demo, motor: { ...demo.motor, continuousCurrent_A: burst, burstCurrent_A: burst } },
        { sizes: 7 },
      );
    expect(weaker(5).largest!.tipDiameter_mm).toBeLessThan(answer.largest!.tipDiameter_mm);
    const none = weaker(1);
    expect(none.largest).toBeNull();
    expect(none.words[0]).toMatch(/^No: between/);
  });
  test('a rotor that stands little speed is the limit named, and a larger one stands less', () => {
    const { largest, sizes } = largerFan(demo, { strengthLimit_rpm: 20_000, sizes: 6 });
    expect(sizes.some((s) => s.binding?.kind === 'rotor strength')).toBe(true);
    const limits = sizes.flatMap((s) => (s.binding?.kind === 'rotor strength' ? [s.binding.limit] : []));
    expect([...limits].sort((a, b) => b - a)).toEqual(limits);
    expect(largest === null || largest.breaks === null).toBe(true);
  });
  test('the heavy craft that does not lift would at a larger size', () => {
    const { drawn, largest, words } = largerFan(heavy, { sizes: 6 });
    expect(drawn.lifts).toBe(false);
    expect(largest!.lifts).toBe(true);
    expect(words.join(' ')).toMatch(/no hover as drawn/);
    expect(words.join(' ')).toMatch(/you allow 64\.0 mm/);
  });
  test('a craft no size can lift is told so', () => {
    const { largest, words } = largerFan(
      { ...demo, brief: { ...demo.brief, payload_g: 3000 } },
      { sizes: 4 },
    );
    expect(largest).toBeNull();
    expect(words[0]).toMatch(/no size lifts the craft; this motor and battery are too weak/);
  });
  test('what the air sets is scaled, what motor and printer set stays', () => {
    const { fan } = demo;
    const at = (ratio: number) => scaledFan(fan, ratio * fan.tipDiameter_mm);
    const [wide, small] = [at(1.5), at(0.7)];
    for (const f of [wide, small]) {
      const ratio = f.tipDiameter_mm / fan.tipDiameter_mm;
      expect(f.blade[1].chord_mm).toBeCloseTo(ratio * fan.blade[1].chord_mm, 12);
      expect(f.duct.lipRadius_mm).toBeCloseTo(ratio * fan.duct.lipRadius_mm, 12);
      expect([f.hubDiameter_mm, f.duct.wall_mm, f.stator]).toEqual([
        fan.hubDiameter_mm,
        fan.duct.wall_mm,
        fan.stator,
      ]);
    }
    expect(wide.tipGap_mm).toBeCloseTo(1.5 * fan.tipGap_mm, 12);
    expect(small.tipGap_mm).toBe(fan.tipGap_mm);
    // The room under the rotor, where motor and struts are: what the duct has beyond lip, rotor depth and half the hub.
    const under = (f: typeof fan) =>
      f.duct.length_mm - f.duct.lipRadius_mm - f.duct.rotorDepth_mm - f.hubHeight_mm / 2;
    expect(under(wide)).toBeCloseTo(under(fan), 9);
    expect(under(small)).toBeCloseTo(under(fan), 9);
    expect(at(1)).toEqual(fan);
  });
});
