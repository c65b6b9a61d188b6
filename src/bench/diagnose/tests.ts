import { radiansFromDegrees } from '../../quantities/units.ts';
import type { UnknownId } from './unknowns.ts';

export type TestId =
  | 'rpm by sound'
  | 'current and voltage'
  | 'exit speed'
  | 'thread angle'
  | 'half throttle'
  | 'gap by feeler'
  | 'chord by calliper'
  | 'angle by gauge'
  | 'straightedge'
  | 'known weight'
  | 'farther from the pan'
  | 'stick check'
  | 'pack resistance'
  | 'winding resistance'
  | 'free run'
  | 'which way it turns'
  | 'which way up'
  | 'look through the duct'
  | 'current limit'
  | 'look at the blades'
  | 'smoke at the lip';

/** What a test looks at: a reading at the highest point, one unknown itself, or how the rotor turns. */
export type TestAim =
  | { readonly kind: 'channel'; readonly channel: 'rpm' | 'current' | 'exit' | 'thread' | 'half' }
  | { readonly kind: 'unknown'; readonly unknown: UnknownId }
  | { readonly kind: 'turn'; readonly turn: 'either' | 'upside down' };

export interface TestSpec {
  readonly id: TestId;
  readonly aim: TestAim;
  /** Hands and head at the bench; common practice, no source. */
  readonly minutes: number;
  /** Standard deviation of the outcome, in the unit of its aim (rpm, current and exit speed: of the logarithm). */
  readonly sd: number;
  readonly name: string;
  readonly how: string;
  /** Said wherever the test is. */
  readonly caution?: string;
}

const SPINNING =
  'Craft tied down, shield up, eye protection on, fingers and loose things clear of the rotor and of its plane.';
const UNPLUGGED = 'Take the battery out first.';

const channel = (c: 'rpm' | 'current' | 'exit' | 'thread' | 'half'): TestAim => ({
  kind: 'channel',
  channel: c,
});
const unknown = (u: UnknownId): TestAim => ({ kind: 'unknown', unknown: u });

/** Measurements that can be asked for next. */
export const TESTS: readonly TestSpec[] = [
  {
    id: 'rpm by sound',
    aim: channel('rpm'),
    minutes: 2,
    sd: 0.006,
    name: 'the speed, by sound',
    how: 'Record the fan with a phone at arm’s length for ten seconds at the same throttle and let `fanwright tach` read the speed.',
    caution: SPINNING,
  },
  {
    id: 'current and voltage',
    aim: channel('current'),
    minutes: 4,
    sd: 0.035,
    name: 'the current',
    how: 'Put a meter between pack and controller and note amps and volts at the same throttle.',
    caution: `${SPINNING} A shorted lithium pack burns: insulate the joints and plug in last.`,
  },
  {
    id: 'exit speed',
    aim: channel('exit'),
    minutes: 5,
    sd: 0.08,
    name: 'the exit speed, by a hand anemometer',
    how: 'Hold a small anemometer in the exit at three quarters of the radius, at the same throttle, and note the speed.',
    caution: SPINNING,
  },
  {
    id: 'thread angle',
    aim: channel('thread'),
    minutes: 4,
    sd: radiansFromDegrees(4),
    name: 'the thread angle behind the rotor',
    how: 'Hold a thread on a thin wire behind the rotor at three quarters of the radius and photograph how far it leans from the axis.',
    caution: `${SPINNING} Tape the thread to the wire: what comes loose goes through the fan.`,
  },
  {
    id: 'half throttle',
    aim: channel('half'),
    minutes: 2,
    sd: 0.03,
    name: 'a reading at half throttle',
    how: 'Take the same reading once more at half throttle.',
    caution: SPINNING,
  },
  {
    id: 'gap by feeler',
    aim: unknown('gap'),
    minutes: 3,
    sd: 1e-4,
    name: 'the tip gap, with a feeler strip',
    how: 'Push strips of paper or feeler gauge between blade tip and wall at four places round the duct and take the mean.',
    caution: UNPLUGGED,
  },
  {
    id: 'chord by calliper',
    aim: unknown('edge'),
    minutes: 3,
    sd: 0.02,
    name: 'the width of the printed blades',
    how: 'Measure the blade with a calliper at three quarters of its length and compare with the drawing.',
    caution: UNPLUGGED,
  },
  {
    id: 'angle by gauge',
    aim: unknown('angle'),
    minutes: 8,
    sd: radiansFromDegrees(1.2),
    name: 'the blade angle',
    how: 'Photograph the blade from its tip, straight on, at three quarters of its length and measure its angle to the plane of the hub.',
    caution: UNPLUGGED,
  },
  {
    id: 'straightedge',
    aim: unknown('flat'),
    minutes: 3,
    sd: 0.15,
    name: 'the hollow of the blades',
    how: 'Lay a straightedge across the hollow side of a blade and see how much of the drawn hollow is left.',
    caution: UNPLUGGED,
  },
  {
    id: 'known weight',
    aim: unknown('scale'),
    minutes: 3,
    sd: 0.006,
    name: 'the rig with a known weight',
    how: 'Hang a known weight where the fan pulls and see whether the scale shows it.',
    caution: UNPLUGGED,
  },
  {
    id: 'farther from the pan',
    aim: unknown('pan'),
    minutes: 8,
    sd: 0.03,
    name: 'the same reading farther from the pan',
    how: 'Raise the fan three diameters above pan and table, or turn it to blow up, and read thrust again at the same throttle.',
    caution: SPINNING,
  },
  {
    id: 'stick check',
    aim: unknown('throttle'),
    minutes: 2,
    sd: 0.01,
    name: 'the throttle that really reaches the controller',
    how: 'With the rotor off, look at the output the receiver or flight controller sends at full stick, and teach the controller both ends.',
    caution: 'Rotor off for this one.',
  },
  {
    id: 'pack resistance',
    aim: unknown('pack'),
    minutes: 4,
    sd: 0.15,
    name: 'the inner resistance of the pack',
    how: 'Read it on a charger that shows it, or note the volts at rest and under a known current.',
    caution: 'Handle and charge lithium cells where nothing else can burn, and stay by them.',
  },
  {
    id: 'winding resistance',
    aim: unknown('winding'),
    minutes: 8,
    sd: 0.06,
    name: 'the winding resistance, joints included',
    how: 'Send one ampere from a bench supply through two motor leads at the controller end and read the volts across them.',
    caution: 'Seconds only: the winding warms.',
  },
  {
    id: 'free run',
    aim: unknown('kv'),
    minutes: 6,
    sd: 0.02,
    name: 'the speed per volt, without the rotor',
    how: 'Run the motor without the rotor at full throttle, read volts and speed; `fanwright motor` turns them into constants.',
    caution: 'Rotor off, motor held fast, eye protection on.',
  },
  {
    id: 'which way it turns',
    aim: { kind: 'turn', turn: 'either' },
    minutes: 1,
    sd: 0.03,
    name: 'whether the rounded edges of the rotor go first',
    how: 'Watch it run down from low throttle: the rounded edges of the blades go first.',
    caution: SPINNING,
  },
  {
    id: 'which way up',
    aim: { kind: 'turn', turn: 'upside down' },
    minutes: 1,
    sd: 0.03,
    name: 'which way up the rotor sits',
    how: 'Look at the blades: their hollow side faces the exit.',
    caution: UNPLUGGED,
  },
  {
    id: 'look through the duct',
    aim: unknown('blocked'),
    minutes: 2,
    sd: 0.3,
    name: 'what stands in the duct',
    how: 'Look through the duct for leads, strings, support material, a hand or table near the lip; move them and read again.',
    caution: UNPLUGGED,
  },
  {
    id: 'current limit',
    aim: unknown('limit'),
    minutes: 5,
    sd: 0.03,
    name: 'the current limit of controller or supply',
    how: 'Look up the current limit set in the controller or on the bench supply, and whether either got hot.',
  },
  {
    id: 'look at the blades',
    aim: unknown('edge'),
    minutes: 1,
    sd: 0.1,
    name: 'whether the blades came out whole',
    how: 'Look along each blade for lifted layers and edges cut short.',
    caution: UNPLUGGED,
  },
  {
    id: 'smoke at the lip',
    aim: unknown('blocked'),
    minutes: 8,
    sd: 0.5,
    name: 'whether the air follows the lip',
    how: 'Lead a thread of smoke or a little powder over the lip and see whether it follows it all round.',
    caution: SPINNING,
  },
];

export const testById = new Map(TESTS.map((t) => [t.id, t]));
