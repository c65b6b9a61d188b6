import { degreesFromRadians, millimetresFromMetres } from '../../quantities/units.ts';
import { formatNumber as n, formatPercent } from '../../quantities/format.ts';
import type { Interval } from '../../quantities/interval.ts';
import type { CauseId } from './causes.ts';

/** A cause in words: its name as a statement, what it looks like in numbers, and what to do about it. */
export interface CauseWords {
  readonly name: string;
  /** "about 1.2 mm wider than drawn (0.9 to 1.6)"; left out where it has no size. */
  readonly size?: (i: Interval) => string;
  readonly fix: string;
}

const range = (i: Interval, show: (x: number) => string, unit: string) =>
  `${show(i.value)}${unit} (${show(Math.min(i.low, i.high))} to ${show(Math.max(i.low, i.high))})`;

/** An interval with a change of unit that may turn it round. */
const mapped = (i: Interval, f: (x: number) => number): Interval => {
  const [a, b] = [f(i.low), f(i.high)];
  return { value: f(i.value), low: Math.min(a, b), high: Math.max(a, b) };
};

const factor = (i: Interval) => range(mapped(i, Math.exp), (x) => n(x, 2), ' times');
const share = (i: Interval) =>
  range(
    mapped(i, (x) => Math.max(0, x)),
    (x) => formatPercent(x),
    '',
  );
const signed = (i: Interval) =>
  range(
    mapped(i, (x) => Math.exp(x) - 1),
    (x) => (x > 0 ? '+' : '') + formatPercent(x),
    '',
  );

export const CAUSE_WORDS: Readonly<Record<CauseId, CauseWords>> = {
  angle: {
    name: 'The blades stand at another angle than drawn',
    size: (i) =>
      `${i.value < 0 ? 'flatter' : 'steeper'} by ${range(
        mapped(i, (x) => Math.abs(degreesFromRadians(x))),
        (x) => n(x, 2),
        ' degrees',
      )}`,
    fix: 'Print the blades so that they cannot twist or sag (thicker root, other lie, slower cooling), or draw them by as much steeper or flatter.',
  },
  edge: {
    name: 'The blades came out cut short at their edges',
    size: (i) => `${share(i)} of the width is missing`,
    fix: 'Thicken the edges to at least one printed line, or print with a finer line or resin.',
  },
  flat: {
    name: 'The blades came out flat, without their hollow',
    size: (i) => `${share(i)} of the hollow is missing`,
    fix: 'Lay the blades so that layers follow the hollow, use thinner layers, and do not sand it away.',
  },
  rough: {
    name: 'The blades drag more than they should: rough or blunt',
    size: (i) => `drag ${factor(i)} that of the printed section expected`,
    fix: 'Smooth the suction side, round the front edge and thin the back edge; then check the balance again.',
  },
  gap: {
    name: 'The gap between blade tips and duct wall is too wide',
    size: (i) => `wider than drawn by ${range(mapped(i, millimetresFromMetres), (x) => n(x, 2), ' mm')}`,
    fix: 'Line the duct at the rotor, print a larger rotor, or print the duct again; round first, then close.',
  },
  blocked: {
    name: 'Something in duct or lip holds the air back',
    size: (i) => `a loss of ${range(i, (x) => n(x, 2), '')} dynamic pressures at the rotor`,
    fix: 'Clear leads, strings and support from the duct, round and smooth the lip, and keep table and hand a diameter away.',
  },
  backward: {
    name: 'The rotor turns backward',
    fix: 'Swap two of the three motor leads, or reverse the motor in its controller; make sure the right rotor is on the right motor.',
  },
  'upside down': {
    name: 'The rotor sits upside down',
    fix: 'Take the rotor off and put it on with the hollow side of its blades toward the exit.',
  },
  kv: {
    name: 'The motor turns another number of turns for each volt than the project says',
    size: (i) => signed(i),
    fix: 'Enter the speed per volt you measured; if it is far off, the motor is not the one on the label.',
  },
  winding: {
    name: 'The motor loses its speed under load: winding or joints have too much resistance',
    size: (i) => `${factor(i)} the resistance expected`,
    fix: 'Resolder joints and plugs, shorten the leads, let it cool between runs; a motor that was too hot once may stay weak.',
  },
  limit: {
    name: 'Motor, controller or supply holds the current back: the motor is out of its torque',
    size: (i) => `${share(i)} of the full-throttle current is refused`,
    fix: 'Raise the limit of the controller or supply if the motor stands it; else fewer or flatter blades, or a motor with fewer turns a volt.',
  },
  pack: {
    name: 'The battery sags more than expected',
    size: (i) => `${factor(i)} the inner resistance expected`,
    fix: 'Charge and warm the pack, use a fresh or larger one, and thicker, shorter leads.',
  },
  'part throttle': {
    name: 'Less throttle reached the controller than was written down',
    size: (i) => `${share(mapped(i, Math.exp))} of it`,
    fix: 'Teach the controller both ends of the throttle and read again at a throttle you can repeat.',
  },
  scale: {
    name: 'The rig shows another thrust than there is',
    size: (i) => `it shows ${share(mapped(i, Math.exp))} of it`,
    fix: 'Check lever arms, strings and friction with a known weight, and enter the ratio you find.',
  },
  pan: {
    name: 'The jet blows on the pan and takes part of its own thrust back',
    size: (i) => `${share(i)} of the thrust`,
    fix: 'Raise the fan three diameters or more, blow up instead of down, or use a narrow post instead of a pan.',
  },
};

/** "about 4 to 1" for a chance above one half, "about 1 to 4" below. */
export function oddsWords(chance: number): string {
  const p = Math.min(0.9999, Math.max(0.0001, chance));
  const odds = p >= 0.5 ? p / (1 - p) : (1 - p) / p;
  const ratio = odds >= 100 ? 'more than 100' : odds >= 8 ? n(odds, 1) : n(odds, odds < 2.5 ? 2 : 1);
  if (Math.abs(odds - 1) < 0.15) return 'about even';
  return p >= 0.5 ? `about ${ratio} to 1`.replace('about more', 'more') : `1 to ${ratio}`;
}
