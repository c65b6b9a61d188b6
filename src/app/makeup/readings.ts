import { motorFromReadings, type MotorFromReadings, type NoLoadReading } from '../../drive/motor-readings.ts';
import type { FieldFacts } from '../field/describe.ts';
import { readEntry } from '../field/entry.ts';

/** The places of the form by the core's own paths. */
export const PLACES = [
  'resistance_mohm',
  'temperature_C',
  'noLoad.0.voltage_V',
  'noLoad.0.current_A',
  'noLoad.0.rpm',
  'noLoad.1.voltage_V',
  'noLoad.1.current_A',
  'noLoad.1.rpm',
] as const;
export type Place = (typeof PLACES)[number];
export type TypedReadings = Readonly<Record<Place, string>>;

export const noReadings: TypedReadings = {
  resistance_mohm: '',
  temperature_C: '20',
  'noLoad.0.voltage_V': '',
  'noLoad.0.current_A': '',
  'noLoad.0.rpm': '',
  'noLoad.1.voltage_V': '',
  'noLoad.1.current_A': '',
  'noLoad.1.rpm': '',
};

const facts = (label: string, unit: string, min: number, max: number, help: string): FieldFacts => ({
  label,
  unit,
  min,
  max,
  help,
  whole: false,
  nullable: false,
});

const noLoad = (which: string): readonly [FieldFacts, FieldFacts, FieldFacts] => [
  facts(`Voltage, ${which} reading`, 'V', 0.1, 100, 'At the motor, while it runs at full command.'),
  facts(`Current, ${which} reading`, 'A', 0, 20, 'With nothing on the shaft.'),
  facts(`Speed, ${which} reading`, 'rpm', 10, 500_000, 'Turns of the can, not magnet poles.'),
];
const [voltage0, current0, rpm0] = noLoad('first');
const [voltage1, current1, rpm1] = noLoad('second');

export const readingFacts: Readonly<Record<Place, FieldFacts>> = {
  resistance_mohm: facts(
    'Line-to-line resistance',
    'mΩ',
    0.1,
    10_000,
    'Between two of the three leads, the mean of the three pairs.',
  ),
  temperature_C: facts('Winding was at', '°C', -40, 150, 'While its resistance was read.'),
  'noLoad.0.voltage_V': voltage0,
  'noLoad.0.current_A': current0,
  'noLoad.0.rpm': rpm0,
  'noLoad.1.voltage_V': voltage1,
  'noLoad.1.current_A': current1,
  'noLoad.1.rpm': rpm1,
};

export type Wrong = Partial<Record<Place, string>>;

export type CheckedReadings =
  | { readonly ok: true; readonly found: Extract<MotorFromReadings, { ok: true }> }
  | { readonly ok: false; readonly wrong: Wrong; readonly general: readonly string[] };

const isPlace = (path: string): path is Place => (PLACES as readonly string[]).includes(path);

/** The core's sentence with the names of the form in place of its paths. */
function inWords(message: string): string {
  let said = message;
  for (const place of PLACES) said = said.replaceAll(place, readingFacts[place].label);
  return said;
}

/** The motor these readings tell of, or what is wrong with each; a second reading left empty is none. */
export function checkReadings(typed: TypedReadings): CheckedReadings {
  const second = PLACES.slice(5).some((place) => typed[place].trim() !== '');
  const wrong: Wrong = {};
  const number = (place: Place): number => {
    const entry = readEntry(typed[place], readingFacts[place]);
    if (entry.ok) return entry.value ?? 0;
    wrong[place] = entry.why;
    return 0;
  };
  const reading = (i: 0 | 1): NoLoadReading => ({
    voltage_V: number(`noLoad.${i}.voltage_V`),
    current_A: number(`noLoad.${i}.current_A`),
    rpm: number(`noLoad.${i}.rpm`),
  });
  const readings = {
    resistance_mohm: number('resistance_mohm'),
    temperature_C: number('temperature_C'),
    noLoad: second ? [reading(0), reading(1)] : [reading(0)],
  };
  if (Object.keys(wrong).length > 0) return { ok: false, wrong, general: [] };
  const found = motorFromReadings(readings);
  if (found.ok) return { ok: true, found };
  const general: string[] = [];
  for (const { path, message } of found.faults)
    if (isPlace(path)) wrong[path] = inWords(message);
    else general.push(inWords(message));
  return { ok: false, wrong, general };
}
