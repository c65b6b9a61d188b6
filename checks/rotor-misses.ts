import type { Check } from './check.ts';

type Miss = NonNullable<Check['missed']>;

const LOW_SPEED =
  'Most of it below 3 500 rpm (Reynolds number under 18 000): the form lets laminar flow take lift away there, but this rotor keeps its thrust, while the NR640 asks for the loss and more; one set of constants goes between.';

const WIDE_BLADE =
  'The only wide blade among the rotors: without it nothing settles the loss of a low-aspect blade, the fit keeps almost none of it (0.09 instead of 0.79), and two of these blades come out strong in thrust and torque alike.';

const UNKNOWN_CAMBER =
  'The only rotors with their section, whose camber is known no better than "much like a Clark Y": the fit with them wants 0.053, the blind one keeps the expected 0.0355. The camber is four tenths of the miss; the rest is that the blind fit lets laminar effects fade at Reynolds number 34 000 instead of 18 000, so thrust is too strong at low speed and too weak at high.';

/** Where a rotor is known to be off by more than its target, by id of the check. */
export const ROTOR_MISSES: Readonly<Record<string, Miss>> = {
  'rotor-da4002-9-0x6-75-2-cp-blind': {
    why: 'The only rotor of its Reynolds numbers (up to 75 000): without it friction there rests on tunnel polars from 60 000 on and smaller rotors below, and the torque comes out low.',
    ceiling: 0.11,
  },
  'rotor-da4022-5-0x3-75-2-ct-blind': { why: WIDE_BLADE, ceiling: 0.08 },
  'rotor-da4022-5-0x3-75-2-cp-blind': { why: WIDE_BLADE, ceiling: 0.125 },
  'rotor-da4022-5-0x3-75-4-ct': { why: LOW_SPEED, ceiling: 0.062 },
  'rotor-nr640-5x3-16-2-ct-blind': { why: UNKNOWN_CAMBER, ceiling: 0.125 },
  'rotor-nr640-5x3-16-4-ct-blind': { why: UNKNOWN_CAMBER, ceiling: 0.125 },
};
