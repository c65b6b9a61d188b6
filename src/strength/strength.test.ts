import { describe, expect, test } from 'vitest';
import { assess } from '../assess/assess.ts';
import { mapOf, modelOf } from '../assess/model.ts';
import { strengthOfModel, strengthRemarks } from '../assess/strength.ts';
import { setPath } from '../project/path.ts';
import type { Project } from '../project/schema.ts';
import { angularSpeedFromRpm } from '../quantities/units.ts';
import { demo } from '../../tests/demo.ts';
import { blowOf, shearEnergy } from './impact.ts';
import { keyStress } from './keys.ts';
import { warmShare, warmStrength } from './material.ts';
import { ringBending, turningRing } from './ring.ts';
import { filletConcentration } from './root.ts';
import { loadedRotor, radialGrowth } from './rotor.ts';
import type { FailureMode } from './types.ts';
import { roundedDown } from './words.ts';

const at = (project: Project, rpm = 20_000) => {
  const model = modelOf(project, 'drawn');
  return strengthOfModel(model, mapOf(model), angularSpeedFromRpm(rpm))!;
};
const changed = (changes: Readonly<Record<string, string | number>>): Project =>
  Object.entries(changes).reduce((p, [path, value]) => setPath(p, path, value), demo);
const mode = (list: readonly FailureMode[], kind: FailureMode['kind']) => list.find((m) => m.kind === kind);
const blade = (project: Project) => mode(at(project).modes, 'blade')!;
const base = at(demo);

describe('properties', () => {
  test('faster is more stress, as its square; the failure speed stays', () => {
    const slow = at(demo, 10_000);
    expect(base.modes[0].stress_MPa / slow.modes[0].stress_MPa).toBeGreaterThan(3.9);
    expect(slow.failureRpm / base.failureRpm).toBeCloseTo(1, 1);
    expect(slow.speedMargin).toBeGreaterThan(1.9 * base.speedMargin);
  });

  test.each<[string, Readonly<Record<string, string | number>>, 'later' | 'sooner']>([
    ['a thicker root', { 'fan.blade.0.thickness_ratio': 0.2 }, 'later'],
    ['a thinner root', { 'fan.blade.0.thickness_ratio': 0.09 }, 'sooner'],
    ['no fillet', { 'fan.rootFillet_mm': 0 }, 'sooner'],
    ['a hot day', { 'brief.airTemperature_C': 45 }, 'sooner'],
    ['a weaker material', { 'material.strengthInPlane_MPa': 24 }, 'sooner'],
    ['a heavier material', { 'material.density_kgpm3': 2500 }, 'sooner'],
    ['a larger fan', { 'fan.tipDiameter_mm': 80 }, 'sooner'],
    ['a ring round the tips', { 'fan.tipRing_mm': 1 }, 'sooner'],
  ])('%s makes the blade fail %s', (_, changes, when) => {
    const ratio = blade(changed(changes)).failureRpm / blade(demo).failureRpm;
    if (when === 'later') expect(ratio).toBeGreaterThan(1.02);
    else expect(ratio).toBeLessThan(0.98);
  });

  test('layers across the blade carry what the material does across them, and less than along', () => {
    const standing = blade(changed({ 'fan.rotorParts': 'blades apart' }));
    const lying = blade(changed({ 'fan.rotorParts': 'blades apart', 'fan.bladesPrinted': 'lying' }));
    expect(standing.strength_MPa / lying.strength_MPa).toBeCloseTo(30 / 48, 9);
    expect(mode(at(changed({ 'fan.rotorParts': 'blades apart' })).modes, 'key')).toBeDefined();
    expect(mode(base.modes, 'key')).toBeUndefined();
  });

  test('an empty shell weighs less and carries on less: pull stress about the same, bending more', () => {
    const shell = at(changed({ 'printer.infill_ratio': 0, 'printer.walls': 1, 'printer.skinLayers': 3 }));
    expect(Math.min(...shell.stations.carrying)).toBeLessThan(0.75);
    expect(shell.stations.carrying.every((share) => share > 0 && share <= 1)).toBe(true);
    expect(shell.freedBlade.mass_g).toBeLessThan(0.85 * base.freedBlade.mass_g);
    expect(Math.min(...base.stations.carrying)).toBeCloseTo(1, 12);
  });

  test('the safety factor lowers the safe speed by its root and leaves the failure speed', () => {
    const six = at(changed({ 'fan.safetyFactor': 12 }));
    expect(six.failureRpm).toBe(base.failureRpm);
    expect(base.safeRpm / six.safeRpm).toBeCloseTo(2, 12);
  });

  test('growth takes from the gap, as the square of the speed, and the helper agrees', () => {
    const { full } = base.growth;
    expect(full.gap_mm! + full.radial_mm).toBeCloseTo(demo.fan.tipGap_mm, 12);
    expect(1e3 * radialGrowth(demo, angularSpeedFromRpm(20_000))).toBeCloseTo(full.radial_mm, 9);
    expect(radialGrowth(demo, 4000) / radialGrowth(demo, 2000)).toBeCloseTo(4, 9);
    expect(at(changed({ 'fan.kind': 'open' })).growth.full.gap_mm).toBeNull();
  });

  test('a freed blade has the energy of its centre; a thicker wall takes the square of its thickness', () => {
    const f = base.freedBlade;
    expect(f.energy_J).toBeCloseTo(0.5e-3 * f.mass_g * f.speed_mps ** 2, 9);
    const thick = at(changed({ 'fan.duct.wall_mm': 2 })).freedBlade;
    expect(thick.wall_J! / f.wall_J!).toBeCloseTo(4, 9);
  });

  test('no blade left: no answer', () => {
    expect(loadedRotor(changed({ 'fan.hubDiameter_mm': 64 }), null)).toBeNull();
    expect(assess(changed({ 'fan.hubDiameter_mm': 64 })).strength).toBeNull();
  });
});

describe('in an assessment', () => {
  test('the demo holds; its sentences name the rpm and the factor', () => {
    const { strength, fan } = assess(demo);
    expect(strength!.holds).toBe(true);
    expect(strength!.fullRpm).toBeGreaterThan(fan.full.rpm);
    expect(strength!.words[0]).toMatch(
      /fails near .* rpm, [\d.]+ times that\. With a factor of 3 on strength/,
    );
  });

  test('past its safe speed it is a stop that begins with the rpm', () => {
    const weak = changed({ 'material.strengthInPlane_MPa': 12, 'material.strengthAcrossLayers_MPa': 8 });
    const { strength, remarks } = assess(weak);
    const stop = remarks.find((r) => r.text.startsWith('Do not run this above '));
    expect(stop?.weight).toBe('stop');
    expect(strength!.safeRpm).toBeLessThan(strength!.fullRpm);
    const said = Number(/above ([\d\s\u00a0\u202f]+)\srpm/.exec(stop!.text)![1].replace(/\D/g, ''));
    expect(said).toBeLessThanOrEqual(strength!.safeRpm);
    expect(said).toBeGreaterThan(0.85 * strength!.safeRpm);
  });

  test('a day as hot as the material softens leaves nothing', () => {
    const { strength, remarks } = assess(changed({ 'material.softening_C': 36 }));
    expect(strength!.safeRpm).toBe(0);
    expect(remarks.some((r) => r.weight === 'stop' && r.text.startsWith('Do not run this: in air'))).toBe(
      true,
    );
  });

  test('a gap that growth closes is a stop, a gap within the scatter a care', () => {
    const soft = changed({ 'material.modulus_GPa': 0.03 });
    expect(assess(soft).remarks.some((r) => r.weight === 'stop' && r.path === 'fan.tipGap_mm')).toBe(true);
    const tight = changed({ 'fan.tipGap_mm': 0.12 });
    const said = strengthRemarks(tight, assess(tight).strength);
    expect(said.map((r) => [r.weight, r.path])).toEqual([['care', 'fan.tipGap_mm']]);
  });
});

describe('rules', () => {
  test('warmth: all at room temperature, half way, none where it softens', () => {
    const m = { ...demo.material, softening_C: 83 };
    expect([
      warmShare(m, 0),
      warmShare(m, 23),
      warmShare(m, 53),
      warmShare(m, 83),
      warmShare(m, 120),
    ]).toEqual([1, 1, 0.5, 0, 0]);
    expect(warmShare({ ...m, softening_C: 20 }, 10)).toBe(1);
    expect(warmShare({ ...m, softening_C: 20 }, 25)).toBe(0);
    expect(warmStrength(m, 'across', 53)).toBe(15e6);
  });

  test('a rounder fillet crowds less, never below one', () => {
    const k = [0.01, 0.02, 0.1, 0.3, 2].map((r) => filletConcentration(r, 1));
    expect(k[0]).toEqual(k[1]);
    for (let i = 2; i < k.length; i++) {
      expect(k[i].tension).toBeLessThan(k[i - 1].tension);
      expect(k[i].bending).toBeLessThanOrEqual(k[i - 1].bending);
    }
    expect(k[4]).toEqual({ tension: 1, bending: 1 });
  });

  test('key: forces over areas, the tooth gone where heads meet, and a key that holds nothing refused', () => {
    const key = { neck: 0.002, head: 0.004, depth: 0.002, length: 0.008, radius: 0.008 };
    const s = keyStress(key, 16, 5);
    expect(s.neck).toBeCloseTo(1e6, 3);
    expect(s.shear).toBeCloseTo(5e5, 3);
    expect(s.bearing).toBeCloseTo(1e6, 3);
    expect(s.tooth).toBeCloseTo(16 / ((2 * 0.008 * Math.sin(Math.PI / 5) - 0.004) * 0.008), 3);
    expect(keyStress({ ...key, radius: 0.002 }, 16, 5).tooth).toBe(Infinity);
    expect(() => keyStress({ ...key, head: 0.001 }, 16, 5)).toThrow('head wider than the neck');
  });

  test('a load spread all round a ring bends it no more; a ring without room is refused', () => {
    expect(ringBending(1, 1, 5, Math.PI / 5)).toBeCloseTo(0, 12);
    expect(ringBending(1, 1, 5, 0.3)).toBeLessThan(ringBending(1, 1, 5));
    expect(() => turningRing({ inner: 1, outer: 1, density: 1, modulus: 1, poisson: 0.3 }, 1)).toThrow(
      'inner < outer',
    );
  });

  test('a blow gives back its energy as travel', () => {
    const blow = blowOf(0.3, 1, { stiffness: 20_000, stressPerForce: 1e6 });
    expect((20_000 * blow.travel ** 2) / 2).toBeCloseTo(blow.energy + 0.3 * 9.80665 * blow.travel, 9);
    expect(shearEnergy(0.02, 0.001, 20e6)).toBeCloseTo(0.4, 12);
  });

  test('a limit is never said higher than it is', () => {
    expect(roundedDown(26_999).replace(/\D/g, '')).toBe('26000');
    expect(roundedDown(9_990).replace(/\D/g, '')).toBe('9900');
  });
});
