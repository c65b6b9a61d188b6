import { describe, expect, it } from 'vitest';
import { polarFromCsv } from './polarFile.ts';

describe('polarFromCsv', () => {
  it('keeps points as the project file does, angles as written', () => {
    const read = polarFromCsv('Re,alpha,Cl,Cd\n40000,-2,0.1,0.03\n40000,0.3,0.35,0.028\n40000,4,0.7,0.04\n');
    expect(read).toEqual({
      ok: true,
      polar: [
        { re: 40000, alpha_deg: -2, cl: 0.1, cd: 0.03 },
        { re: 40000, alpha_deg: 0.3, cl: 0.35, cd: 0.028 },
        { re: 40000, alpha_deg: 4, cl: 0.7, cd: 0.04 },
      ],
    });
  });

  it.each([
    ['a missing column', 'Re,alpha,Cl\n1,2,3\n', 'no column for cd'],
    ['too few angles', 'Re,alpha,Cl,Cd\n40000,0,0.1,0.03\n40000,2,0.1,0.03\n', 'three angles'],
    ['a negative drag', 'Re,alpha,Cl,Cd\n4e4,0,0.1,0.03\n4e4,2,0.1,0.03\n4e4,4,0.1,-1\n', 'no section does'],
  ])('says what is wrong: %s', (_, text, why) => {
    const read = polarFromCsv(text);
    expect(read.ok ? '' : read.why).toContain(why);
  });
});
