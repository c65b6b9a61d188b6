import type { Model } from '../../assess/model.ts';
import type { Random } from '../../numerics/random.ts';
import { causesFor, type CauseSpec } from '../diagnose/causes.ts';
import { NOTHING, ordinarySpread, UNKNOWN_IDS, type UnknownId } from '../diagnose/unknowns.ts';
import type { Lack } from './lacking.ts';
import type { RigPlan, Truth } from './rig.ts';

/** A sweep as a maker with a scale, a meter and a phone takes it. */
export const SWEEP: RigPlan = {
  throttles: [0.3, 0.45, 0.6, 0.75, 0.88, 1],
  reads: ['rpm', 'voltage', 'current'],
  charge: 0.8,
  charge_sd: 0.1,
  fansRunning: 1,
  scaleStep_N: 0.01,
  common: { thrust: 0.01, rpm: 0.003, voltage: 0.005, current: 0.015 },
  jetOnPan: true,
};

/** A cause by its chance; `only` keeps to some. */
export function drawCause(specs: readonly CauseSpec[], random: Random): CauseSpec {
  let left = random.even() * specs.reduce((s, c) => s + c.prior, 0);
  for (const spec of specs) {
    left -= spec.prior;
    if (left < 0) return spec;
  }
  return specs[specs.length - 1];
}

/** An invented truth: ordinary scatter in everything, and the causes on top at sizes drawn from their own ranges. */
export function drawTruth(
  model: Model,
  plan: RigPlan,
  causes: readonly CauseSpec[],
  random: Random,
  lacks: Lack | null = null,
): Truth {
  const { common } = plan;
  const spread = ordinarySpread(model.project, {
    ...common,
    charge: plan.charge_sd,
    pan: plan.jetOnPan ? 0.015 : 0.003,
  });
  const u: Record<UnknownId, number> = { ...NOTHING };
  for (const id of UNKNOWN_IDS) u[id] = spread[id] * random.normal();
  for (const spec of causes) {
    let left = random.even();
    const at = spec.places.find((p) => (left -= p.weight) < 0) ?? spec.places[spec.places.length - 1];
    if (spec.unknown) u[spec.unknown] += at.value + at.width * random.normal();
  }
  const turned = causes.find((c) => c.turn !== 'right');
  return {
    causes: causes.map((c) => c.id),
    u,
    turn: turned?.turn ?? 'right',
    sign: turned?.turn === 'backward' && random.even() < 0.3 ? -1 : 1,
    lacks,
  };
}

export const specsOf = (model: Model, plan: RigPlan) =>
  causesFor(model, { jetOnPan: plan.jetOnPan, throttleUnknown: false });
