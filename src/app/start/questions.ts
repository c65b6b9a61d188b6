import { batteries, motors, printers } from '../../project/catalogue.ts';
import type { SixAnswers } from '../../study/propose.ts';
import { describeField, type FieldFacts } from '../field/describe.ts';
import { readEntry } from '../field/entry.ts';

/** What stands in the six fields, as typed or chosen. */
export interface Typed {
  readonly mass: string;
  readonly fans: string;
  readonly motor: string;
  readonly battery: string;
  readonly width: string;
  readonly printer: string;
}

export type NumberQuestion = 'mass' | 'fans' | 'width';

export const numberFacts: Readonly<Record<NumberQuestion, FieldFacts>> = {
  mass: {
    ...describeField('brief.payload_g'),
    label: 'Mass without fans and battery',
    help: 'Everything that flies besides motors, controllers, ducts, rotors and battery: frame, electronics, payload.',
    min: 1,
  },
  fans: { ...describeField('craft.fanCount') },
  width: {
    ...describeField('brief.largestDuctWidth_mm'),
    label: 'Largest outer width of one duct',
  },
};

export const firstTyped: Typed = {
  mass: '150',
  fans: '4',
  motor: (motors.find(({ id }) => id === 'motor-1404-2750') ?? motors[0]).id,
  battery: (batteries.find(({ id }) => id === 'battery-lp-3s-650') ?? batteries[0]).id,
  width: '100',
  printer: printers[0].id,
};

export type Checked =
  | { readonly ok: true; readonly answers: SixAnswers }
  | { readonly ok: false; readonly wrong: Partial<Record<NumberQuestion, string>> };

/** The answers, or what is wrong with each number. */
export function checkTyped(typed: Typed): Checked {
  const mass = readEntry(typed.mass, numberFacts.mass);
  const fans = readEntry(typed.fans, numberFacts.fans);
  const width = readEntry(typed.width, numberFacts.width);
  if (!mass.ok || !fans.ok || !width.ok)
    return {
      ok: false,
      wrong: {
        ...(!mass.ok && { mass: mass.why }),
        ...(!fans.ok && { fans: fans.why }),
        ...(!width.ok && { width: width.why }),
      },
    };
  const part = <Part>(list: readonly { id: string; part: Part }[], id: string): Part =>
    (list.find((entry) => entry.id === id) ?? list[0]).part;
  return {
    ok: true,
    answers: {
      bareMass_g: mass.value ?? 0,
      fanCount: fans.value ?? 0,
      motor: part(motors, typed.motor),
      battery: part(batteries, typed.battery),
      largestDuctWidth_mm: width.value ?? 0,
      printer: part(printers, typed.printer),
    },
  };
}
