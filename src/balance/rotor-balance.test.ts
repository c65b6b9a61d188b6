import { describe, expect, it } from 'vitest';
import { demo } from '../../tests/demo.ts';
import type { Project } from '../project/schema.ts';
import { printedVolumes } from '../shape/volumes.ts';
import { benchAnswer } from './bench.ts';
import { gmmFromKilogramMetres } from './grade.ts';
import { printMany } from './monte-carlo.ts';
import { rotorBalance, rotorScatterOf } from './rotor-balance.ts';
import { expectedSpread } from './scatter.ts';
import { chanceWithin, errorFunction, meanSize, sizeQuantile } from './spread.ts';

const AT_WORK = { hover_rpm: 20_000, full_rpm: 30_000, craftMass_g: 250 };

const changed = (fan: Partial<Project['fan']>, more: Partial<Project> = {}): Project => ({
  ...demo,
  ...more,
  fan: { ...demo.fan, ...fan },
});

const volumesOf = (project: Project) => printedVolumes(project.fan, project.motor);
const balanceOf = (project: Project) => rotorBalance(project, volumesOf(project), AT_WORK);

describe('spreads', () => {
  it('has the error function of the tables', () => {
    // Abramowitz and Stegun, table 7.1
    expect(errorFunction(0.5)).toBeCloseTo(0.5204998778, 10);
    expect(errorFunction(1)).toBeCloseTo(0.8427007929, 10);
    expect(errorFunction(-2)).toBeCloseTo(-0.995322265, 10);
    expect(errorFunction(7)).toBe(1);
  });
  it('goes from Rayleigh to one-sided without a step', () => {
    const round = { major: 2, minor: 2 };
    expect(chanceWithin(round, 3)).toBeCloseTo(1 - Math.exp(-9 / 8), 12);
    expect(chanceWithin({ major: 2, minor: 2 * (1 - 1e-6) }, 3)).toBeCloseTo(chanceWithin(round, 3), 5);
    expect(chanceWithin({ major: 2, minor: 1e-3 }, 3)).toBeCloseTo(errorFunction(3 / (2 * Math.SQRT2)), 4);
    expect(meanSize(round)).toBeCloseTo(2 * Math.sqrt(Math.PI / 2), 12);
    expect(meanSize({ major: 2, minor: 0 })).toBeCloseTo(2 * Math.sqrt(2 / Math.PI), 12);
    expect(chanceWithin({ major: 2, minor: 0.7 }, 1000)).toBeCloseTo(1, 6);
    for (const minor of [2, 1.3, 0.2, 0.01]) {
      const spread = { major: 2, minor };
      for (const chance of [0.05, 0.5, 0.95])
        expect(chanceWithin(spread, sizeQuantile(spread, chance))).toBeCloseTo(chance, 6);
    }
  });
});

describe('printed rotors', () => {
  it.each([
    ['one piece', changed({ rotorParts: 'one piece' })],
    ['blades apart', changed({ rotorParts: 'blades apart' })],
    ['blades apart, lying', changed({ rotorParts: 'blades apart', bladesPrinted: 'lying' })],
    ['two blades', changed({ bladeCount: 2, rotorParts: 'one piece' })],
    ['two blades apart', changed({ bladeCount: 2, rotorParts: 'blades apart' })],
    ['resin, three blades', changed({ bladeCount: 3 }, { printer: { ...demo.printer, process: 'resin' } })],
  ])('the closed form agrees with many rotors added up: %s', (_, project) => {
    const rotor = rotorScatterOf(project, volumesOf(project));
    const spread = expectedSpread(rotor);
    const limit = sizeQuantile(spread, 0.3);
    const many = printMany(rotor, limit, 40_000, 20_261);
    // Standard errors: 0.3 % of the mean, 0.0023 of the share; three of each, and what is second order in the scatter.
    expect(many.mean / meanSize(spread)).toBeGreaterThan(0.985);
    expect(many.mean / meanSize(spread)).toBeLessThan(1.015);
    expect(many.low / sizeQuantile(spread, 0.05)).toBeCloseTo(1, 1);
    expect(many.high / sizeQuantile(spread, 0.95)).toBeGreaterThan(0.98);
    expect(many.high / sizeQuantile(spread, 0.95)).toBeLessThan(1.02);
    expect(Math.abs(many.within - 0.3)).toBeLessThan(0.01);
    expect(printMany(rotor, limit, 500, 1)).toEqual(printMany(rotor, limit, 500, 1));
  });

  it('takes masses from the volumes, and counts the gain of a section over the blade', () => {
    const rotor = rotorScatterOf(demo, volumesOf(demo));
    const volumes = volumesOf(demo);
    const density = demo.material.density_kgpm3;
    expect(rotor.rotorMass).toBeCloseTo(volumes.rotor * density, 15);
    expect(rotor.bladeMass * demo.fan.bladeCount).toBeCloseTo(volumes.blades * density, 15);
    expect(rotor.bladeRadius).toBeGreaterThan(demo.fan.hubDiameter_mm / 2000);
    expect(rotor.bladeRadius).toBeLessThan(demo.fan.tipDiameter_mm / 2000);
    // A plate upright in the print, chord 10 mm, thickness 1 mm, 20 mm long: both broad sides gain, and with blades apart the edges too.
    const plate = (
      rotorParts: 'one piece' | 'blades apart',
      bladesPrinted: 'standing' | 'lying' = 'standing',
    ) => {
      const project = changed({
        rotorParts,
        bladesPrinted,
        tipDiameter_mm: 60,
        hubDiameter_mm: 20,
        section: { ...demo.fan.section, family: 'flat-plate', trailingEdge_mm: 1 },
        blade: [{ span_ratio: 0, chord_mm: 10, angle_deg: 90, thickness_ratio: 0.1, camber_ratio: 0 }],
      });
      return rotorScatterOf(project, volumesOf(project)).massPerOffset / density;
    };
    expect(plate('one piece')).toBeCloseTo(2 * 0.01 * 0.02, 8);
    expect(plate('blades apart')).toBeGreaterThan(2 * 0.01 * 0.02 * 0.98);
    expect(plate('blades apart')).toBeLessThan(2 * 0.011 * 0.02 * 1.01);
    expect(plate('blades apart', 'lying')).toBeCloseTo(2 * 0.001 * 0.02, 8);
  });

  it('lets the layers of a blade average out', () => {
    const fine = rotorScatterOf(demo, volumesOf(demo));
    const coarse = rotorScatterOf(
      { ...demo, printer: { ...demo.printer, layer_mm: demo.printer.layer_mm * 4 } },
      volumesOf(demo),
    );
    expect(coarse.offset / fine.offset).toBeCloseTo(2, 6);
    expect(fine.bore).toBeCloseTo(demo.printer.xyScatter_mm / 1000, 12);
  });

  it('answers with what the grade permits and the force', () => {
    const answer = balanceOf(demo);
    const { rotorMass_g, expected_gmm, permissible_gmm } = answer;
    expect(permissible_gmm).toBeCloseTo((rotorMass_g * 16) / (30_000 * (Math.PI / 30)), 9);
    expect(answer.permissibleAtHover_gmm).toBeCloseTo(permissible_gmm * 1.5, 9);
    expect(expected_gmm.low).toBeLessThan(expected_gmm.value);
    expect(expected_gmm.high).toBeGreaterThan(expected_gmm.value);
    const force_N = expected_gmm.value * 1e-6 * (20_000 * (Math.PI / 30)) ** 2;
    expect(answer.shakingAtHover_g!.value).toBeCloseTo((force_N / 9.80665) * 1000, 6);
    expect(answer.shakingShare).toBeCloseTo(answer.shakingAtHover_g!.value / 250, 12);
    expect(answer.grades.map((g) => g.passChance)).toEqual(
      answer.grades.map((g) => g.passChance).toSorted((a, b) => a - b),
    );
    const spread = expectedSpread(rotorScatterOf(demo, volumesOf(demo)));
    expect(expected_gmm.value).toBeCloseTo(gmmFromKilogramMetres(meanSize(spread)), 12);
    expect(answer.words.join(' ')).toContain('Not in it');
  });

  it('stands a printer without scatter, a rotor at rest, no hover and one blade', () => {
    const exact = balanceOf(changed({}, { printer: { ...demo.printer, xyScatter_mm: 0 } }));
    expect(exact.passChance).toBeGreaterThan(balanceOf(demo).passChance);
    const rest = rotorBalance(demo, volumesOf(demo), { hover_rpm: null, full_rpm: 0, craftMass_g: 250 });
    expect(rest.passChance).toBe(1);
    expect(rest.shakingAtHover_g).toBeNull();
    expect(rest.words.join(' ')).not.toContain('unlimited');
    expect(balanceOf(changed({ bladeCount: 1 })).words.join(' ')).toContain('counterweight');
  });
});

describe('the bench', () => {
  const withBalance = (balance: Partial<Project['balance']>, fan: Partial<Project['fan']> = {}): Project =>
    changed(fan, { balance: { ...demo.balance, ...balance } });
  const bench = (project: Project) => benchAnswer(project, balanceOf(project));
  const masses = (count: number) => Array.from({ length: count }, (_, i) => 0.5 + 0.01 * ((i * 7) % 5));

  it('orders weighed blades and says what is left', () => {
    const count = demo.fan.bladeCount;
    const { order, orderFault, workshop } = bench(
      withBalance({ bladeMasses_g: masses(count) }, { rotorParts: 'blades apart' }),
    );
    expect(orderFault).toBeNull();
    expect(order!.order.toSorted((a, b) => a - b)).toEqual(Array.from({ length: count }, (_, i) => i + 1));
    expect(order!.after_gmm).toBeLessThanOrEqual(order!.before_gmm);
    expect(order!.words[0]).toContain(order!.order.join(', '));
    const layoutRim = workshop.radius_mm;
    expect(layoutRim).toBeLessThan(demo.fan.hubDiameter_mm / 2);
    expect(layoutRim).toBeGreaterThan(demo.fan.hubDiameter_mm / 4);
  });

  it('says why masses tell nothing', () => {
    expect(bench(withBalance({ bladeMasses_g: [0.5] })).orderFault).toContain('1 mass');
    expect(
      bench(withBalance({ bladeMasses_g: masses(demo.fan.bladeCount) }, { rotorParts: 'one piece' }))
        .orderFault,
    ).toContain('one piece');
    expect(bench(demo)).toMatchObject({ order: null, orderFault: null, trial: null });
  });

  it('turns trial runs into work', () => {
    const run = (amplitude: number, trialMass_g: number, trialAngle_deg: number) => ({
      amplitude,
      trialMass_g,
      trialAngle_deg,
      trialRadius_mm: 8,
      phase_deg: null,
    });
    const runs = [run(10, 0, 0), run(7, 0.05, 0), run(12, 0.05, 120), run(18, 0.05, 240)];
    const answer = bench(withBalance({ runs, tape_gpm: 2, correctionRadius_mm: 8 }));
    if (!answer.trial?.ok) throw new Error('no answer');
    // 0.05 g at 8 mm times 10 over 8.5, some forty degrees past the mark.
    expect(answer.trial.correction.amount_gmm).toBeCloseTo(0.47, 2);
    const words = answer.trialWords.join(' ');
    expect(words).toContain('59 mg');
    expect(words).toContain('42° past the mark');
    expect(words).toContain('mm of your tape');
    expect(words).toContain('drill');
  });
});
