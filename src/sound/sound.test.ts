import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { modelOf, quotedSupply } from '../assess/model.ts';
import { fanPoint } from '../assess/point.ts';
import { sourceAt } from '../assess/sound.ts';
import { readProject } from '../project/read.ts';
import type { Project } from '../project/schema.ts';
import { craftSound } from './craft-sound.ts';
import { ductModes, interactions } from './duct-modes.ts';
import { fanTones } from './fan-tones.ts';
import { levelOf, meanSquareOf, spreading, sumLevels } from './levels.ts';
import { EFFECTIVE_RADIUS, gutinPressure, steadyTone } from './rotor-tones.ts';
import { bluntEdge, stretchScales, turbulentEdge } from './self-noise.ts';
import type { SoundSource } from './source.ts';
import { PARTS } from './types.ts';
import { wishAnswer } from './words.ts';

const read = readProject(
  readFileSync(new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url)),
);
if (!read.ok) throw new Error('The example does not read.');
const scout = read.project;
const withFan = (change: Partial<Project['fan']>): Project => ({
  ...scout,
  fan: { ...scout.fan, ...change },
});
const opened = withFan({ kind: 'open' });
const FREE = { distance_m: 1, reflectingPlane: false };

const at = (project: Project, omega: number): SoundSource => {
  const model = modelOf(project);
  return sourceAt(model, fanPoint(model, quotedSupply(project), omega));
};

describe('levels', () => {
  it('two like sources are 3 dB more, ten 10 dB, and silence adds nothing', () => {
    expect(sumLevels([60, 60])).toBeCloseTo(63.0103, 4);
    expect(sumLevels(Array.from({ length: 10 }, () => 40))).toBeCloseTo(50, 9);
    expect(sumLevels([60, -60])).toBeCloseTo(60, 9);
    expect(levelOf(meanSquareOf(73.2))).toBeCloseTo(73.2, 9);
  });

  it('twice the distance is 6 dB less, a hard plane 3 dB more', () => {
    const level = (distance_m: number, reflectingPlane = false) => spreading({ distance_m, reflectingPlane });
    expect(level(2) - level(4)).toBeCloseTo(6.0206, 4);
    expect(level(3, true) - level(3)).toBeCloseTo(3.0103, 4);
  });
});

describe('steady tones', () => {
  it('one ring averaged over directions is what Gutin gives direction by direction', () => {
    const ring = { thrust: 2, torque: 0.01, radius: 0.05 };
    const omega = 2500;
    const strip = { ...at(opened, omega).strips[3], ...ring, chordAround: 0, area: 0, width: 0.01 };
    const source = { ...at(opened, omega), strips: [strip] };
    for (const order of [2, 4]) {
      let sum = 0;
      const N = 2000;
      for (let i = 0; i < N; i++) {
        const cos = -1 + (2 * (i + 0.5)) / N;
        sum += gutinPressure(ring, order, omega, source.soundSpeed, Math.acos(cos)) ** 2 / N;
      }
      expect(Math.abs(steadyTone(source, order).loading / sum - 1)).toBeLessThan(0.01);
    }
  });

  it('the strips together come near one ring at 0.8 of the tip radius', () => {
    const source = at(opened, 1800);
    const { thrust, torque } = source;
    const ring = { thrust, torque, radius: EFFECTIVE_RADIUS * source.tipRadius };
    const one = { ...source, strips: [{ ...source.strips[5], ...ring, chordAround: 0 }] };
    const off = levelOf(steadyTone(source, 5).loading) - levelOf(steadyTone(one, 5).loading);
    expect(Math.abs(off)).toBeLessThan(4);
  });

  it('on the axis nothing is heard, in the disc the torque alone', () => {
    const load = { thrust: 3, torque: 0.02, radius: 0.06 };
    expect(gutinPressure(load, 3, 2000, 340, 0)).toBe(0);
    const side = gutinPressure(load, 3, 2000, 340, Math.PI / 2);
    expect(gutinPressure({ ...load, thrust: 0 }, 3, 2000, 340, Math.PI / 2)).toBeCloseTo(side, 12);
  });
});

describe('patterns in a duct', () => {
  const duct = { boreRadius: 0.05, hubRadius: 0, fromRotor: [0.02, 0.02], fromVanes: [0.03, 0.01] } as const;
  const fate = ductModes(duct, 340, 0);
  const edge = (1.841183781 * 340) / 0.05;

  it("one lobe begins to travel at j'(1,1) c / R", () => {
    expect(fate(1, 0.999 * edge).cutOn).toBe(false);
    expect(fate(1, 1.001 * edge).cutOn).toBe(true);
    expect(fate(-1, 1.001 * edge).cutOn).toBe(true);
    expect(fate(0, 1).cutOn).toBe(true);
  });

  it('decays by the textbook rate below, less the nearer it comes, and sooner travels with flow', () => {
    const half = fate(1, edge / 2);
    expect(half.decay).toBeCloseTo((1.841183781 / 0.05) * Math.sqrt(0.75), 6);
    expect(half.share).toBeCloseTo(Math.exp(-2 * half.decay * 0.02), 9);
    expect(fate(1, 0.9 * edge).share).toBeGreaterThan(half.share);
    expect(ductModes(duct, 340, 100)(1, 0.97 * edge).cutOn).toBe(true);
  });

  it('a subsonic rotor alone is always cut off', () => {
    for (let blades = 2; blades < 15; blades++)
      for (const mach of [0.2, 0.5, 0.9])
        expect(fate(blades, (blades * mach * 340) / 0.05).cutOn).toBe(false);
  });

  it('the patterns with vanes are n B + k V: 5 blades and 4 vanes make 1, −3, 5 ... lobes', () => {
    expect(interactions(5, 4, 1, 4).map((i) => [i.vaneTurns, i.lobes])).toEqual([
      [-1, 1],
      [-2, -3],
    ]);
    expect(interactions(5, 5, 1, 4)[0].lobes).toBe(0);
    expect(interactions(5, 11, 1, 4)).toEqual([]);
  });
});

describe('self-noise', () => {
  const stretch = {
    span: 0.03,
    chord: 0.05,
    speed: 60,
    alpha_deg: 3,
    edge: 0.0005,
    edgeAngle_deg: 14,
    soundSpeed: 340,
    viscosity_m2ps: 1.5e-5,
  };
  const whole = (change: Partial<typeof stretch>, part: typeof bluntEdge) => {
    const scales = stretchScales({ ...stretch, ...change });
    let sum = 0;
    for (let f = 100; f < 40_000; f *= 10 ** 0.1) sum += part(scales, f);
    return 10 * Math.log10(sum);
  };

  it('grows with about the fifth power of speed and with span', () => {
    const grown = whole({ speed: 120 }, turbulentEdge) - whole({}, turbulentEdge);
    expect(grown / (10 * Math.log10(2))).toBeGreaterThan(4);
    expect(grown / (10 * Math.log10(2))).toBeLessThan(5.5);
    expect(whole({ span: 0.06 }, turbulentEdge) - whole({}, turbulentEdge)).toBeCloseTo(3.0103, 3);
  });

  it('a steeper blade is louder, and past stall too', () => {
    const steps = [0, 3, 6, 9, 14].map((alpha_deg) => whole({ alpha_deg }, turbulentEdge));
    for (let i = 1; i < steps.length; i++) expect(steps[i]).toBeGreaterThan(steps[i - 1]);
  });

  it('a blunter edge hums lower and louder; a sharp one not at all', () => {
    const peak = (edge: number) => {
      const scales = stretchScales({ ...stretch, edge });
      let best = 100;
      for (let f = 100; f < 80_000; f *= 1.02) if (bluntEdge(scales, f) > bluntEdge(scales, best)) best = f;
      return best;
    };
    expect(peak(0.001)).toBeLessThan(peak(0.0005));
    expect(whole({ edge: 0.001 }, bluntEdge)).toBeGreaterThan(whole({ edge: 0.0005 }, bluntEdge));
    expect(bluntEdge(stretchScales({ ...stretch, edge: 0 }), 5000)).toBe(0);
  });

  it('has no jump where its formulas meet', () => {
    for (const [low, high] of [
      [{ speed: (2.469e5 * 1.5e-5) / 0.05 }, { speed: (2.471e5 * 1.5e-5) / 0.05 }],
      [{ alpha_deg: 7.49 }, { alpha_deg: 7.51 }],
      [{ alpha_deg: 1.32 }, { alpha_deg: 1.34 }],
    ])
      expect(Math.abs(whole(low, turbulentEdge) - whole(high, turbulentEdge))).toBeLessThan(0.4);
  });
});

describe('the sound of a craft', () => {
  it('energies add: parts make the whole, bands make the whole, thirds make octaves', () => {
    for (const project of [scout, opened]) {
      const s = craftSound(at(project, 1700), 4, FREE);
      expect(sumLevels(PARTS.map((p) => s.parts_dBA[p]))).toBeCloseTo(s.overall_dBA.value, 6);
      expect(sumLevels(s.octaves.map((o) => o.level.value))).toBeLessThan(s.overall_dB.value + 0.01);
      const octave = s.octaves.find((o) => o.band_Hz === 1000)!;
      const thirds = s.thirdOctaves.filter((b) => [800, 1000, 1250].includes(b.band_Hz));
      expect(sumLevels(thirds.map((b) => b.level.value))).toBeCloseTo(octave.level.value, 6);
      for (const b of s.thirdOctaves.filter(({ level }) => level.value > -30))
        expect(sumLevels([b.tones_dB, b.broadband_dB])).toBeCloseTo(b.level.value, 1);
    }
  });

  it('four fans are 6 dB more than one, three metres 9.5 dB less than one', () => {
    const source = at(scout, 1700);
    const one = craftSound(source, 1, FREE).overall_dBA.value;
    expect(craftSound(source, 4, FREE).overall_dBA.value - one).toBeCloseTo(6.0206, 3);
    expect(one - craftSound(source, 1, { ...FREE, distance_m: 3 }).overall_dBA.value).toBeCloseTo(9.5424, 3);
  });

  it('every level lies in its interval, which is finite', () => {
    const s = assess(scout).sound;
    for (const point of [s.hover!, s.full])
      for (const { value, low, high } of [
        point.overall_dBA,
        point.overall_dB,
        ...point.tones.map((t) => t.level),
        ...point.thirdOctaves.map((t) => t.level),
      ]) {
        expect(Number.isFinite(low + high)).toBe(true);
        expect(low).toBeLessThan(value);
        expect(high).toBeGreaterThan(value);
      }
  });

  const sharp = (project: Project): Project => ({
    ...project,
    printer: { ...project.printer, lineWidth_mm: 0.02, layer_mm: 0.01, minimumWall_mm: 0.02 },
    fan: { ...project.fan, section: { ...project.fan.section, trailingEdge_mm: 0, leadingEdge_mm: 0 } },
  });

  it('the same fan turned faster is louder, at every step, ducted and open', () => {
    for (const project of [sharp(scout), sharp(opened)]) {
      const levels = [800, 1100, 1400, 1700, 2000].map(
        (w) => craftSound(at(project, w), 4, FREE).overall_dBA.value,
      );
      for (let i = 1; i < levels.length; i++) expect(levels[i]).toBeGreaterThan(levels[i - 1] + 1);
    }
  });

  it('the same thrust from a faster, flatter rotor is louder', () => {
    const turned = (by: number) =>
      sharp(
        withFan({
          kind: 'open',
          blade: scout.fan.blade.map((b) => ({ ...b, angle_deg: b.angle_deg + by })),
        }),
      );
    const hover = (by: number) => assess(turned(by)).sound.hover!;
    const [steep, flat] = [hover(-8), hover(-14)];
    expect(flat.rpm).toBeGreaterThan(1.05 * steep.rpm);
    expect(flat.overall_dBA.value).toBeGreaterThan(steep.overall_dBA.value);
  });

  it('as many vanes as blades are louder at blade passing than a count that leaves many lobes', () => {
    const first = (vaneCount: number) =>
      fanTones(at(withFan({ stator: { ...scout.fan.stator, vaneCount } }), 1700)).find((t) => t.order === 5)!
        .parts['rotor and vanes']!;
    expect(levelOf(first(5)) - levelOf(first(8))).toBeGreaterThan(6);
  });

  it('blades that scatter more sound at the turns of the shaft', () => {
    const source = at(opened, 1700);
    const once = (bladeScatter: number) =>
      fanTones({ ...source, bladeScatter }).find((t) => t.order === 1)!.parts['unequal blades']!;
    expect(levelOf(once(0.2)) - levelOf(once(0.1))).toBeGreaterThan(5.5);
  });

  it('stands still in silence', () => {
    const s = craftSound(at(scout, 0), 4, FREE);
    expect(s.overall_dBA.value).toBeLessThan(-40);
    expect(s.tones).toEqual([]);
  });

  it('the wish is answered by where the interval lies', () => {
    const level = { value: 60, low: 50, high: 70 };
    expect([45, 55, 65, 75].map((w) => wishAnswer(level, w, 3).holds)).toEqual([
      'no',
      'unsure',
      'likely',
      'yes',
    ]);
    expect(
      assess({ ...scout, brief: { ...scout.brief, noiseWish_dBA: 30 } }).remarks.map((r) => r.path),
    ).toContain('brief.noiseWish_dBA');
    expect(assess({ ...scout, brief: { ...scout.brief, noiseWish_dBA: null } }).sound.wish).toBe(null);
  });
});
