import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readProject } from '../project/read.ts';
import type { Project } from '../project/schema.ts';
import { countStudy, withCounts } from './blade-vane-count.ts';
import { compareSound, openedProject } from './sound-compare.ts';

const read = readProject(
  readFileSync(new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url)),
);
if (!read.ok) throw new Error('The example does not read.');
const scout = read.project;

describe('comparison at equal thrust', () => {
  it('a craft against itself is no difference, within a narrow interval', () => {
    const { difference_dB } = compareSound(scout, scout);
    expect(difference_dB!.value).toBeCloseTo(0, 9);
    expect(difference_dB!.high).toBeLessThan(12);
    expect(difference_dB!.high - difference_dB!.low).toBeLessThan(
      2 *
        (compareSound(scout, scout).a.at!.overall_dBA.high -
          compareSound(scout, scout).a.at!.overall_dBA.low),
    );
  });

  it('turned round, the sign turns and the interval mirrors', () => {
    const open = { ...openedProject(scout), brief: scout.brief };
    const one = compareSound(scout, open);
    expect(one.a.thrust_N).toBeCloseTo(one.b.thrust_N, 9);
    expect(one.a.at!.rpm).not.toBeCloseTo(one.b.at!.rpm, 0);
    const same = compareSound(open, open).difference_dB!;
    expect(same.value).toBeCloseTo(0, 9);
    // Open rotors have only the hiss in common here; its error mostly falls out of the difference.
    const { low, high } = one.b.at!.overall_dBA;
    expect(same.high - same.low).toBeLessThan(high - low);
  });

  it('errors in common leave the difference: it is surer than two levels that know nothing of each other', () => {
    const other = withCounts(scout, 5, 6);
    const { a, b, difference_dB } = compareSound(scout, other);
    const apart = Math.hypot(
      a.at!.overall_dBA.high - a.at!.overall_dBA.value,
      b.at!.overall_dBA.high - b.at!.overall_dBA.value,
    );
    expect(difference_dB!.high - difference_dB!.value).toBeLessThan(0.8 * apart);
  });

  it('says so where one can’t give the thrust', () => {
    const weak: Project = {
      ...scout,
      fan: { ...scout.fan, blade: scout.fan.blade.map((s) => ({ ...s, angle_deg: -30, camber_ratio: 0 })) },
    };
    const { difference_dB, words } = compareSound(scout, weak, undefined, ['this', 'that']);
    expect(difference_dB).toBe(null);
    expect(words).toEqual([expect.stringMatching(/^that can’t give .* N at any speed/)]);
  });
});

describe('counts of blades and vanes', () => {
  const { choices, words } = countStudy(scout);

  it('ranks by level and power, those that can be built first, and keeps the present one at nought', () => {
    const buildable = choices.filter((c) => c.faults.length === 0);
    expect(choices.slice(0, buildable.length)).toEqual(buildable);
    for (let i = 1; i < buildable.length; i++)
      expect(buildable[i].score).toBeGreaterThanOrEqual(buildable[i - 1].score);
    const present = choices.find((c) => c.present)!;
    expect([present.bladeCount, present.vaneCount, present.score]).toEqual([5, 4, 0]);
    expect(words[0]).toMatch(/ranked first|rank first/i);
  });

  it('equal counts are louder than their neighbours, and the reason is said', () => {
    const at = (b: number, v: number) => choices.find((c) => c.bladeCount === b && c.vaneCount === v)!;
    expect(at(5, 5).change_dB!.value).toBeGreaterThan(at(5, 6).change_dB!.value + 5);
    expect(at(5, 5).travels).toEqual({ harmonic: 1, lobes: 0 });
    expect(at(5, 5).words).toContain('plane wave travels, for 5 is a multiple of 5');
    expect(at(5, 6).words).toContain('No pattern of blades and vanes travels');
  });

  it('what can’t be built or printed is told why', () => {
    const faulty = choices.filter((c) => c.faults.length > 0);
    expect(faulty.length).toBeGreaterThan(0);
    for (const { words: said } of faulty) expect(said).toContain('can’t be built so');
  });

  it('an open rotor has no vanes to count', () => {
    const open = countStudy(openedProject(scout));
    expect(new Set(open.choices.map((c) => c.vaneCount)).size).toBe(1);
    expect(open.choices[0].words).not.toContain('vanes');
  });
});
