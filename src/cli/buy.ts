import { Command } from 'commander';
import { formatNumber as n } from '../quantities/format.ts';
import {
  makeOrBuy,
  type BoughtUnit,
  type FanSet,
  type MakeOrBuy,
  type PrintCosts,
} from '../study/make-or-buy.ts';
import { boughtOf, costsOf } from '../study/purchases.ts';
import { collect } from './assess.ts';
import { BadInput } from './fault.ts';
import { asJson, type Io } from './io.ts';
import { numberFrom } from './numbers.ts';
import { openProject, type OpenOptions } from './open.ts';
import { bullet, columns } from './text.ts';

interface BuyOptions extends OpenOptions {
  readonly unit?: readonly BoughtUnit[];
  readonly material?: number;
  readonly motor?: number;
  readonly controller?: number;
  readonly printerHour?: number;
  readonly scrap?: number;
  readonly rate?: number;
  readonly handsOn?: number;
  readonly labour?: number;
  readonly currency?: string;
  readonly json?: boolean;
}

const MOST = 1_000_000;
const price = (flag: string) => numberFrom(flag, 0, MOST);

/** `fanwright buy FILE`: a flying set of printed fans beside units one can buy. */
export function buyCommand(io: Io): Command {
  return new Command('buy')
    .description('Set the printed fans beside units one can buy: price, mass, thrust, hours.')
    .argument('<FILE>', 'project file')
    .option('--material <PRICE>', 'print material, for one kg', price('--material'))
    .option('--motor <PRICE>', 'one motor', price('--motor'))
    .option('--controller <PRICE>', 'one controller channel', price('--controller'))
    .option(
      '--unit <NAME:PRICE:MASS:THRUST:CURRENT>',
      'a bought unit: price, mass g, thrust N, current A; may be given several times',
      (text: string, list: readonly BoughtUnit[] = []) => [...list, unitFrom(text)],
    )
    .option('--printer-hour <PRICE>', 'energy and wear of the printer, for an hour', price('--printer-hour'))
    .option('--scrap <X>', 'share of prints that go to scrap, 0 to 0.95', numberFrom('--scrap', 0, 0.95))
    .option('--rate <MM3PS>', 'material laid down, mm³/s', numberFrom('--rate', 0.01, 1000, 'mm³/s'))
    .option('--hands-on <H>', 'work on one printed fan, h', numberFrom('--hands-on', 0, 1000, 'h'))
    .option('--labour <PRICE>', 'an hour of your own time', price('--labour'))
    .option('--currency <WORD>', 'word or sign for the money')
    .option('--build <ID>', 'use one of the builds in the project file')
    .option('--set <path=value>', 'change a value for this run only; may be given several times', collect)
    .option('--json', 'print every figure as JSON')
    .addHelpText('after', BUY_NOTES)
    .action((file: string, options: BuyOptions) => {
      const { answer, currency } = answerFor(file, options);
      io.out(options.json ? asJson(answer) : textOf(answer, currency));
    });
}

function answerFor(file: string, options: BuyOptions): { answer: MakeOrBuy; currency: string } {
  const { project } = openProject(file, options);
  const filed = costsOf(project);
  const costs: PrintCosts = {
    currency: options.currency ?? filed.currency,
    material_perKg: options.material ?? filed.material_perKg,
    motor_each: options.motor ?? filed.motor_each,
    controller_each: options.controller ?? filed.controller_each,
    printer_perHour: options.printerHour ?? filed.printer_perHour,
    scrap_ratio: options.scrap ?? filed.scrap_ratio,
    rate_mm3ps: options.rate ?? filed.rate_mm3ps,
    handsOn_h: options.handsOn ?? filed.handsOn_h,
    labour_perHour: options.labour ?? filed.labour_perHour,
  };
  const needed = [
    ['--material', 'material.pricePerKg', options.material ?? (filed.material_perKg || undefined)],
    ['--motor', 'purchases.motorPrice', options.motor ?? (filed.motor_each || undefined)],
    ['--controller', 'purchases.controllerPrice', options.controller ?? (filed.controller_each || undefined)],
  ] as const;
  const missing = needed.filter(([, , price]) => price === undefined);
  if (missing.length > 0)
    throw new BadInput(
      `buy needs the prices of one kg of material, one motor and one controller channel in the same money; the file does not say ${missing.map(([, path]) => path).join(', ')}: add it there or give ${missing.map(([flag]) => `${flag} PRICE`).join(' ')}.`,
    );
  return {
    answer: makeOrBuy(project, costs, options.unit ?? boughtOf(project)),
    currency: costs.currency,
  };
}

const RANGES: readonly (readonly [string, number, number])[] = [
  ['price', 0, MOST],
  ['mass g', 0.1, 100_000],
  ['thrust N', 0, 100_000],
  ['current A', 0, 10_000],
];

function unitFrom(text: string): BoughtUnit {
  const parts = text.split(':');
  const end = parts.at(-1) === 'controller' ? parts.length - 1 : parts.length;
  const name = parts
    .slice(0, end - 4)
    .join(':')
    .trim();
  const values = parts
    .slice(Math.max(0, end - 4), end)
    .map((part) => (/^(\d+\.?\d*|\.\d+)$/.test(part.trim()) ? Number(part) : NaN));
  const wrong = RANGES.findIndex(([, low, high], i) => !(values[i] >= low && values[i] <= high));
  if (name === '' || end < 5 || wrong >= 0) {
    const what = end < 5 || name === '' ? '' : `; its ${RANGES[wrong][0]} is out of range or no number`;
    throw new BadInput(
      `--unit is "${text.slice(0, 60)}"${what}; it must be name, price, mass in g, thrust in N and current in A with colons between, as in "pod 50:19:21:1.2:8".`,
    );
  }
  const [unitPrice, mass_g, thrust_N, current_A] = values;
  return {
    name,
    price: unitPrice,
    mass_g,
    thrust_N,
    current_A,
    ...(end < parts.length && { includesController: true }),
  };
}

function textOf({ printed, bought, words }: MakeOrBuy, currency: string): string {
  const row = (set: FanSet) => [
    set.name,
    n(set.price),
    n(set.mass_g),
    n(set.thrust_N),
    set.current_A === null ? '-' : n(set.current_A),
    n(set.thrustToWeight),
    set.gramsOfThrustPerMoney === Infinity ? '-' : n(set.gramsOfThrustPerMoney),
    n(set.gramsOfThrustPerGram),
    n(set.printing_h, 2),
    n(set.handsOn_h, 2),
  ];
  return (
    `One flying set of fans with motors and controllers; prices in ${currency}\n\n` +
    columns([
      [
        'set',
        'price',
        'g',
        'thrust N',
        'A',
        'thrust/weight',
        'g a price',
        'g a gram',
        'printing h',
        'work h',
      ],
      ...[printed, ...bought].map(row),
    ]) +
    `\n${words.map((text) => bullet(text)).join('')}`
  );
}

const BUY_NOTES = `
Nothing is written. Every price is yours, all in the same money; none is built in. What is not
given here is read from the project file: material.pricePerKg, purchases (motorPrice,
controllerPrice, printerHourPrice, labourHourPrice, scrap_ratio, laidDown_mm3ps, handsOn_h,
currency) and its units; --unit takes the place of those. A price of 0 in the file is one not
said. A set is one fan for each place on the craft, with motor and controller. A bought unit keeps
the project's controllers and is charged one, unless its --unit ends in :controller.

Where neither says: scrap 0.15, 4 mm³/s, 0.5 h of work (common practice, no source), printer hour
and labour 0. "g a price" and "g a gram" are grams of thrust for each unit of money and for each
gram of the set; thrust/weight is that of the whole craft with the set in it. A maker's thrust is
taken as stated, on the maker's own supply.

Keys of --json: printed and each of bought: name, price, mass_g, thrust_N, current_A, printing_h,
handsOn_h, material_g, gramsOfThrustPerMoney, gramsOfThrustPerGram, thrustToWeight; and words.

Examples, with invented prices:
  fanwright buy scout.fanwright.json
  fanwright buy scout.fanwright.json --material 25 --motor 12 --controller 8
  fanwright buy scout.fanwright.json --material 25 --motor 12 --controller 8 --printer-hour 0.3 \\
    --unit "pod 50:19:21:1.2:8" --unit "pod 64:24.5:30:1.9:11:controller" --json`;
