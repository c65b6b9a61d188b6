import { modelOf } from '../assess/model.ts';
import type { Battery, Motor, Project } from '../project/schema.ts';
import { millimetresFromMetres } from '../quantities/units.ts';
import { geometryFaults } from '../shape/faults.ts';
import { fanLayout } from '../shape/layout.ts';
import { fanOfChoice, leastHub, widestTip, type FanChoice } from './fan-family.ts';
import { FLOOR } from './propose-words.ts';
import { frontOf } from './size-front.ts';
import { sizedProject, trySize } from './size-try.ts';
import type { SizeCell, SizeDesign, SizeOptions, SizeStudy } from './size-types.ts';
import { cellWords, emptyWords, markOf, sizeWords } from './size-words.ts';
import { soundAtThrust } from './sound-compare.ts';
import { tryProject } from './tried.ts';

/** Most cells in one map: about 14 fans are run for each. */
export const MOST_CELLS = 250;

const TIPS = 8;
const BLADES = [3, 5, 7];
const HUBS = [1, 1.25];

/** The first look in each cell, then steps about its best. */
const ADVANCES = [0.3, 0.55, 0.85];
const SOLIDITIES = [0.25, 0.45];
const STEPS = [
  { advance: 0.12, solidity: 0.09 },
  { advance: 0.06, solidity: 0.045 },
];

/** A hub of more than this over the tips leaves no blade. */
const FULLEST_HUB = 0.9;

/** Tip diameters to look at where none are named [mm]. */
export function usualTips(project: Project, motors: readonly Motor[]): number[] {
  const { brief, printer } = project;
  const width = Math.min(brief.largestDuctWidth_mm, printer.bedX_mm, printer.bedY_mm);
  const widest = Math.max(widestTip(width, motors[0], printer), 20);
  const least = Math.min(...motors.map(leastHub));
  const from = Math.min(0.8 * widest, Math.max(0.4 * widest, least));
  const to = 1.06 * widest;
  const tips = Array.from({ length: TIPS }, (_, i) =>
    i === TIPS - 2
      ? Math.floor(widest)
      : Math.round(i === TIPS - 1 ? to : from + ((widest - from) * i) / (TIPS - 2)),
  );
  return [...new Set(tips.map((tip) => Math.max(10, tip)))];
}

/**
 * Sizing: over tip diameter, motor and battery, and in each cell over hub, blade count, blade angle and chord: which fans
 * close, lift and meet the brief, and what stands in the way where none does. All else (payload, fixed masses, printer,
 * material, air) is the project's; the fans are of the plain ducted family, not the drawn one. Yields after each cell, so
 * that a caller can show progress, breathe, or stop. Throws where there are more than `MOST_CELLS` cells or none.
 */
export function* sizeSteps(
  project: Project,
  options: SizeOptions = {},
): Generator<{ readonly done: number; readonly total: number }, SizeStudy, boolean | undefined> {
  const motors = options.motors ?? [project.motor];
  const batteries = options.batteries ?? [project.battery];
  const tips = [...(options.tips_mm ?? (motors.length > 0 ? usualTips(project, motors) : []))].sort(
    (a, b) => a - b,
  );
  const fanCount = options.fanCount ?? project.craft.fanCount;
  const total = tips.length * motors.length * batteries.length;
  if (!(total >= 1 && total <= MOST_CELLS))
    throw new Error(
      `${tips.length} tip diameters, ${motors.length} motors and ${batteries.length} batteries make ${total} combinations; 1 to ${MOST_CELLS} can be looked at in one go.`,
    );
  const cells: SizeCell[] = [];
  const ran: SizeDesign[] = [];
  const look = { project, motors, batteries, fanCount, options };
  let stop = false;
  for (let battery = 0; battery < batteries.length && !stop; battery++)
    for (let motor = 0; motor < motors.length && !stop; motor++)
      for (const tip of tips) {
        cells.push(cellOf(look, tip, motor, battery, ran));
        stop = (yield { done: cells.length, total }) === true;
        if (stop) break;
      }
  const good = (d: SizeDesign) => d.tightest.ratio <= 1 && d.thrustToWeight >= FLOOR && d.hover_min > 0;
  const closing = cells.flatMap(({ design }) => (design && design.tightest.ratio <= 1 ? [design] : []));
  const draft = {
    tips_mm: tips,
    motors,
    batteries,
    fanCount,
    cells,
    close: closing.length,
    lift: closing.filter((d) => d.thrustToWeight >= 1).length,
    meet: cells.filter((c) => c.mark === 'meets').length,
    front: frontOf(ran.filter(good)).map((d) => {
      const model = modelOf(sizedProject(project, d.choice, motors[d.motor], batteries[d.battery], fanCount));
      return { ...d, level_dBA: soundAtThrust(model, model.needed)?.overall_dBA ?? null };
    }),
    drawn: drawnOf(project),
    tried: ran.length,
    complete: cells.length === total,
  };
  return { ...draft, words: sizeWords(draft, project.brief) };
}

function drawnOf(project: Project): SizeStudy['drawn'] {
  const { answers } = tryProject(project);
  return {
    tipDiameter_mm: project.fan.tipDiameter_mm,
    thrustToWeight: answers.thrustToWeight,
    hover_min: answers.hoverMinutes,
  };
}

/** `sizeSteps` in one go. `onCell` is told after each cell and stops the study by returning true: what is done is kept. */
export function sizeStudy(
  project: Project,
  options: SizeOptions = {},
  onCell?: (done: number, total: number) => boolean | void,
): SizeStudy {
  const steps = sizeSteps(project, options);
  let next = steps.next();
  while (!next.done) next = steps.next(onCell?.(next.value.done, next.value.total) === true);
  return next.value;
}

interface Look {
  readonly project: Project;
  readonly motors: readonly Motor[];
  readonly batteries: readonly Battery[];
  readonly fanCount: number;
  readonly options: SizeOptions;
}

/** One cell: the best of a first look and of steps about it. Everything run is added to `ran`. */
function cellOf(look: Look, tip: number, motor: number, battery: number, ran: SizeDesign[]): SizeCell {
  const { project, motors, batteries, options } = look;
  const { brief, printer } = project;
  const blades = options.bladeCounts ?? BLADES;
  const hubs = options.hubFactors ?? HUBS;
  const place = { tipDiameter_mm: tip, motor, battery };
  const first: FanChoice = {
    tipDiameter_mm: tip,
    hubFactor: hubs[0],
    bladeCount: blades[Math.floor((blades.length - 1) / 2)],
    advanceRatio: ADVANCES[1],
    solidity: 0.4,
  };
  const plain = fanOfChoice(first, motors[motor], printer);
  const outerWidth_mm = millimetresFromMetres(2 * fanLayout(plain, motors[motor]).outerRadius);
  const empty = (mark: 'hub' | 'wide' | 'shape', fault: string | null = null): SizeCell => ({
    ...place,
    mark,
    words: emptyWords(mark, look, { ...place, outerWidth_mm }, brief, printer, fault),
    design: null,
  });
  if (leastHub(motors[motor]) > FULLEST_HUB * tip) return empty('hub');
  if (outerWidth_mm > Math.min(brief.largestDuctWidth_mm, printer.bedX_mm, printer.bedY_mm))
    return empty('wide');

  let best: SizeDesign | null = null;
  let fault: string | null = null;
  const seen = new Set<string>();
  const consider = (choice: FanChoice): void => {
    const key = JSON.stringify(choice);
    if (seen.has(key)) return;
    seen.add(key);
    const sized = sizedProject(project, choice, motors[motor], batteries[battery], look.fanCount);
    const faults = geometryFaults(sized.fan, sized.motor);
    if (faults.length > 0) {
      fault ??= faults[0].text;
      return;
    }
    const design = trySize(sized, choice, { motor, battery });
    ran.push(design);
    if (!best || scoreOf(design) > scoreOf(best)) best = design;
  };
  const moved = (by: (from: FanChoice) => Partial<FanChoice>) => {
    const from = (best as SizeDesign | null)?.choice ?? first;
    const to = { ...from, ...by(from) };
    consider({
      ...to,
      advanceRatio: Math.min(1.4, Math.max(0.15, to.advanceRatio)),
      solidity: Math.min(0.8, Math.max(0.08, to.solidity)),
    });
  };
  for (const advanceRatio of ADVANCES)
    for (const solidity of SOLIDITIES) consider({ ...first, advanceRatio, solidity });
  for (const bladeCount of blades) moved(() => ({ bladeCount }));
  for (const hubFactor of hubs) moved(() => ({ hubFactor }));
  for (const { advance, solidity } of STEPS)
    for (const sign of [1, -1]) {
      moved((from) => ({ advanceRatio: from.advanceRatio + sign * advance }));
      moved((from) => ({ solidity: from.solidity + sign * solidity }));
    }
  const design = best as SizeDesign | null;
  if (!design) return empty('shape', fault);
  const mark = markOf(design, brief, motors[motor].burstCurrent_A);
  return { ...place, mark, words: cellWords(mark, design, look, brief), design };
}

/**
 * Minutes where the thrust margin is met within every limit; then what lifts within them by thrust; then the rest, by how far
 * it is from both: such a design shows best what stands in the way.
 */
function scoreOf({ thrustToWeight, hover_min, tightest }: SizeDesign): number {
  if (!(thrustToWeight > 0)) return -1e6;
  const within = tightest.ratio <= 1;
  const short = Math.max(0, FLOOR - thrustToWeight);
  if (within && thrustToWeight >= 1) return short > 0 ? -short : hover_min;
  return -1 - short - 0.6 * Math.max(0, Math.min(tightest.ratio, 10) - 1);
}
