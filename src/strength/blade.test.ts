import { describe, expect, test } from 'vitest';
import { bladeAt, bladeCurves } from '../shape/blade.ts';
import { sectionIntegrals, sectionOutline, sectionSpecAt } from '../shape/section.ts';
import { printedVolumes } from '../shape/volumes.ts';
import { modelOf } from '../assess/model.ts';
import { runAt } from '../assess/point.ts';
import { demo } from '../../tests/demo.ts';
import { airLoadOf, airLoadSeen } from './air-load.ts';
import { bendingTension, bladeForces, bladeStretch, tipTurn } from './blade.ts';
import { loadedRotor } from './rotor.ts';
import { carryingSection, shellThickness, type CarryingSection } from './section.ts';

const rectangle = (radius: number, width: number, thickness: number, angle = 0): CarryingSection => ({
  radius,
  chord: width,
  angle,
  camber: 0,
  thickness,
  x: Float64Array.of(width / 2, -width / 2, -width / 2, width / 2),
  y: Float64Array.of(thickness / 2, thickness / 2, -thickness / 2, -thickness / 2),
  centroidX: 0,
  centroidY: 0,
  area: width * thickness,
  massArea: width * thickness,
  momentXX: (thickness * width ** 3) / 12,
  momentYY: (width * thickness ** 3) / 12,
  momentXY: 0,
  torsion: (width * thickness ** 3) / 3,
  perimeter: 2 * (width + thickness),
});
const bar = (angle = 0, twist = 0) =>
  Array.from({ length: 21 }, (_, i) => rectangle(0.01 + 0.002 * i, 0.01, 0.001, angle + (twist * i) / 20));

describe('forces in a straight bar', () => {
  test('pull ends at nothing at the tip and takes a tip pull along whole', () => {
    const sections = bar();
    const { pull } = bladeForces(sections, 1000, null);
    expect(pull.at(-1)).toBe(0);
    expect(pull[0]).toBeCloseTo((1000 * 1e-5 * (0.05 ** 2 - 0.01 ** 2)) / 2, 12);
    const pulled = bladeForces(sections, 1000, null, 0.5);
    pulled.pull.forEach((p, i) => expect(p - pull[i]).toBeCloseTo(0.5, 12));
  });

  test('a bar leaning against the thrust is bent less: an offset of its mass takes bending back', () => {
    const leaning = (slope: number) => bar().map((s) => ({ ...s, centroidY: slope * (s.radius - 0.01) }));
    const sections = leaning(0);
    const air = {
      omega: 1000,
      bladeCount: 1,
      radius: sections.map((s) => s.radius),
      thrustPerRadius: sections.map(() => 10),
      torquePerRadius: sections.map(() => 0),
      relativeSpeed: sections.map(() => 0),
      density: 1.2,
    };
    const root = (slope: number) => bladeForces(leaning(slope), 1000, air).bendingY[0] * 1e6;
    expect(root(0)).toBeCloseTo((-10 * 0.04 ** 2) / 2, 12);
    // integral of rho A w^2 r slope (r - r0) dr = 1e3 * 1e-5 * 1e6 * slope * (r^3/3 - r0 r^2/2) from 0.01 to 0.05
    const back = 1e4 * (0.05 ** 3 / 3 - 0.01 ** 3 / 3 - (0.01 * (0.05 ** 2 - 0.01 ** 2)) / 2);
    expect(root(0.01) - root(0)).toBeCloseTo(0.01 * back, 5);
  });

  test('bending about slanted axes is that about the principal ones', () => {
    const [ixx, iyy, turn] = [8e-12, 1e-12, 0.4];
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    const corners = [
      [1e-3, 3e-4],
      [-1e-3, 3e-4],
      [-1e-3, -3e-4],
      [1e-3, -3e-4],
    ];
    const base = rectangle(0.02, 0.002, 0.0006);
    const principal = {
      ...base,
      momentXX: ixx,
      momentYY: iyy,
      momentXY: 0,
      x: Float64Array.from(corners, ([x]) => x),
      y: Float64Array.from(corners, ([, y]) => y),
    };
    const turned = {
      ...base,
      momentXX: ixx * c * c + iyy * s * s,
      momentYY: ixx * s * s + iyy * c * c,
      momentXY: (ixx - iyy) * c * s,
      x: Float64Array.from(corners, ([x, y]) => c * x - s * y),
      y: Float64Array.from(corners, ([x, y]) => s * x + c * y),
    };
    const [bx, by] = [2e-3, 1e-3];
    expect(bendingTension(turned, c * bx - s * by, s * bx + c * by)).toBeCloseTo(
      bendingTension(principal, bx, by),
      6,
    );
    expect(bendingTension(principal, bx, by)).toBeCloseTo((bx / ixx) * 1e-3 + (by / iyy) * 3e-4, 6);
  });

  test('pull flattens a blade at an angle and straightens a twisted one; none of it at no angle', () => {
    const turn = (angle: number, twist = 0) => {
      const sections = bar(angle, twist);
      return tipTurn(sections, bladeForces(sections, 1200, null), 2e9, 0.38, 2000);
    };
    expect(turn(0)).toBeCloseTo(0, 12);
    expect(turn(0.5)).toBeLessThan(-1e-4);
    expect(turn(-0.5)).toBeCloseTo(-turn(0.5), 12);
    // Twist that falls toward the tip is taken back by the pull: the tip turns steeper than by flattening alone.
    const flat = bar(0, 0).map((s, i) => ({ ...s, angle: (-0.2 * i) / 20 }));
    const forces = { ...bladeForces(flat, 1200, null), twist: new Float64Array(21) };
    expect(tipTurn(flat, forces, 2e9, 0.38, 2000)).toBeGreaterThan(1e-4);
  });

  test('a bar from r to R stretches by rho w^2 / E (R^2 (R - r) / 2 - (R^3 - r^3) / 6)', () => {
    const sections = bar();
    const { pull } = bladeForces(sections, 1200, null);
    const [r, R] = [0.01, 0.05];
    const exact = ((1200 * 2000 ** 2) / 2e9) * ((R * R * (R - r)) / 2 - (R ** 3 - r ** 3) / 6);
    expect(bladeStretch(sections, pull, 2e9, 2000) / exact).toBeCloseTo(1, 3);
  });
});

describe('sections', () => {
  const at = bladeAt(bladeCurves(demo.fan), 0.02);
  test('a full section has the integrals of its fine outline within half a percent', () => {
    const { chord } = at;
    const fine = sectionIntegrals(sectionOutline(sectionSpecAt(demo.fan.section, at), 300));
    const ours = carryingSection(demo.fan, at);
    expect(ours.area / (fine.area * chord ** 2)).toBeCloseTo(1, 2);
    expect(Math.abs(ours.area / (fine.area * chord ** 2) - 1)).toBeLessThan(0.005);
    expect(Math.abs(ours.momentXX / (fine.momentY * chord ** 4) - 1)).toBeLessThan(0.005);
    expect(Math.abs(ours.momentYY / (fine.momentX * chord ** 4) - 1)).toBeLessThan(0.01);
  });

  test('a flat plate twists as a thin strip, b t^3 / 3', () => {
    const fan = {
      ...demo.fan,
      section: { ...demo.fan.section, family: 'flat-plate' as const, trailingEdge_mm: 5 },
    };
    const { torsion, chord, thickness } = carryingSection(fan, { ...at, thickness: 0.05 });
    expect(Math.abs(torsion / ((chord * thickness ** 3) / 3) - 1)).toBeLessThan(0.03);
  });

  test('a shell carries what is left of a box: area and both moments', () => {
    const fan = {
      ...demo.fan,
      section: { ...demo.fan.section, family: 'flat-plate' as const, trailingEdge_mm: 5 },
    };
    const place = { ...at, chord: 0.04, thickness: 0.2, camber: 0 };
    const full = carryingSection(fan, place);
    const shell = carryingSection(fan, place, 0.001, 0.2);
    const [b, t] = [0.038, 0.006];
    expect(Math.abs((full.area - shell.area) / (b * t) - 1)).toBeLessThan(0.12);
    expect(Math.abs((full.momentYY - shell.momentYY) / ((b * t ** 3) / 12) - 1)).toBeLessThan(0.15);
    expect(shell.massArea).toBeCloseTo(shell.area + 0.2 * (full.area - shell.area), 12);
    expect(carryingSection(fan, place, 0.005)).toEqual(full);
  });

  test('walls and skins: the thinner counts; a full inside has no shell', () => {
    const { printer } = demo;
    expect(shellThickness(printer)).toBe(Infinity);
    const hollow = { ...printer, infill_ratio: 0, walls: 2, lineWidth_mm: 0.4, skinLayers: 4, layer_mm: 0.1 };
    expect(shellThickness(hollow)).toBeCloseTo(0.0004, 12);
    expect(shellThickness({ ...hollow, skinLayers: 0 })).toBeCloseTo(0.0008, 12);
  });
});

describe('the demo rotor', () => {
  const model = modelOf(demo, 'drawn');
  const run = runAt(model, 2000);
  const load = airLoadOf(model.rotor, model.air.density, 2000, run.annuli);
  test('the air load adds up to rotor thrust and torque', () => {
    const sum = (list: ArrayLike<number>) =>
      Array.from(list).reduce((total, value, i) => total + value * model.rotor.width[i], 0);
    expect(sum(load.thrustPerRadius)).toBeCloseTo(run.rotorThrust, 9);
    expect(sum(load.torquePerRadius)).toBeCloseTo(run.torque, 9);
  });
  test('the load seen in an assessment is that of the run', () => {
    const pick = (f: (s: (typeof run.annuli)[number]) => number) => run.annuli.map(f);
    const seen = airLoadSeen(model.rotor, model.air.density, 2000, {
      axialVelocity_mps: pick((s) => s.axialVelocity),
      swirlVelocity_mps: pick((s) => s.swirlVelocity),
      liftCoefficient: pick((s) => s.cl),
      dragCoefficient: pick((s) => s.cd),
    });
    for (const key of ['thrustPerRadius', 'torquePerRadius'] as const)
      Array.from(load[key]).forEach((value, i) => expect(seen[key][i] / value).toBeCloseTo(1, 6));
  });
  test('13 stations give what 61 give, within 1 % of pull and 2 % of bending at the root', () => {
    const [few, many] = [13, 61].map((stations) => loadedRotor(demo, load, { stations })!);
    expect(few.forces.pull[0] / many.forces.pull[0]).toBeCloseTo(1, 2);
    expect(Math.abs(few.forces.bendingY[0] / many.forces.bendingY[0] - 1)).toBeLessThan(0.02);
  });
  test('a blade weighs what its volume does, the blend at the root aside', () => {
    const { blades } = printedVolumes({ ...demo.fan, rootFillet_mm: 0 }, demo.motor);
    const mass = (blades * demo.material.density_kgpm3) / demo.fan.bladeCount;
    expect(loadedRotor(demo, load)!.bladeMass / mass).toBeCloseTo(1, 2);
  });
});
