import { describe, expect, it } from 'vitest';
import { catalogue, motors } from './catalogue.ts';
import { checkValue } from './path.ts';

describe('catalogue', () => {
  const places = {
    motors: 'motor',
    batteries: 'battery',
    controllers: 'controller',
    printers: 'printer',
    materials: 'material',
  };
  for (const [list, place] of Object.entries(places)) {
    it(`every part in ${list} may stand in a project file`, () => {
      for (const { part } of catalogue[list as keyof typeof catalogue]) {
        for (const [key, value] of Object.entries(part))
          expect(checkValue(`${place}.${key}`, value)).toBeNull();
        expect(checkValue(place, part)).toBeNull();
      }
    });
    it(`every part in ${list} has its own id and says where its figures come from`, () => {
      const entries = catalogue[list as keyof typeof catalogue];
      expect(new Set(entries.map((e) => e.id)).size).toBe(entries.length);
      for (const { note } of entries) expect(note).toMatch(/from memory|trade tables/);
    });
  }

  it('motors of like size are alike: torque for the square root of a watt of heat grows with mass', () => {
    // Km = Kt / sqrt(R); for motors of one build it goes about as mass^0.83. The recalled figures stay within 25 %.
    const spread = motors.map(({ part }) => {
      const torqueConstant = 60 / (2 * Math.PI * part.velocityConstant_rpmPerV);
      return torqueConstant / Math.sqrt(part.resistance_mohm / 1000) / (part.mass_g / 9) ** 0.83;
    });
    const middle = [...spread].sort((a, b) => a - b)[Math.floor(spread.length / 2)];
    for (const value of spread) expect(Math.abs(value / middle - 1)).toBeLessThan(0.25);
  });
});
