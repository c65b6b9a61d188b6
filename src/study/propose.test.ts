import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { catalogue } from '../project/catalogue.ts';
import { readProject } from '../project/read.ts';
import { writeProject } from '../project/write.ts';
import { dischargeLimit } from '../drive/battery.ts';
import { geometryFaults } from '../shape/faults.ts';
import { fanOfChoice, widestTip } from './fan-family.ts';
import { propose, type SixAnswers } from './propose.ts';

const part = <K extends keyof typeof catalogue>(
  list: K,
  id: string,
): (typeof catalogue)[K][number]['part'] => {
  const entry = catalogue[list].find((e) => e.id === id);
  if (!entry) throw new Error(`the catalogue has no ${id}`);
  return entry.part;
};
const six = (
  bareMass_g: number,
  motor: string,
  battery: string,
  largestDuctWidth_mm: number,
  more: Partial<SixAnswers> = {},
): SixAnswers => ({
  bareMass_g,
  fanCount: 4,
  motor: part('motors', motor) as SixAnswers['motor'],
  battery: part('batteries', battery) as SixAnswers['battery'],
  largestDuctWidth_mm,
  printer: part('printers', 'printer-filament-040') as SixAnswers['printer'],
  ...more,
});

const closing: [string, SixAnswers][] = [
  ['a 110 g load on 14 mm motors', six(110, 'motor-1404-3800', 'battery-lp-3s-650', 95)],
  [
    'a small craft, fine nozzle',
    six(40, 'motor-1103-8000', 'battery-lp-2s-450', 60, {
      printer: part('printers', 'printer-filament-025') as SixAnswers['printer'],
    }),
  ],
  [
    'a tiny craft in resin, one cell',
    six(20, 'motor-1102-10000', 'battery-hv-1s-450', 55, {
      printer: part('printers', 'printer-resin') as SixAnswers['printer'],
    }),
  ],
  ['two fans', six(150, 'motor-2204-2300', 'battery-lp-4s-1300', 130, { fanCount: 2 })],
  ['six fans and a heavy load', six(2000, 'motor-2207-1750', 'battery-lp-6s-1300', 200, { fanCount: 6 })],
  ['slow motors on round cells', six(100, 'motor-2004-1800', 'battery-li-3s-3000', 120)],
];

describe('propose: a fan that closes', () => {
  for (const [name, answers] of closing)
    it(`${name}: lifts with margin, can be built, overloads nothing, fits the width, in at most 300 fans`, () => {
      const proposal = propose(answers);
      if (!proposal.ok) throw new Error(proposal.why.join('\n'));
      const { project, tried, why } = proposal;
      const { craft, fan } = assess(project);
      expect(craft.thrustToWeight).toBeGreaterThanOrEqual(1.3);
      expect(geometryFaults(project.fan, project.motor)).toEqual([]);
      expect(fan.full.motorCurrent_A).toBeLessThanOrEqual(answers.motor.burstCurrent_A * 1.001);
      expect(fan.full.batteryCurrent_A * answers.fanCount).toBeLessThanOrEqual(
        dischargeLimit(answers.battery) * 1.001,
      );
      expect(fan.hover!.motorCurrent_A).toBeLessThanOrEqual(answers.motor.continuousCurrent_A);
      expect(craft.ductOuterDiameter_mm).toBeLessThanOrEqual(answers.largestDuctWidth_mm);
      expect(tried).toBeGreaterThan(60);
      expect(tried).toBeLessThanOrEqual(300);
      expect(why.length).toBeGreaterThanOrEqual(4);
      const read = readProject(writeProject(project));
      expect(read.ok && read.project).toEqual(project);
      expect(read.ok && read.notes).toEqual([]);
    });

  it('gives the same fan for the same answers', () => {
    expect(propose(closing[0][1])).toEqual(propose(closing[0][1]));
  });

  it('beats a hundred random fans of its family that keep the same limits, in three cases (seed 5)', () => {
    const random = xorshift(5);
    for (const [, answers] of [closing[0], closing[1], closing[3]]) {
      const proposal = propose(answers);
      if (!proposal.ok) throw new Error(proposal.why.join('\n'));
      const { project } = proposal;
      const widest = widestTip(answers.largestDuctWidth_mm, answers.motor, answers.printer);
      let judged = 0;
      let longest = 0;
      for (let i = 0; i < 100; i++) {
        const choice = {
          tipDiameter_mm: widest * (0.65 + 0.35 * random()),
          hubFactor: 1 + 0.2 * random(),
          bladeCount: 3 + Math.floor(4 * random()),
          advanceRatio: 0.2 + 0.9 * random(),
          solidity: 0.15 + 0.4 * random(),
        };
        const fan = fanOfChoice(choice, answers.motor, answers.printer);
        const { craft, fan: points } = assess({ ...project, fan });
        const within =
          geometryFaults(fan, answers.motor).length === 0 &&
          craft.thrustToWeight >= 1.6 &&
          points.full.motorCurrent_A <= answers.motor.burstCurrent_A &&
          points.full.batteryCurrent_A * answers.fanCount <= dischargeLimit(answers.battery);
        if (!within) continue;
        judged++;
        longest = Math.max(longest, craft.hover_min);
      }
      expect(judged).toBeGreaterThan(10);
      expect(assess(project).craft.hover_min).toBeGreaterThan(longest);
    }
  });
});

/** Marsaglia, Xorshift RNGs, J. Stat. Software 8 (2003): numbers from 0 to 1, the same for the same seed. */
function xorshift(seed: number): () => number {
  let state = seed;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

describe('propose: none closes, and why', () => {
  const refused = (answers: SixAnswers) => {
    const proposal = propose(answers);
    if (proposal.ok) throw new Error('it proposes one');
    for (const sentence of proposal.why) expect(sentence).toMatch(/^[A-Z].*[.]$/);
    return { ...proposal, said: proposal.why.join(' ') };
  };

  it('the hub fills the duct', () => {
    const { said, closest } = refused(six(100, 'motor-2207-1750', 'battery-lp-6s-1300', 30));
    expect(said).toMatch(/^The hub fills the duct: a can of 27\.8 mm needs a hub of 28\.2 mm/);
    expect(closest).toBeNull();
  });

  it('the disc is too small for the mass', () => {
    const { said, closest } = refused(six(100, 'motor-2207-1750', 'battery-lp-6s-1300', 45));
    expect(said).toContain('The disc is too small for the mass');
    expect(closest && assess(closest).craft.lifts).toBe(false);
  });

  it('the motor is out of torque', () => {
    const weak = {
      ...part('motors', 'motor-1103-8000'),
      burstCurrent_A: 1.5,
      continuousCurrent_A: 1,
    } as SixAnswers['motor'];
    const { said } = refused(six(300, 'motor-1103-8000', 'battery-lp-3s-1300', 90, { motor: weak }));
    expect(said).toMatch(/out of torque|disc is too small/);
    expect(said).toContain('out of torque');
  });

  it('the battery cannot feed it', () => {
    const thin = { ...part('batteries', 'battery-lp-3s-650'), dischargeLimit_C: 3 } as SixAnswers['battery'];
    const { said } = refused(six(300, 'motor-1404-3800', 'battery-lp-3s-650', 95, { battery: thin }));
    expect(said).toContain('The battery cannot feed it');
  });

  it('the motor turns too slowly, with the mass to take off; that much off does', () => {
    const answers = six(90, 'motor-2004-1800', 'battery-hv-1s-450', 110);
    const { said } = refused(answers);
    expect(said).toContain('The motor turns too slowly here to be loaded');
    const less = Number(/\(([\d.]+) g without fans and battery\)/.exec(said)?.[1]);
    expect(less).toBeGreaterThan(0);
    expect(propose({ ...answers, bareMass_g: less - 1 }).ok).toBe(true);
  });
});
