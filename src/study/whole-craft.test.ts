import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { readProject } from '../project/read.ts';
import type { Project } from '../project/schema.ts';
import { massPlace } from './mass-place.ts';
import { controlLeft, windStood } from './whole-craft.ts';

const demo = (name: string): Project => {
  const file = new URL(`../../examples/greenhouse-scout/${name}.fanwright.json`, import.meta.url);
  const read = readProject(readFileSync(file));
  if (!read.ok) throw new Error('demo');
  return read.project;
};
const scout = demo('greenhouse-scout');
const heavy = demo('greenhouse-scout-heavy');

describe('where the mass sits', () => {
  it('adds up to what assess weighs, its heights to the centre', () => {
    const place = massPlace(scout);
    expect(place.mass_g).toBeCloseTo(assess(scout).craft.mass_g, 6);
    const sum = (of: (item: (typeof place.items)[number]) => number) =>
      place.items.reduce((total, item) => total + of(item), 0);
    expect(sum((i) => i.mass_g)).toBeCloseTo(place.mass_g, 6);
    expect(sum((i) => i.mass_g * i.belowRotors_mm) / place.mass_g).toBeCloseTo(
      place.centre_mm.belowRotors,
      6,
    );
  });

  it('gives the inertia of wider spacing by the parallel-axes theorem', () => {
    const wide = massPlace({ ...scout, craft: { ...scout.craft, ductSpacing_mm: 24 } });
    const near = massPlace(scout);
    const moved = ['motor', 'hub', 'blades', 'duct'];
    const fans_g = near.items.filter((i) => moved.includes(i.name)).reduce((s, i) => s + i.mass_g, 0);
    // Four fans at half the pitch from either axis.
    const pitch = (near.width_mm - 4) / 2 + 4;
    const more = (fans_g / 1000) * (((pitch + 20) / 2) ** 2 - (pitch / 2) ** 2);
    expect(wide.inertia_kgmm2.roll - near.inertia_kgmm2.roll).toBeCloseTo(more, 6);
  });
});

describe('control and wind', () => {
  it('says what is left, and less of it the heavier the craft', () => {
    const now = controlLeft(scout);
    expect(now.holds).toBe(true);
    const laden = controlLeft({ ...scout, brief: { ...scout.brief, payload_g: 120 } });
    expect(laden.acceleration_radps2.roll).toBeLessThan(now.acceleration_radps2.roll);
    expect(laden.climb_mps).toBeLessThan(now.climb_mps);
    const [front] = windStood(scout).winds;
    const [ladenFront] = windStood({ ...scout, brief: { ...scout.brief, payload_g: 120 } }).winds;
    expect(front.steady_mps).toBeGreaterThan(3);
    expect(ladenFront.gust_mps).toBeLessThan(front.gust_mps);
  });

  it('claims none for a craft that does not lift', () => {
    const control = controlLeft(heavy);
    expect(control).toMatchObject({ holds: false, climb_mps: 0, moment_Nm: { roll: 0, pitch: 0, yaw: 0 } });
    for (const wind of windStood(heavy).winds)
      expect(wind).toMatchObject({ steady_mps: 0, gust_mps: 0, lean_deg: null });
  });
});
