import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { catalogue } from '../project/catalogue.ts';
import { readProject } from '../project/read.ts';
import type { Project } from '../project/schema.ts';
import { geometryFaults } from '../shape/faults.ts';
import { projectLimits } from './larger-fan.ts';
import { propose } from './propose.ts';
import { frontOf, spreadOf } from './size-front.ts';
import { sizedProject } from './size-try.ts';
import { MOST_CELLS, sizeStudy } from './size.ts';
import { tryProject } from './tried.ts';

const demo = (name: string): Project => {
  const file = new URL(`../../examples/greenhouse-scout/${name}.fanwright.json`, import.meta.url);
  const read = readProject(readFileSync(file));
  if (!read.ok) throw new Error('demo');
  return read.project;
};
const scout = demo('greenhouse-scout');
const motors = catalogue.motors.map(({ part }) => part);
const plain = sizeStudy(scout);

describe('sizing', () => {
  it('finds designs that meet the brief, and assess says the same of them', () => {
    expect(plain.meet).toBeGreaterThan(0);
    for (const cell of plain.cells.filter((c) => c.mark === 'meets')) {
      const d = cell.design!;
      const sized = sizedProject(scout, d.choice, plain.motors[d.motor], plain.batteries[d.battery]);
      expect(geometryFaults(sized.fan, sized.motor)).toEqual([]);
      const { craft, fan } = assess(sized);
      expect(Math.abs(craft.thrustToWeight / d.thrustToWeight - 1)).toBeLessThan(0.02);
      expect(Math.abs(craft.hover_min / d.hover_min - 1)).toBeLessThan(0.03);
      expect(Math.abs(fan.full.motorCurrent_A / d.motorCurrent_A - 1)).toBeLessThan(0.03);
      expect(d.hover_min).toBeGreaterThanOrEqual(scout.brief.wanted_min);
      expect(d.outerWidth_mm).toBeLessThanOrEqual(scout.brief.largestDuctWidth_mm);
    }
  });

  it('gives the same map each time, in at most seventeen fans a cell', () => {
    expect(sizeStudy(scout)).toEqual(plain);
    expect(plain.tried).toBeLessThanOrEqual(17 * plain.cells.length);
  });

  it('names each reason where it holds', () => {
    const markAt = (project: Project, tip: number, motor = project.motor) =>
      sizeStudy(project, { tips_mm: [tip], motors: [motor] }).cells[0];
    const large = motors.find((m) => m.canDiameter_mm > 27)!;
    expect(markAt(scout, 30, large)).toMatchObject({ mark: 'hub', design: null });
    expect(markAt(scout, 30, large).words).toMatch(/^Here the hub fills the duct/);
    expect(markAt(scout, 80)).toMatchObject({ mark: 'wide', design: null });
    const thirsty = { ...scout, battery: { ...scout.battery, dischargeLimit_C: 6 } };
    const starved = markAt(thirsty, 60);
    expect(starved.mark).toBe('battery');
    expect(starved.words).toMatch(/the battery cannot feed it/);
    expect(starved.design!.packCurrent_A).toBeGreaterThan(0.8 * 6 * 1.1);
    const weakMotor = { ...scout.motor, burstCurrent_A: 2, continuousCurrent_A: 1.5 };
    expect(['torque', 'disc']).toContain(markAt(scout, 60, weakMotor).mark);
    const smallCan = { ...scout.motor, canDiameter_mm: 5.5, canHeight_mm: 5 };
    expect(markAt(scout, 60, smallCan).mark).toBe('winding');
    const long = { ...scout, brief: { ...scout.brief, wanted_min: 60 } };
    expect(markAt(long, 64).mark).toBe('time');
    const slow = { ...scout.motor, velocityConstant_rpmPerV: 900 };
    expect(markAt(scout, 64, slow).mark).toBe('slow');
    const heavy = { ...scout, brief: { ...scout.brief, payload_g: 3000 } };
    expect(markAt(heavy, 60).mark).toBe('disc');
  });

  it('keeps on its front only what nothing run beats, within every limit', () => {
    expect(plain.front.length).toBeGreaterThan(2);
    for (const a of plain.front) {
      expect(a.level_dBA!.low).toBeLessThan(a.level_dBA!.value);
      expect(a.tightest.ratio).toBeLessThanOrEqual(1);
      expect(a.thrustToWeight).toBeGreaterThanOrEqual(1.3);
      for (const b of plain.front) {
        const better =
          b.hover_min > 1.002 * a.hover_min &&
          b.thrustToWeight > 1.002 * a.thrustToWeight &&
          b.outerWidth_mm < 0.998 * a.outerWidth_mm &&
          b.tipSpeed_mps! < 0.998 * a.tipSpeed_mps!;
        expect(better).toBe(false);
      }
    }
    expect(frontOf(plain.front)).toEqual(plain.front);
    const few = spreadOf(plain.front, 4);
    expect(few).toHaveLength(4);
    expect(few[0]).toBe(plain.front[0]);
  });

  it('drops from the front exactly what another beats', () => {
    const base = plain.front[0];
    const of = (hover_min: number, thrustToWeight: number, outerWidth_mm: number, tipSpeed_mps: number) => ({
      ...base,
      hover_min,
      thrustToWeight,
      outerWidth_mm,
      tipSpeed_mps,
    });
    const kept = [of(9, 1.5, 80, 50), of(8, 2, 80, 50), of(7, 1.4, 60, 70), of(5, 1.4, 80, 40)];
    const beaten = [of(8.5, 1.5, 80, 50), of(7, 1.4, 61, 70), of(6, 1.9, 81, 51)];
    expect(frontOf([...beaten, ...kept])).toEqual(kept);
  });

  it('finds in a cell what the long search of a proposal finds, to 2 %', () => {
    const { motor, battery, printer, brief, craft } = scout;
    const bare = craft.fixedMasses.reduce((sum, item) => sum + item.mass_g, brief.payload_g);
    const proposal = propose({
      bareMass_g: bare,
      fanCount: craft.fanCount,
      motor,
      battery,
      printer,
      largestDuctWidth_mm: brief.largestDuctWidth_mm,
    });
    if (!proposal.ok) throw new Error(proposal.why.join(' '));
    const long = tryProject({ ...scout, fan: proposal.project.fan }).answers.hoverMinutes;
    expect(plain.front[0].hover_min).toBeGreaterThan(0.98 * long);
  });

  it('agrees with the limits of the drive: what it calls good passes none of them', () => {
    for (const d of plain.front.slice(0, 4)) {
      const { limits, hoverThrottle } = projectLimits(
        sizedProject(scout, d.choice, plain.motors[d.motor], plain.batteries[d.battery]),
      );
      for (const { at, lasting } of limits) {
        if (!at) continue;
        expect(lasting).toBe(true);
        expect(at.throttle).toBeGreaterThan(hoverThrottle!);
      }
    }
  });

  it('says plainly that nothing lifts', () => {
    const study = sizeStudy(demo('greenhouse-scout-heavy'));
    expect(study).toMatchObject({ meet: 0, front: [] });
    expect(study.words.join(' ')).toMatch(/None lifts with enough to spare/);
  });

  it('stops when told, keeps what is done, and refuses a map that is too large', () => {
    const seen: number[] = [];
    const part = sizeStudy(scout, {}, (done) => {
      seen.push(done);
      return done === 3;
    });
    expect(seen).toEqual([1, 2, 3]);
    expect(part).toMatchObject({ complete: false });
    expect(part.cells).toEqual(plain.cells.slice(0, 3));
    const tips_mm = Array.from({ length: MOST_CELLS + 1 }, (_, i) => 30 + i);
    expect(() => sizeStudy(scout, { tips_mm })).toThrow(/1 to 250 can be looked at/);
    expect(() => sizeStudy(scout, { motors: [] })).toThrow(/make 0 combinations/);
  });
});
