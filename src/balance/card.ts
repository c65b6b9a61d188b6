import { formatNumber as n } from '../quantities/format.ts';
import type { BalanceAnswer, Workshop } from './types.ts';

/** One step at the bench, with the blanks to fill in. */
export interface CardStep {
  readonly text: string;
  readonly blanks: readonly string[];
}

/** What to take to the bench: cautions first, then the work in its order. */
export interface BenchCard {
  readonly title: string;
  readonly cautions: readonly string[];
  readonly steps: readonly CardStep[];
}

/** A speed to balance at: enough to feel, far from full throttle. Common practice, no source. */
const BENCH_SPEED = 0.5;

/**
 * The card of a rotor. The trial mass it names shakes about as much as the rotor is expected to: enough to tell, too little
 * to harm.
 */
export function benchCard(name: string, balance: BalanceAnswer, workshop: Workshop): BenchCard {
  const { permissible_gmm, expected_gmm, blades, apart } = balance;
  const trial = expected_gmm.value / workshop.radius_mm;
  const speed = (balance.hover_rpm ?? balance.full_rpm) * BENCH_SPEED;
  const places = [0, 120, 240];
  const step = (text: string, ...blanks: string[]): CardStep => ({ text, blanks });
  return {
    title: `Balancing a rotor of ${name}`,
    cautions: [
      'A turning rotor cuts, and a burst one is shot out in its own plane. Eye protection for everyone in the room; nobody, and nothing that matters, in the plane of the rotor.',
      'Clamp the rig and tie it down. Hair, sleeves and leads away. Run it from behind a shield, by remote throttle, with the battery within reach of one pull.',
      'Pull the battery before every touch of the rotor. Stick trial masses inside the rim, press them on, and start slowly.',
      'A cracked, drilled-through or once struck rotor goes into the bin. Local rules and the rules of your workshop come first.',
    ],
    steps: [
      step(
        `Goal: at most ${n(permissible_gmm, 2)} g mm (G ${balance.grade_mmps} at ${n(balance.full_rpm)} rpm). That is ${n((permissible_gmm / workshop.radius_mm) * 1000, 2)} mg at ${n(workshop.radius_mm, 3)} mm from the axis.`,
      ),
      ...(apart && blades > 1
        ? [
            step(
              `Number the ${blades} blades and weigh each to a milligram if the scale can; enter the masses.`,
              ...Array.from({ length: blades }, (_, i) => `blade ${i + 1} ______ g`),
            ),
            step(
              'Set the blades in the order the tool gives and seat every key fully.',
              'order ____________',
            ),
          ]
        : []),
      step(
        'Without the motor: rest the rotor by a straight, smooth pin across two level knife edges. It turns its heavy side down. Mark the top, stick a little tape there inside the rim, and go on until it rests in any position.',
        'tape ______ g',
        'radius ______ mm',
      ),
      step(
        'Mark blade 1 as 0° and write down which way you count round; count all places that way, always.',
        'direction ____________',
      ),
      step(
        `On the motor, clamped: bring it to one speed you can repeat, some ${n(speed, 2)} rpm, and read the vibration once a turn (phone on the rig, microphone, or any sensor). Keep that speed for all runs.`,
        'speed ______ rpm',
        'as it came ______',
      ),
      step(
        trial > 0
          ? `Stick a trial mass of about ${n(trial * 1000, 1)} mg on at ${n(workshop.radius_mm, 3)} mm and run it at each of three places, the last mass off before the next.`
          : 'Stick a small trial mass on and run it at each of three places, the last mass off before the next.',
        'mass ______ g',
        'radius ______ mm',
        ...places.map((place) => `at ${place}° ______`),
      ),
      step(
        'Take the trial mass off. Enter the runs; correct as the tool says.',
        'added ______ mg at ______°',
      ),
      step(
        'Run once more at the same speed. A reading below the first shows that it worked; if it rose, a place or a mass was entered wrong: go through the runs again.',
        'now ______',
      ),
      step('Look for cracks, then run up to full throttle in steps, from behind the shield.'),
    ],
  };
}
