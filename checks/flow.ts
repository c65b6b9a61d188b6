import { assembleBodies } from '../src/air/flow/bodies.ts';
import { relax } from '../src/air/flow/relax.ts';
import { solveFlow } from '../src/air/flow/solve.ts';
import type { Profile } from '../src/shape/profiles.ts';
import type { Check, Point, Topic } from './check.ts';

const LAMB = 'Lamb, Hydrodynamics, 6th ed., 1932: sphere art. 92, added mass of ellipsoids art. 114.';
const MOMENTUM =
  'Rankine-Froude momentum theory of a ducted disc at rest; e.g. Leishman, Principles of Helicopter Aerodynamics, 2nd ed., Cambridge 2006, ch. 6.';

/** Surface speed over that of the stream on an ellipsoid of half length `a` and radius 1 at `panels` + 1 nodes. */
function ellipsoidSpeed(a: number, panels: number): { theta: number; speed: number; exact: number }[] {
  const theta = Array.from({ length: panels + 1 }, (_, i) => (Math.PI * i) / panels);
  const body = {
    z: Float64Array.from(theta, (t) => a * Math.cos(t)),
    r: Float64Array.from(theta, (t, i) => (i % panels === 0 ? 0 : Math.sin(t))),
  };
  const { speed } = relax(assembleBodies(null, body), [], { freeStream: 1, passes: 0, tolerance: 1e-6 });
  return theta.map((t, i) => ({
    theta: t,
    speed: -speed[i],
    exact: ((1 + addedMass(a)) * a * Math.sin(t)) / Math.hypot(a * Math.sin(t), Math.cos(t)),
  }));
}

/** Added mass of an ellipsoid of revolution along its axis over the mass it displaces. */
function addedMass(a: number): number {
  if (a === 1) return 0.5;
  const e = Math.sqrt(1 - 1 / a ** 2);
  const alpha = ((2 * (1 - e * e)) / e ** 3) * (0.5 * Math.log((1 + e) / (1 - e)) - e);
  return alpha / (2 - alpha);
}

function onBody(a: number, panels: number): Point[] {
  return ellipsoidSpeed(a, panels)
    .filter((_, i) => i > 0 && i % (panels / 6) === 0 && i < panels)
    .map(({ theta, speed, exact }) => ({
      at: `${Math.round((theta * 180) / Math.PI)}° from the tail`,
      ours: speed,
      theirs: exact,
    }));
}

const worstOn = (a: number, panels: number): number =>
  Math.max(...ellipsoidSpeed(a, panels).map(({ speed, exact }) => Math.abs(speed - exact)));

/** How the error falls when panels are halved: 1 first order, 2 second. */
const order = (coarse: number, fine: number): number => Math.log2(coarse / fine);

/** A straight duct of bore radius 1, four long, with a rounded lip and a wall of a tenth, the disc in its middle. */
function longDuct(): Profile {
  const [lip, wall, length, steps] = [0.5, 0.1, 4, 24];
  const at = (k: number) => ((Math.PI / 2) * k) / steps;
  const turn = (k: number) => (2 * Math.PI * k) / steps;
  const upTo = (n: number) => Array.from({ length: n }, (_, k) => k);
  return [
    ...upTo(steps + 1).map((k) => [-lip * Math.cos(at(k)), 1 + lip * (1 - Math.sin(at(k)))] as const),
    [length, 1],
    [length, 1 + wall],
    [0, 1 + wall],
    ...upTo(steps).map((k) => {
      const t = at(k + 1);
      return [-(lip - wall) * Math.sin(t), 1 + lip - (lip - wall) * Math.cos(t)] as const;
    }),
    ...upTo(steps / 2 - 1).map((k) => {
      const t = turn(k + 1);
      return [-lip + (wall / 2) * (1 + Math.cos(t)), 1 + lip + (wall / 2) * Math.sin(t)] as const;
    }),
  ];
}

const pipe = (ductPanels: number) =>
  solveFlow({
    duct: longDuct(),
    centreBody: null,
    discZ: 2,
    density: 1.2,
    freeStream: 0,
    duty: { pressureRise: 60 },
    ductPanels,
  });

/** The three solutions that the pipe's checks share, made when first asked for. */
const solved = new Map<number, ReturnType<typeof pipe>>();
function pipeOf(panels: number): ReturnType<typeof pipe> {
  const flow = solved.get(panels) ?? pipe(panels);
  solved.set(panels, flow);
  return flow;
}
const PANELS = [50, 100, 200];

const shareOf = (panels: number) => {
  const { thrust, exitAreaRatio } = pipeOf(panels);
  return { ours: thrust.ductShare, theirs: 1 - 1 / (2 * exitAreaRatio) };
};

const computed = (check: Omit<Check, 'status'>): Check => ({ ...check, status: 'computed' });

export const flowTopic: Topic = {
  id: 'flow',
  title: 'Potential flow of duct, body and disc',
  intro: [
    'The axisymmetric panel solution against cases with an exact answer. Few panels, to show what the method does and how fast it converges; the tool uses 150 on the duct',
    'and 50 on the centre body. σ is the area of the developed jet over the disc area, as the solution itself finds it.',
  ].join('\n'),
  checks: [
    computed({
      id: 'flow-sphere',
      title: 'Surface speed on a sphere over that of the stream, 60 panels',
      unit: '',
      source: LAMB,
      points: () => onBody(1, 60),
      target: { absolute: 0.002 },
      note: '1.5 sin θ.',
    }),
    computed({
      id: 'flow-ellipsoid',
      title: 'Surface speed on an ellipsoid 3 : 1, 60 panels',
      unit: '',
      source: LAMB,
      points: () => onBody(3, 60),
      target: { absolute: 0.005 },
    }),
    computed({
      id: 'flow-order',
      title: 'Order of convergence, worst point on the body, 30 to 60 panels',
      unit: '',
      source:
        'Linear strength on straight panels: second order; e.g. Lewis, Vortex Element Methods for Fluid Dynamic Analysis of Engineering Systems, Cambridge 1991, ch. 1.',
      points: () =>
        [1, 3].map((a) => ({
          at: a === 1 ? 'sphere' : 'ellipsoid 3 : 1',
          ours: order(worstOn(a, 30), worstOn(a, 60)),
          theirs: 2,
        })),
      target: { absolute: 0.3 },
    }),
    computed({
      id: 'flow-duct-share',
      title: 'Share of the thrust on a long duct, 1 − 1/(2 σ)',
      unit: '',
      source: MOMENTUM,
      points: () => PANELS.slice(1).map((panels) => ({ at: `${panels} panels`, ...shareOf(panels) })),
      target: { absolute: 0.005 },
      note: 'from the pressures on its surface; the disc carries the rest.',
    }),
    computed({
      id: 'flow-duct-order',
      title: 'Order of convergence of that share',
      unit: '',
      source: 'Linear strength on straight panels: second order, less where the sheet leaves the exit edge.',
      points: () => {
        const miss = (panels: number) => Math.abs(shareOf(panels).ours - shareOf(panels).theirs);
        return [{ at: '50 to 200 panels', ours: order(miss(50), miss(200)) / 2, theirs: [1.3, 2.7] }];
      },
      target: { absolute: 0 },
    }),
    computed({
      id: 'flow-pipe',
      title: 'Axial speed over its mean, far inside a straight pipe, 200 panels',
      unit: '',
      source: 'A straight pipe without friction: even speed a diameter from its ends.',
      points: () =>
        [0, 10, 20].map((k) => ({
          at: ['axis', 'half radius', 'wall'][k / 10],
          ours: pipeOf(200).inflow.ratio[k],
          theirs: 1,
        })),
      target: { absolute: 0.003 },
    }),
    computed({
      id: 'flow-momentum',
      title: 'Thrust from pressures over thrust from the jet’s momentum',
      unit: '',
      source: MOMENTUM,
      points: () =>
        PANELS.slice(1).map((panels) => {
          const { total, byMomentum } = pipeOf(panels).thrust;
          return { at: `${panels} panels`, ours: total / byMomentum, theirs: 1 };
        }),
      target: { absolute: 0.015 },
    }),
  ],
};
