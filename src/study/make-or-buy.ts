import { assess } from '../assess/assess.ts';
import type { Assessment } from '../assess/types.ts';
import type { Project } from '../project/schema.ts';
import { GRAVITY } from '../quantities/constants.ts';
import { formatNumber as n, formatPercent } from '../quantities/format.ts';

/** A fan unit one can buy ready made: rotor, motor and housing, as its maker states it. All figures are the user's. */
export interface BoughtUnit {
  readonly name: string;
  readonly price: number;
  readonly mass_g: number;
  /** At the voltage of the user's pack. */
  readonly thrust_N: number;
  readonly current_A: number;
  readonly includesController?: boolean;
}

/** What printing costs where the user prints. */
export interface PrintCosts {
  /** Sign or word for the money, for the sentences. */
  readonly currency: string;
  readonly material_perKg: number;
  readonly motor_each: number;
  readonly controller_each: number;
  /** Energy and wear of the printer; left out: 0. */
  readonly printer_perHour?: number;
  /** Share of prints that go to scrap: the rotor is the hard part. Left out: 0.15, common practice, no source. */
  readonly scrap_ratio?: number;
  /** Material laid down in a second; left out: 4 mm3/s, a careful filament printer. Common practice, no source. */
  readonly rate_mm3ps?: number;
  /** Hands-on time for one fan (clean up, balance, mount); left out: 0.5 h. Common practice, no source. */
  readonly handsOn_h?: number;
  /** What an hour of the maker's own time is worth; left out: 0. */
  readonly labour_perHour?: number;
}

/** A flying set of fans, one for each place on the craft. */
export interface FanSet {
  readonly name: string;
  readonly price: number;
  readonly mass_g: number;
  readonly thrust_N: number;
  /** From the pack at full throttle; null where the pack can't turn it. */
  readonly current_A: number | null;
  /** Printing, scrap included, and hands-on [h]; 0 for bought. */
  readonly printing_h: number;
  readonly handsOn_h: number;
  /** Material, scrap included. */
  readonly material_g: number;
  readonly gramsOfThrustPerMoney: number;
  readonly gramsOfThrustPerGram: number;
  /** All thrust over the weight of the whole craft with this set in it. */
  readonly thrustToWeight: number;
}

export interface MakeOrBuy {
  readonly printed: FanSet;
  readonly bought: readonly FanSet[];
  readonly words: readonly string[];
}

function checked(value: number, low: number, high: number, what: string): number {
  if (!(value >= low && value <= high))
    throw new Error(`${what} is ${value}; a number from ${low} to ${high} would do.`);
  return value;
}

const MUCH = 1e9;

function setOf(
  set: Omit<FanSet, 'gramsOfThrustPerMoney' | 'gramsOfThrustPerGram' | 'thrustToWeight'>,
  restOfCraft_g: number,
): FanSet {
  const lifted_g = (set.thrust_N / GRAVITY) * 1000;
  return {
    ...set,
    gramsOfThrustPerMoney: set.price > 0 ? lifted_g / set.price : Infinity,
    gramsOfThrustPerGram: lifted_g / set.mass_g,
    thrustToWeight: lifted_g / (restOfCraft_g + set.mass_g),
  };
}

/**
 * The printed fans of a project beside bought units: price of one flying set (material and printer hours over the share of
 * prints that come out, motors, controllers, time), mass, thrust, and what the craft would lift on each. Bought units keep
 * the project's controllers unless they bring their own. Throws a plain sentence where a figure is out of range.
 */
export function makeOrBuy(
  project: Project,
  costs: PrintCosts,
  units: readonly BoughtUnit[],
  assessment: Assessment = assess(project),
): MakeOrBuy {
  const fans = project.craft.fanCount;
  const rate = checked(costs.rate_mm3ps ?? 4, 0.01, 1000, 'rate_mm3ps (material laid down, mm3/s)');
  const scrap = checked(costs.scrap_ratio ?? 0.15, 0, 0.95, 'scrap_ratio (share of prints lost)');
  const perKg = checked(costs.material_perKg, 0, MUCH, 'material_perKg (price of a kilogram)');
  const motor = checked(costs.motor_each, 0, MUCH, 'motor_each (price of a motor)');
  const controller = checked(
    costs.controller_each,
    0,
    MUCH,
    'controller_each (price of a controller channel)',
  );
  const hour = checked(costs.printer_perHour ?? 0, 0, MUCH, 'printer_perHour (price of a printer hour)');
  const handsOn = checked(costs.handsOn_h ?? 0.5, 0, 1000, 'handsOn_h (hours of work on a fan)') * fans;
  const labour = checked(costs.labour_perHour ?? 0, 0, MUCH, 'labour_perHour (price of an hour of work)');
  const { items } = assessment.craft;
  const total = (kind: string) => items.filter((i) => i.kind === kind).reduce((sum, i) => sum + i.total_g, 0);
  const controllers_g = project.controller.mass_g * fans;
  const good_g = total('printed');
  const material_g = good_g / (1 - scrap);
  const printing_h = ((material_g / 1000 / project.material.density_kgpm3) * 1e9) / rate / 3600;
  const set_g = good_g + total('drive');
  const rest_g = assessment.craft.mass_g - set_g;
  const { full } = assessment.fan;
  const printed = setOf(
    {
      name: 'printed here',
      price: (material_g / 1000) * perKg + printing_h * hour + handsOn * labour + fans * (motor + controller),
      mass_g: set_g,
      thrust_N: full.thrust_N * fans,
      current_A: full.throttle === null ? null : full.batteryCurrent_A * fans,
      printing_h,
      handsOn_h: handsOn,
      material_g,
    },
    rest_g,
  );
  const bought = units.map((unit, i) => {
    const at = (what: string) => `${what} of bought unit ${i + 1}`;
    const price = checked(unit.price, 0, MUCH, at('price'));
    const mass = checked(unit.mass_g, 0.1, 1e5, at('mass_g'));
    const thrust = checked(unit.thrust_N, 0, 1e5, at('thrust_N'));
    const current = checked(unit.current_A, 0, 1e4, at('current_A'));
    const own = unit.includesController ?? false;
    return setOf(
      {
        name: unit.name,
        price: fans * (price + (own ? 0 : controller)),
        mass_g: fans * mass + (own ? 0 : controllers_g),
        thrust_N: fans * thrust,
        current_A: fans * current,
        printing_h: 0,
        handsOn_h: 0,
        material_g: 0,
      },
      rest_g,
    );
  });
  return {
    printed,
    bought,
    words: [...wordsOf(printed, bought, costs.currency, scrap, unsaid(costs).length === 0), ...unsaid(costs)],
  };
}

function wordsOf(
  printed: FanSet,
  bought: readonly FanSet[],
  money: string,
  scrap: number,
  priced: boolean,
): string[] {
  const hours = printed.printing_h < 10 ? n(printed.printing_h, 2) : n(printed.printing_h);
  const words = [
    `A flying set printed here costs ${n(printed.price)} ${money}: ${n(printed.material_g)} g of material and ${hours} h of printing with ${formatPercent(scrap)} scrap, ${n(printed.handsOn_h, 2)} h of work; it weighs ${n(printed.mass_g)} g and lifts the craft ${n(printed.thrustToWeight)} times its weight.`,
  ];
  for (const set of bought) {
    if (!(set.thrust_N > 0)) {
      words.push(`${set.name}: without its thrust it can't be set beside yours.`);
      continue;
    }
    const apart = set.price - printed.price;
    const cost = !priced
      ? ''
      : Math.abs(apart) < 0.005 * printed.price
        ? 'the same money, '
        : `${n(Math.abs(apart))} ${money} ${apart < 0 ? 'less' : 'more'}, `;
    const forMoney =
      priced && set.price > 0
        ? `${n(set.gramsOfThrustPerMoney)} g of thrust for each ${money} against ${n(printed.gramsOfThrustPerMoney)}, `
        : '';
    words.push(
      `${set.name}: ${cost}${n(set.mass_g)} g, ${n(set.thrustToWeight)} times the weight by its maker's figures; ${forMoney}${n(set.gramsOfThrustPerGram)} g of thrust for each gram of the set against ${n(printed.gramsOfThrustPerGram)}.`,
    );
  }
  const most = priced && bestBuy(printed, bought);
  if (most) words.push(most);
  if (bought.some((set) => set.thrust_N > 0))
    words.push(
      "Makers state thrust on a stiff supply; on your pack's sag a bought unit gives less than that.",
    );
  return words;
}

/** Which gives the most thrust for the money and which for its own mass; null where there is nothing to choose. */
function bestBuy(printed: FanSet, bought: readonly FanSet[]): string | null {
  const sets = [printed, ...bought].filter((set) => set.thrust_N > 0 && set.price > 0);
  if (sets.length < 2) return null;
  const best = (of: (set: FanSet) => number) => sets.reduce((a, b) => (of(b) > of(a) ? b : a)).name;
  const [money, mass] = [best((s) => s.gramsOfThrustPerMoney), best((s) => s.gramsOfThrustPerGram)];
  return money === mass
    ? `Most thrust for the money and for its mass: ${money}.`
    : `Most thrust for the money: ${money}; most for its mass: ${mass}.`;
}

/** What counts as nothing because nobody said its price. */
function unsaid(costs: PrintCosts): string[] {
  const missing = [
    costs.material_perKg > 0 ? '' : 'the print material',
    costs.motor_each > 0 ? '' : 'a motor',
    costs.controller_each > 0 ? '' : 'a controller',
  ].filter((what) => what !== '');
  if (missing.length === 0) return [];
  const list = missing.join(', ').replace(/, ([^,]*)$/, ' and $1');
  return [
    `No price is given for ${list}: ${missing.length > 1 ? 'they count' : 'it counts'} as nothing here, so the costs are not set side by side in words.`,
  ];
}
