import { GRAVITY } from '../quantities/constants.ts';

/** What a column of a bench log may hold. */
export const QUANTITIES = [
  'time',
  'throttle',
  'scale',
  'voltage',
  'current',
  'power',
  'rpm',
  'torque',
  'note',
] as const;
export type Quantity = (typeof QUANTITIES)[number];

/** How a number of a unit becomes one of the unit rows are kept in: value times factor plus offset. */
export interface UnitRule {
  readonly unit: string;
  readonly factor: number;
  readonly offset: number;
}

/** Unit in which rows keep each quantity. */
export const KEPT_UNIT: Record<Quantity, string> = {
  time: 's',
  throttle: '0..1',
  scale: 'g',
  voltage: 'V',
  current: 'A',
  power: 'W',
  rpm: 'rpm',
  torque: 'Nm',
  note: '',
};

const OUNCE_G = 28.349523125;
const POUND_G = 453.59237;
const GRAM_FORCE_N = GRAVITY / 1000;
const INCH_M = 0.0254;

/** `spellings: factor`, the first spelling shown. Source of ounce, pound, inch: exact, international yard and pound agreement 1959. */
const RULES: Record<Exclude<Quantity, 'note'>, Readonly<Record<string, number>>> = {
  time: {
    's sec secs second seconds sek sekunden': 1,
    'ms msec millis milliseconds': 1e-3,
    'us usec micros': 1e-6,
    'min mins minute minutes minuten': 60,
    'h hr hour hours': 3600,
  },
  throttle: { '0..1 0-1 ratio': 1, '% percent pct prozent': 0.01 },
  scale: {
    'g gram grams gf gramm': 1,
    'kg kgf kilogram kilograms kp': 1000,
    'mg milligrams': 1e-3,
    'n newton newtons': 1 / GRAM_FORCE_N,
    'mn millinewton': 1e-3 / GRAM_FORCE_N,
    'kn kilonewton': 1e3 / GRAM_FORCE_N,
    'oz ozf ounce ounces': OUNCE_G,
    'lb lbs lbf pound pounds': POUND_G,
  },
  voltage: { 'v volt volts': 1, 'mv millivolt millivolts': 1e-3 },
  current: {
    'a amp amps ampere amperes': 1,
    'ma milliamp milliamps milliampere': 1e-3,
    'ua microamp': 1e-6,
  },
  power: { 'w watt watts': 1, 'mw milliwatt': 1e-3, 'kw kilowatt': 1e3 },
  rpm: {
    'rpm 1/min min-1 u/min upm tr/min r/min rev/min /min': 1,
    'hz 1/s s-1 rps r/s u/s rev/s': 60,
    'rad/s rads-1': 30 / Math.PI,
    krpm: 1000,
  },
  torque: {
    'nm newtonmetre newtonmeter': 1,
    mnm: 1e-3,
    ncm: 1e-2,
    nmm: 1e-3,
    'gcm gfcm': GRAM_FORCE_N * 1e-2,
    gmm: GRAM_FORCE_N * 1e-3,
    'kgcm kgfcm': GRAM_FORCE_N * 10,
    'ozin ozfin inoz': OUNCE_G * GRAM_FORCE_N * INCH_M,
    'lbin lbfin inlb': POUND_G * GRAM_FORCE_N * INCH_M,
  },
};

/** How units are written where their lower-case spelling is not how people write them. */
const SHOWN: Readonly<Record<string, string>> = {
  n: 'N',
  mn: 'mN',
  kn: 'kN',
  v: 'V',
  mv: 'mV',
  a: 'A',
  ma: 'mA',
  ua: 'uA',
  w: 'W',
  mw: 'mW',
  kw: 'kW',
  hz: 'Hz',
  nm: 'Nm',
  mnm: 'mNm',
  ncm: 'Ncm',
  nmm: 'Nmm',
};

/** Pulse length of a servo signal: 1000 us is none, 2000 us is full. Common practice, no source. */
const PULSE: UnitRule = { unit: 'us', factor: 1e-3, offset: -1 };

const known = new Map<Quantity, Map<string, UnitRule>>(
  QUANTITIES.map((quantity) => {
    const found = new Map<string, UnitRule>();
    if (quantity !== 'note')
      for (const [spellings, factor] of Object.entries(RULES[quantity])) {
        const all = spellings.split(' ');
        for (const spelling of all) found.set(spelling, { unit: SHOWN[all[0]] ?? all[0], factor, offset: 0 });
      }
    if (quantity === 'throttle')
      for (const s of ['us', 'usec', 'micros', 'microseconds']) found.set(s, PULSE);
    return [quantity, found];
  }),
);

/** The unit of `quantity` that a text names, or null. */
export function unitNamed(quantity: Quantity, text: string): UnitRule | null {
  return known.get(quantity)?.get(plainUnit(text)) ?? null;
}

/** A number or a fraction to multiply a column by, as in `0.14` or `1/7`. */
export function multiplierNamed(text: string): UnitRule | null {
  const parts = /^(\d+\.?\d*|\.\d+)(?:\/(\d+\.?\d*))?$/.exec(text.trim());
  if (!parts) return null;
  const factor = Number(parts[1]) / (parts[2] === undefined ? 1 : Number(parts[2]));
  return Number.isFinite(factor) && factor > 0 ? { unit: `times ${text.trim()}`, factor, offset: 0 } : null;
}

/** The quantities that have a unit of this name. */
export const quantitiesWith = (text: string): Quantity[] =>
  QUANTITIES.filter((quantity) => unitNamed(quantity, text) !== null);

/** The units a quantity may come in, for a sentence. */
export const unitsOf = (quantity: Quantity): string =>
  [...new Set([...(known.get(quantity)?.values() ?? [])].map(({ unit }) => unit))].join(', ');

function plainUnit(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/[µμ]/g, 'u')
    .replace(/⁻¹|\^-1|\^\(-1\)/g, '-1')
    .replace(/[\s·*]|\.$|-(?!1)/g, '');
}
