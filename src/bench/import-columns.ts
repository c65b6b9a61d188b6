import { quantitiesWith, unitNamed, type Quantity, type UnitRule } from './import-units.ts';

/** What the name of a column says. */
export interface NameSays {
  readonly as: Quantity | null;
  readonly unit: UnitRule | null;
  /** A unit that was named but is none of this quantity; a sentence is owed. */
  readonly strange: string | null;
}

/** Words by which people name a column, in a few languages that write decimal commas. Earlier rows go first. */
const WORDS: readonly (readonly [Quantity, readonly string[]])[] = [
  ['note', ['note', 'notes', 'remark', 'remarks', 'comment', 'comments', 'bemerkung', 'notiz', 'remarque']],
  ['torque', ['torque', 'moment', 'drehmoment', 'couple', 'par']],
  ['rpm', ['rpm', 'drehzahl', 'revs', 'rev', 'omega', 'rotations', 'tours', 'speed', 'upm', 'regime']],
  ['throttle', ['throttle', 'duty', 'gas', 'pwm', 'stick', 'pulse', 'esc', 'gaz', 'acelerador', 'command']],
  ['voltage', ['voltage', 'volt', 'volts', 'vbat', 'spannung', 'tension', 'voltaje', 'tensione', 'u', 'v']],
  ['current', ['current', 'amps', 'amp', 'ampere', 'strom', 'courant', 'corriente', 'corrente', 'i', 'a']],
  ['power', ['power', 'watts', 'watt', 'leistung', 'puissance', 'potencia', 'w']],
  [
    'scale',
    [
      'thrust',
      'scale',
      'force',
      'weight',
      'mass',
      'load',
      'lift',
      'balance',
      'grams',
      'schub',
      'kraft',
      'gewicht',
      'masse',
      'waage',
      'poussee',
      'poids',
      'force',
      'empuje',
      'peso',
      'spinta',
      'reading',
    ],
  ],
  [
    'time',
    ['time', 't', 'elapsed', 'timestamp', 'clock', 'zeit', 'uhrzeit', 'temps', 'tiempo', 'tempo', 'seconds'],
  ],
];

/** Words beside which the others do not mean what they seem to. */
const NOT_OURS = [
  'erpm',
  'electrical',
  'air',
  'exit',
  'wind',
  'temp',
  'temperature',
  'efficiency',
  'capacity',
  'charge',
  'target',
  'vibration',
  'sound',
  'angle',
  'date',
  'room',
  'ambient',
  'cell1',
  'error',
];

/** Reads a column's name: "Thrust (g)", "voltage_V", "U / V", "n in 1/min", or a unit alone. Total. */
export function readColumnName(name: string): NameSays {
  const inBrackets = /[([{]\s*([^)\]}]*?)\s*[)\]}]/.exec(name);
  const bare = inBrackets ? name.replace(inBrackets[0], ' ') : name;
  const { words, unitCandidates } = partsOf(bare);
  const candidates = inBrackets ? [inBrackets[1], ...unitCandidates] : unitCandidates;
  if (words.some((word) => NOT_OURS.includes(word))) return { as: null, unit: null, strange: null };
  // A letter is a symbol only where it leads a short name: "U (V)", not "motor A thrust".
  const telling = words.filter((word, i) => word.length > 1 || (i === 0 && words.length <= 2));
  const named = WORDS.find(([, list]) => telling.some((word) => list.includes(word)))?.[0] ?? null;
  if (named) {
    for (const text of candidates) {
      const unit = unitNamed(named, text);
      if (unit) return { as: named, unit, strange: null };
    }
  }
  for (const text of inBrackets ? [inBrackets[1]] : named ? [] : candidates) {
    const [only, second] = quantitiesWith(text);
    if (only && !second) return { as: only, unit: unitNamed(only, text), strange: null };
  }
  const strange = named && named !== 'note' && inBrackets?.[1] ? inBrackets[1] : null;
  return { as: strange === null ? named : null, unit: null, strange };
}

/** The words of a name in small letters without accents, and the texts in it that may be a unit, likeliest first. */
function partsOf(name: string): { words: string[]; unitCandidates: string[] } {
  const split = name.replace(/([a-z]{2})([A-Z])/g, '$1 $2').trim();
  const words = split
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '');
  const after = (mark: RegExp) => {
    const pieces = split.split(mark);
    return pieces.length > 1 ? [pieces.at(-1)!] : [];
  };
  const slash = split.indexOf('/');
  return {
    words,
    unitCandidates: [
      name,
      ...after(/\s+in\s+/i),
      ...(slash > 0 ? [split.slice(slash + 1)] : []),
      ...after(/[\s_,:;]+/),
      ...words.slice(-1),
    ],
  };
}

/** Whether a line holds nothing but units: the second line of many tables. */
export const isUnitLine = (cells: readonly string[]): boolean => {
  const said = cells.map(bareUnit).filter((cell) => cell !== '' && cell !== '-');
  return said.length > 0 && said.every((cell) => quantitiesWith(cell).length > 0);
};

export const bareUnit = (cell: string): string => cell.replace(/^[([{]\s*|\s*[)\]}]$/g, '').trim();
