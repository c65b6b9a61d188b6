import { mapTorque } from '../air/map.ts';
import { answersFrom, type Answers } from '../assess/answers.ts';
import { assess } from '../assess/assess.ts';
import { mapOf, modelOf, quotedSupply } from '../assess/model.ts';
import type { Assessment } from '../assess/types.ts';
import { dischargeLimit } from '../drive/battery.ts';
import { driveAt } from '../drive/supply.ts';
import { PLAIN_CALIBRATION } from '../project/calibration.ts';
import { controllers, materials } from '../project/catalogue.ts';
import {
  PLAIN_PLACEMENT,
  balanceSchema,
  purchasesSchema,
  SCHEMA_VERSION,
  type Battery,
  type Material,
  type Motor,
  type Printer,
  type Project,
} from '../project/schema.ts';
import { geometryFaults } from '../shape/faults.ts';
import { fanOfChoice, leastHub, widestTip, type FanChoice } from './fan-family.ts';
import { FLOOR, whyChosen, whyNone } from './propose-words.ts';

/** What a maker knows before there is a design. */
export interface SixAnswers {
  /** Everything that flies but fans, motors, controllers and battery. */
  readonly bareMass_g: number;
  readonly fanCount: number;
  readonly motor: Motor;
  readonly battery: Battery;
  readonly largestDuctWidth_mm: number;
  readonly printer: Printer;
  /** Left out: PETG for filament, rigid resin for resin. */
  readonly material?: Material;
}

export type Proposal =
  | {
      readonly ok: true;
      readonly project: Project;
      /** How many fans were run. */
      readonly tried: number;
      readonly why: readonly string[];
    }
  | {
      readonly ok: false;
      readonly tried: number;
      readonly why: readonly string[];
      /** The best of those that fell short, to go on from; null where no fan fits at all. */
      readonly closest: Project | null;
    };

/** Thrust over weight the search aims at, so that its low end still clears the floor. */
const AIM = 1.6;

/** A two-bladed rotor shakes its craft in every turn of it; the trade prints three and more. Common practice, no source. */
const FEWEST_BLADES = 3;

const TIPS = [1, 0.86, 0.72];
const BLADES = [3, 5, 7];
const ADVANCES = [0.3, 0.55, 0.85];
const SOLIDITIES = [0.25, 0.4, 0.55];

/** Steps of the walk from the best of the grid, halved each time no step helps; together at most some 150 fans. */
const WALK_STEPS = { tip: 0.08, hub: 0.12, advance: 0.14, solidity: 0.08 };
const HALVINGS = 3;
const MOST_TRIED = 300;

interface Tried {
  readonly choice: FanChoice;
  readonly project: Project;
  readonly answers: Answers;
  /** Nothing is run beyond what its maker allows. */
  readonly within: boolean;
  readonly score: number;
}

/**
 * A fan that closes, or the reasons why none does. Searches tip, hub, blades, angle and chord within the width: a grid,
 * then a walk downhill from its best (pattern search; Hooke and Jeeves, J. ACM 8, 1961). Among fans with the thrust aimed at
 * it takes the longest hover, else the most thrust. The same answers give the same fan; at most 300 are run. Answers must
 * lie within the ranges of the project file.
 */
export function propose(answers: SixAnswers): Proposal {
  const widest = widestTip(
    Math.min(answers.largestDuctWidth_mm, answers.printer.bedX_mm, answers.printer.bedY_mm),
    answers.motor,
    answers.printer,
  );
  const search = new Map<string, Tried | null>();
  const attempt = (choice: FanChoice): Tried | null => {
    const held = holdWithin(choice, widest);
    const key = JSON.stringify(held);
    if (!search.has(key)) search.set(key, search.size < MOST_TRIED ? run(answers, held) : null);
    return search.get(key) ?? null;
  };
  let best: Tried | null = null;
  let closing: Tried | null = null;
  const consider = (choice: FanChoice): boolean => {
    const tried = attempt(choice);
    const closes = tried && tried.within && tried.answers.thrustToWeight >= FLOOR;
    if (closes && (!closing || tried.score > closing.score)) closing = tried;
    if (!tried || (best && tried.score <= best.score)) return false;
    best = tried;
    return true;
  };
  for (const tip of TIPS)
    for (const bladeCount of BLADES)
      for (const advanceRatio of ADVANCES)
        for (const solidity of SOLIDITIES)
          consider({ tipDiameter_mm: tip * widest, hubFactor: 1, bladeCount, advanceRatio, solidity });
  walk(() => best, consider, widest);
  const tried = [...search.values()].filter((one) => one !== null).length;
  return conclude(answers, closing ?? best, tried, widest);
}

function walk(best: () => Tried | null, consider: (choice: FanChoice) => boolean, widest: number): void {
  for (let halving = 0, size = 1; halving <= HALVINGS;) {
    const from = best()?.choice;
    if (!from) return;
    const move = (by: Partial<FanChoice>) => ({ ...from, ...by });
    const moves = [1, -1].flatMap((sign) => {
      const advanceRatio = from.advanceRatio + sign * size * WALK_STEPS.advance;
      const solidity = from.solidity + sign * size * WALK_STEPS.solidity;
      const tipDiameter_mm = from.tipDiameter_mm + sign * size * WALK_STEPS.tip * widest;
      const thinner = from.solidity - sign * size * WALK_STEPS.solidity;
      const flatter = from.advanceRatio - sign * size * WALK_STEPS.advance;
      return [
        move({ advanceRatio }),
        move({ solidity }),
        move({ tipDiameter_mm }),
        move({ hubFactor: from.hubFactor + sign * size * WALK_STEPS.hub }),
        // Where a current is at its limit, the way up is along the limit: two at a time.
        move({ advanceRatio, solidity: thinner }),
        move({ tipDiameter_mm, solidity: thinner }),
        move({ tipDiameter_mm, advanceRatio: flatter }),
        ...(size > 0.3 ? [move({ bladeCount: from.bladeCount + sign })] : []),
      ];
    });
    let moved = false;
    for (const choice of moves) moved = consider(choice) || moved;
    if (!moved) {
      halving++;
      size /= 2;
    }
  }
}

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

function holdWithin(choice: FanChoice, widest: number): FanChoice {
  return {
    tipDiameter_mm: clamp(choice.tipDiameter_mm, Math.min(10, widest), widest),
    hubFactor: clamp(choice.hubFactor, 1, 1.6),
    bladeCount: clamp(choice.bladeCount, FEWEST_BLADES, 11),
    advanceRatio: clamp(choice.advanceRatio, 0.1, 2),
    solidity: clamp(choice.solidity, 0.1, 0.9),
  };
}

/** Runs one fan far enough to rank it; null where it cannot be built. */
function run(six: SixAnswers, choice: FanChoice): Tried | null {
  if (choice.tipDiameter_mm < 10 || leastHub(six.motor) > 0.9 * choice.tipDiameter_mm) return null;
  const project = projectOf(six, choice);
  if (geometryFaults(project.fan, project.motor).length > 0) return null;
  const model = modelOf(project);
  const supply = quotedSupply(project);
  const map = mapOf(model);
  const answers = answersFrom(project, supply, map, model.needed);
  const full = driveAt(supply, mapTorque(map, answers.fullSpeed), answers.fullSpeed);
  const hover =
    answers.hoverSpeed === null
      ? null
      : driveAt(supply, mapTorque(map, answers.hoverSpeed), answers.hoverSpeed);
  const over = Math.max(
    (full?.motorCurrent ?? Infinity) / six.motor.burstCurrent_A,
    ((full?.batteryCurrent ?? Infinity) * six.fanCount) / dischargeLimit(six.battery),
    (hover?.motorCurrent ?? 0) / six.motor.continuousCurrent_A,
  );
  return { choice, project, answers, within: over <= 1, score: scoreOf(answers, over) };
}

/** Minutes once the aim is met; below it thrust alone counts, and what runs too hard ranks below what does not. */
function scoreOf({ thrustToWeight, hoverMinutes }: Answers, over: number): number {
  if (!(thrustToWeight > 0)) return -1e6;
  const excess = Math.max(0, Math.min(over, 10) - 1);
  const thrust = 100 * Math.min(0, thrustToWeight - AIM) - 1000 * excess;
  return thrust < 0 ? thrust : hoverMinutes;
}

function projectOf(six: SixAnswers, choice: FanChoice): Project {
  const { motor, battery, printer } = six;
  const controller =
    controllers.find(({ part }) => part.continuousCurrent_A >= motor.burstCurrent_A) ??
    controllers[controllers.length - 1];
  const material =
    six.material ??
    materials.find(({ id }) => id === (printer.process === 'resin' ? 'material-resin' : 'material-petg'))!
      .part;
  return {
    schemaVersion: SCHEMA_VERSION,
    name: 'New craft',
    note: '',
    brief: {
      payload_g: 0,
      wanted_min: 5,
      largestDuctWidth_mm: six.largestDuctWidth_mm,
      altitude_m: 0,
      airTemperature_C: 20,
      noiseWish_dBA: null,
    },
    craft: {
      fanCount: six.fanCount,
      auxiliaryPower_W: 2.5,
      layout: six.fanCount > 2 ? 'ring' : 'row',
      ...PLAIN_PLACEMENT,
      fixedMasses: [{ name: 'everything without fans and battery', mass_g: six.bareMass_g }],
    },
    motor,
    controller: controller.part,
    battery,
    fan: fanOfChoice(choice, motor, printer),
    printer,
    material,
    calibration: PLAIN_CALIBRATION,
    purchases: purchasesSchema.parse({}),
    balance: balanceSchema.parse({}),
    builds: [],
  };
}

function conclude(six: SixAnswers, best: Tried | null, tried: number, widest: number): Proposal {
  if (!best) return { ok: false, tried, why: whyNone(six, null, widest), closest: null };
  const assessment: Assessment = assess(best.project);
  const closes = best.within && assessment.craft.thrustToWeight >= FLOOR;
  if (closes)
    return {
      ok: true,
      project: best.project,
      tried,
      why: whyChosen(best.project, assessment, best.choice, widest),
    };
  return {
    ok: false,
    tried,
    why: whyNone(six, { project: best.project, assessment }, widest),
    closest: best.project,
  };
}
