import type { Project } from '../project/schema.ts';
import { angularSpeedFromRpm, degreesFromRadians, millimetresFromMetres } from '../quantities/units.ts';
import { fanLayout } from '../shape/layout.ts';
import { correctionWords, orderWords, trialWords } from './bench-words.ts';
import { against, type Moment } from './correction.ts';
import { kilogramMetresFromGmm, shakingForce } from './grade.ts';
import { bestOrder } from './order.ts';
import { readTrialRuns } from './trial-runs.ts';
import type { BalanceAnswer, BenchAnswer, OrderAnswer, Workshop } from './types.ts';

/** Radius in the middle of the hub rim, where there is material and no blade suffers. */
export function workshopOf(project: Project, balance: BalanceAnswer): Workshop {
  const layout = fanLayout(project.fan, project.motor);
  const rim = millimetresFromMetres((layout.hubRimRadius + layout.hubRadius) / 2);
  return {
    radius_mm: project.balance.correctionRadius_mm ?? rim,
    drill_mm: project.balance.drill_mm,
    tape_gpm: project.balance.tape_gpm,
    density_kgpm3: project.material.density_kgpm3,
    depth_mm: project.fan.hubHeight_mm,
    blades: balance.blades,
    bladeRadius_mm: balance.bladeRadius_mm,
    permissible_gmm: balance.permissible_gmm,
    pullPerGmm_N: shakingForce(kilogramMetresFromGmm(1), angularSpeedFromRpm(balance.full_rpm)),
  };
}

/** Reads the masses and runs of a project. Never throws for what a person may enter. */
export function benchAnswer(project: Project, balance: BalanceAnswer): BenchAnswer {
  const workshop = workshopOf(project, balance);
  const { bladeMasses_g, runs } = project.balance;
  const { order, fault } = orderOf(bladeMasses_g, workshop, balance.apart);
  const trial = runs.length > 0 ? readTrialRuns(runs) : null;
  return {
    workshop,
    order,
    orderFault: fault,
    trial,
    trialWords: trial?.ok
      ? [
          ...trialWords(trial, workshop),
          ...(trial.unbalance.amount_gmm <= workshop.permissible_gmm
            ? ['That is within the grade: leave the rotor as it is.']
            : correctionWords(trial.correction, workshop, { from: 'the mark' })),
        ]
      : [],
  };
}

function orderOf(
  masses: readonly number[],
  workshop: Workshop,
  apart: boolean,
): { order: OrderAnswer | null; fault: string | null } {
  if (masses.length === 0) return { order: null, fault: null };
  if (workshop.blades < 2) return { order: null, fault: 'A rotor of one blade has no order of blades.' };
  if (masses.length !== workshop.blades)
    return {
      order: null,
      fault: `There ${masses.length === 1 ? 'is 1 mass' : `are ${masses.length} masses`} for ${workshop.blades} blades; weigh every blade once, in grams.`,
    };
  const found = bestOrder(masses);
  const radius = workshop.bladeRadius_mm;
  const left: Moment = {
    amount_gmm: found.after.size * radius,
    angle_deg: degreesFromRadians(found.after.angle),
  };
  const draft = {
    order: found.order.map((i) => i + 1),
    masses_g: masses,
    before_gmm: found.before.size * radius,
    after_gmm: left.amount_gmm,
    exact: found.exact,
    left,
    correction: against(left),
  };
  return {
    order: { ...draft, words: orderWords(draft, workshop) },
    fault: apart
      ? null
      : 'The rotor of this project is printed in one piece, so its blades cannot change places; the order holds for blades printed apart.',
  };
}
