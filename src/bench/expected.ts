import { mapTorque } from '../air/map.ts';
import { mapOf, quotedSupply } from '../assess/model.ts';
import { speedAtThrottle } from '../drive/supply.ts';
import type { BenchRun } from '../project/bench.ts';
import type { Project } from '../project/schema.ts';
import type { Interval } from '../quantities/interval.ts';
import { rpmFromAngularSpeed } from '../quantities/units.ts';
import { compareRun } from './compare.ts';
import { around } from './errors.ts';
import { benchModel } from './reduce.ts';
import type { Reduced, ReducedPoint } from './types.ts';

/** Thrust of one fan as predicted for this bench, with 90 % intervals: along the throttle, and along the speed. */
export interface Expected {
  readonly byThrottle: readonly { readonly throttle: number; readonly thrust_N: Interval }[];
  readonly byRpm: readonly { readonly rpm: number; readonly thrust_N: Interval }[];
}

const STEPS = 16;

/** The curves readings are held against: the prediction of `compareRun`, asked at even steps of throttle and of speed. */
export function expectedCurves(project: Project, run: BenchRun, reduced: Reduced): Expected {
  const model = benchModel(project, run);
  const map = mapOf(model);
  const full = rpmFromAngularSpeed(speedAtThrottle(quotedSupply(project), (w) => mapTorque(map, w), 1));
  const read = reduced.points.map((p) => p.rpm?.value ?? 0);
  const fastest = Math.min(rpmFromAngularSpeed(map.highest), Math.max(1.05 * full, ...read));
  const steps = Array.from({ length: STEPS }, (_, i) => (i + 1) / STEPS);
  const asked = [
    ...steps.map((throttle) => ({ ...NOT_READ, throttle })),
    ...(fastest > 0 ? steps.map((s) => ({ ...NOT_READ, rpm: around(s * fastest, 0) })) : []),
  ];
  const { points } = compareRun(project, run, { ...reduced, points: asked });
  const none = around(0, 0);
  return {
    byThrottle: [
      { throttle: 0, thrust_N: none },
      ...points.flatMap(({ throttle, predictedAtThrottle_N: thrust_N }) =>
        throttle !== null && thrust_N ? [{ throttle, thrust_N }] : [],
      ),
    ],
    byRpm: [
      { rpm: 0, thrust_N: none },
      ...points.flatMap(({ rpm, predictedAtRpm_N: thrust_N }) =>
        rpm !== null && thrust_N ? [{ rpm, thrust_N }] : [],
      ),
    ],
  };
}

const NOT_READ: ReducedPoint = {
  rows: [],
  t_s: null,
  throttle: null,
  rpm: null,
  thrust_N: around(0, 0),
  thrustOwn_N: 0,
  voltage_V: null,
  current_A: null,
  electricalPower_W: null,
  torque_Nm: null,
  shaftPower_W: null,
  torqueFrom: null,
  ct: null,
  cp: null,
  figureOfMerit: null,
  gramsPerWatt: null,
};
