import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { projectSchema } from '../../project/schema.ts';
import { fanLayout } from '../../shape/layout.ts';
import { ductProfile, fanProfiles, type Profile } from '../../shape/profiles.ts';
import { centreBodyOutline } from './outline.ts';
import { checkLip } from './lip.ts';
import { smallestLip } from './smallest-lip.ts';
import { flowSolver, solveFlow, type FlowCase } from './solve.ts';

/** A straight duct of bore radius 1, wall, quarter-round lip and length in the same unit, all invented. */
function straightDuct(wall: number, lip: number, length: number, unit = 1): Profile {
  const points: [number, number][] = [];
  const steps = 24;
  const arc = (k: number) => ((Math.PI / 2) * k) / steps;
  for (let k = 0; k <= steps; k++) points.push([-lip * Math.cos(arc(k)), 1 + lip - lip * Math.sin(arc(k))]);
  points.push([length, 1], [length, 1 + wall], [0, 1 + wall]);
  for (let k = 1; k <= steps; k++)
    points.push([-(lip - wall) * Math.sin(arc(k)), 1 + lip - (lip - wall) * Math.cos(arc(k))]);
  for (let k = 1; k < steps / 2; k++) {
    const a = (2 * Math.PI * k) / steps;
    points.push([-lip + (wall / 2) * (1 + Math.cos(a)), 1 + lip + (wall / 2) * Math.sin(a)]);
  }
  return points.map(([z, r]) => [z * unit, r * unit] as const);
}

const bullet: Profile = [
  ...Array.from({ length: 17 }, (_, k): [number, number] => {
    const a = (Math.PI / 2) * (k / 16);
    return [-0.3 - 0.3 * Math.cos(a), 0.3 * Math.sin(a)];
  }),
  ...Array.from({ length: 17 }, (_, k): [number, number] => {
    const a = (Math.PI / 2) * (k / 16);
    return [0.5 + 0.9 * Math.sin(a), k === 16 ? 0 : 0.3 * Math.cos(a)];
  }),
];

const hover = { centreBody: null, density: 1.2, freeStream: 0, duty: { pressureRise: 60 } };
const long: FlowCase = { ...hover, duct: straightDuct(0.1, 0.5, 4), discZ: 2 };
const short: FlowCase = { ...hover, duct: straightDuct(1 / 30, 0.2, 1.1), discZ: 0.3, centreBody: bullet };

describe('a long duct in hover', () => {
  test('speed is uniform across the pipe and the jet neither grows nor shrinks', () => {
    const flow = solveFlow({ ...long, ductPanels: 200 });
    for (const ratio of flow.inflow.ratio) expect(Math.abs(ratio - 1)).toBeLessThan(1e-3);
    expect(Math.abs(flow.exitAreaRatio - 1)).toBeLessThan(0.005);
    expect(flow.jetSpeed).toBeCloseTo(Math.sqrt((2 * 60) / 1.2), 9);
    expect(flow.settled).toBe(true);
  });

  test("the duct's share of thrust is momentum theory's 1 - 1/(2 sigma), ever closer", () => {
    const gaps = [100, 200, 400].map((ductPanels) => {
      const { thrust, exitAreaRatio } = solveFlow({ ...long, ductPanels });
      return Math.abs(thrust.ductShare - (1 - 1 / (2 * exitAreaRatio)));
    });
    expect(gaps[1]).toBeLessThan(0.002);
    expect(gaps[2]).toBeLessThan(0.0006);
    expect(Math.log2(gaps[0] / gaps[2]) / 2).toBeGreaterThan(1.5);
  });
});

describe('momentum and mass', () => {
  test.each([
    ['long duct', long, 0.004],
    ['short duct with a bullet', short, 0.006],
    ['in flight', { ...short, freeStream: 5 }, 0.006],
    ['loaded toward the tip', { ...short, loading: [0.6, 0.8, 1, 1.1, 1.1] }, 0.008],
  ] as [string, FlowCase, number][])(
    '%s: surface pressures add up to the momentum of the jet',
    (_, flow, share) => {
      const gap = (ductPanels: number) => {
        const { thrust } = solveFlow({ ...flow, ductPanels, centrePanels: ductPanels / 3 });
        return Math.abs(thrust.total / thrust.byMomentum - 1);
      };
      expect(gap(210)).toBeLessThan(share);
      expect(gap(210)).toBeLessThan(0.7 * gap(105));
    },
  );

  test('every plane of the duct passes the same mass: the profile integrates to the stream function', () => {
    const flows = [0.1, 0.3, 0.6, 0.9].map((discZ) => solveFlow({ ...short, discZ, inflowPlaces: 81 }));
    for (const { inflow, massFlow } of flows) {
      let sum = 0;
      for (let i = 0; i + 1 < 81; i++) {
        const middle = (inflow.axial[i] + inflow.axial[i + 1]) / 2;
        sum += Math.PI * (inflow.radius[i + 1] ** 2 - inflow.radius[i] ** 2) * middle * 1.2;
      }
      expect(Math.abs(sum / massFlow - 1)).toBeLessThan(0.003);
      expect(Math.abs(massFlow / flows[0].massFlow - 1)).toBeLessThan(0.002);
    }
  });

  test('loading toward the tip draws the inflow outward', () => {
    const even = solveFlow(short);
    const outward = solveFlow({ ...short, loading: [0.6, 0.8, 1, 1.1, 1.1] });
    expect(outward.inflow.ratio[1]).toBeLessThan(even.inflow.ratio[1]);
    expect(outward.thrust.rotor).toBeCloseTo(even.thrust.rotor, 9);
  });
});

describe('duties', () => {
  test('at rest all speeds scale: asked thrust and mass flow come out exactly', () => {
    const solver = flowSolver(short);
    const one = solver({ pressureRise: 50 });
    const four = solver({ pressureRise: 200 });
    expect(four.thrust.total / one.thrust.total).toBeCloseTo(4, 9);
    expect(four.massFlow / one.massFlow).toBeCloseTo(2, 9);
    expect(solver({ thrust: 123 }).thrust.total).toBeCloseTo(123, 6);
    expect(solver({ massFlow: 20 }).massFlow).toBeCloseTo(20, 6);
  });

  test('in flight too, and flight lowers the share of the duct', () => {
    const at = (freeStream: number) => solveFlow({ ...short, freeStream, duty: { thrust: 250 } });
    const [rest, flight] = [at(0), at(4)];
    expect(flight.thrust.total).toBeCloseTo(250, 1);
    expect(flight.thrust.ductShare).toBeLessThan(rest.thrust.ductShare);
  });

  test('nothing depends on the size of the unit', () => {
    const small = solveFlow({ ...long, duct: straightDuct(0.1, 0.5, 4, 0.03), discZ: 0.06 });
    const large = solveFlow(long);
    expect(small.thrust.ductShare).toBeCloseTo(large.thrust.ductShare, 9);
    expect(small.massFlow / 0.03 ** 2 / large.massFlow).toBeCloseTo(1, 8);
  });
});

describe('thin printed walls and real sections', () => {
  test('a wall of a fortieth of the chord, and of a two-hundredth', () => {
    for (const wall of [1 / 40, 1 / 200]) {
      const flow = solveFlow({ ...hover, duct: straightDuct(wall, 0.15, 0.85), discZ: 0.3, ductPanels: 200 });
      expect(flow.settled).toBe(true);
      expect(Math.abs(flow.thrust.total / flow.thrust.byMomentum - 1)).toBeLessThan(0.015);
      expect(flow.duct.speed.every(Number.isFinite)).toBe(true);
      expect(flow.exitAreaRatio).toBeGreaterThan(0.95);
      expect(flow.exitAreaRatio).toBeLessThan(1.02);
    }
  });

  test('the demo fan, as drawn: lip, bore, exit and the parts on the axis', () => {
    const demo = projectSchema.parse(
      JSON.parse(readFileSync('examples/greenhouse-scout/greenhouse-scout.fanwright.json', 'utf8')),
    );
    const profiles = fanProfiles(demo.fan, demo.motor);
    const parts = [profiles.hub, profiles.motor, profiles.seat, profiles.tailCone].filter(
      (part) => part !== null,
    );
    const flow = solveFlow({
      duct: profiles.duct as Profile,
      centreBody: centreBodyOutline(parts, true),
      discZ: profiles.layout.rotorZ,
      density: 1.2,
      freeStream: 0,
      duty: { thrust: 1.5 },
    });
    expect(flow.settled).toBe(true);
    expect(flow.thrust.ductShare).toBeGreaterThan(0.3);
    expect(flow.thrust.ductShare).toBeLessThan(0.6);
    expect(Math.abs(flow.thrust.total / flow.thrust.byMomentum - 1)).toBeLessThan(0.03);
    expect(new Set(flow.duct.place)).toEqual(new Set(['exit face', 'outside', 'lip', 'inside']));
  });

  test('any duct the file may hold, short of a stalled exit, settles and closes its momentum', () => {
    const demo = projectSchema.parse(
      JSON.parse(readFileSync('examples/greenhouse-scout/greenhouse-scout.fanwright.json', 'utf8')),
    );
    const layout = fanLayout(demo.fan, demo.motor);
    const b = layout.boreRadius;
    fc.assert(
      fc.property(
        fc.double({ min: 0.015, max: 0.08, noNaN: true }),
        fc.double({ min: 0.03, max: 0.6, noNaN: true }),
        fc.double({ min: 0.8, max: 2, noNaN: true }),
        fc.double({ min: 0.9, max: 1.12, noNaN: true }),
        fc.double({ min: 0, max: 12, noNaN: true }),
        (wall, lip, length, exit, freeStream) => {
          const duct = ductProfile(
            { ...layout, wall: wall * b, lipRadius: lip * b, exitZ: length * b, exitRadius: exit * b },
            16,
          );
          const flow = solveFlow({
            ...hover,
            duct,
            discZ: 0.25 * b,
            freeStream,
            duty: { pressureRise: 300 },
          });
          expect(flow.settled).toBe(true);
          expect(Math.abs(flow.thrust.total / flow.thrust.byMomentum - 1)).toBeLessThan(0.04);
          expect(checkLip(flow.duct, 0.25 * b, 1.5e-5)?.fill ?? 1).toBeGreaterThan(0.5);
        },
      ),
      { seed: 7, numRuns: 25 },
    );
  });

  test('an exit opened by a fifth passes more and gives the duct more, as momentum says', () => {
    const demo = projectSchema.parse(
      JSON.parse(readFileSync('examples/greenhouse-scout/greenhouse-scout.fanwright.json', 'utf8')),
    );
    const layout = fanLayout(demo.fan, demo.motor);
    const at = (exitRadius: number) =>
      solveFlow({
        ...hover,
        duct: ductProfile({ ...layout, exitRadius, exitZ: 2.5 * layout.boreRadius }, 24),
        discZ: layout.rotorZ,
      });
    const [straight, opened] = [at(layout.boreRadius), at(layout.boreRadius * Math.sqrt(1.2))];
    expect(opened.exitAreaRatio / straight.exitAreaRatio).toBeGreaterThan(1.1);
    expect(opened.thrust.ductShare).toBeGreaterThan(straight.thrust.ductShare + 0.03);
  });
});

describe('lips', () => {
  const lipped = (lip: number, unit: number, thrust: number, ductPanels = 150): FlowCase => ({
    ...hover,
    duct: straightDuct(1 / 30, lip, 1.1, unit),
    discZ: 0.4 * unit,
    duty: { thrust },
    ductPanels,
  });
  const check = (lip: number, unit: number, thrust: number, panels?: number) => {
    const flow = lipped(lip, unit, thrust, panels);
    const answer = checkLip(solveFlow(flow).duct, flow.discZ, 1.5e-5);
    if (!answer) throw new Error('no stagnation point');
    return answer;
  };

  test('a larger lip is slower, parts later and fills more; the answer stands under finer panels', () => {
    const radii = [0.06, 0.1, 0.2, 0.4, 0.8];
    const answers = radii.map((lip) => check(lip, 0.03, 1.5));
    for (let i = 1; i < radii.length; i++) {
      expect(answers[i].peakSpeed).toBeLessThan(answers[i - 1].peakSpeed);
      expect(answers[i].fill).toBeGreaterThan(answers[i - 1].fill);
    }
    expect(answers.every(({ separates, stratfordSeparates }) => separates === stratfordSeparates)).toBe(true);
    expect(Math.abs(check(0.2, 0.03, 1.5, 300).fill - answers[2].fill)).toBeLessThan(0.005);
  });

  test('a square lip parts its air at the edge and fills what a free opening does', () => {
    const flow: FlowCase = {
      ...hover,
      duct: [
        [0, 1],
        [1.2, 1],
        [1.2, 1.03],
        [0, 1.03],
      ],
      discZ: 0.4,
    };
    const solved = solveFlow(flow);
    const answer = checkLip(solved.duct, flow.discZ, 1e-6);
    expect(answer?.state).toBe('separated');
    expect(answer?.fill).toBeCloseTo(0.611, 3);
    expect(answer?.at?.r).toBeCloseTo(1, 2);
    expect(Math.abs(solved.thrust.total / solved.thrust.byMomentum - 1)).toBeLessThan(0.05);
  });

  test('more loading on a larger fan brings the layer back', () => {
    expect(check(0.4, 0.03, 0.3).state).toBe('separated');
    expect(check(0.4, 0.1, 60).state).toBe('bubble');
  });

  test('the smallest lip that passes, in words', () => {
    const remake = (radius: number) => lipped(radius / 0.03, 0.03, 1.5);
    const advice = smallestLip({ remake, from: 0.0012, to: 0.024, viscosity: 1.5e-5, leastFill: 0.9 });
    expect(advice.radius).toBeGreaterThan(0.003);
    expect(advice.radius).toBeLessThan(0.009);
    expect(advice.words).toMatch(
      /^A [\d.]+ mm lip at this disc loading separates \(the stream then fills \d+\s% of the bore\); [\d.]+ mm leaves so late/,
    );
    const none = smallestLip({ remake, from: 0.0012, to: 0.002, viscosity: 1.5e-5 });
    expect(none.radius).toBeNull();
    expect(none.words).toMatch(/^Even a 2.00 mm lip at this disc loading separates/);
  });
});

test('what cannot be solved is refused in one sentence', () => {
  expect(() => solveFlow({ ...long, density: 0 })).toThrow('air density must be above 0 kg/m3; it was 0');
  expect(() => solveFlow({ ...long, freeStream: -1 })).toThrow('flight speed must be 0 m/s or more');
  expect(() => solveFlow({ ...long, discZ: 9 })).toThrow("does not lie within the duct's length");
  expect(() => solveFlow({ ...long, duty: { thrust: 0 } })).toThrow("the disc's thrust must be above 0");
  expect(() => solveFlow({ ...long, duct: [[0, 1]] })).toThrow('at least three points');
  expect(() =>
    solveFlow({
      ...long,
      duct: [
        [0, 1],
        [1, NaN],
        [1, 2],
      ],
    }),
  ).toThrow('not a number');
  expect(() =>
    solveFlow({
      ...long,
      duct: [
        [0, 0],
        [1, 0],
        [1, 2],
      ],
    }),
  ).toThrow('clear of the axis');
});
