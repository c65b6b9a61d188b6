import { seededRandom } from '../numerics/random.ts';
import type { RotorScatter } from './scatter.ts';

/** What many printed rotors came to [kg m]. */
export interface ManyRotors {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
  /** Share of them within the limit asked for. */
  readonly within: number;
}

/**
 * Prints `count` rotors in mind and adds up each one's masses: every blade with its own offset, density and seat, and
 * the bore where it came to lie. Nothing is taken over from the closed form but the standard deviations, so the two
 * check each other. `low` and `high` leave out 5 % on either side.
 */
export function printMany(rotor: RotorScatter, limit: number, count: number, seed: number): ManyRotors {
  const random = seededRandom(seed);
  const sizes = new Float64Array(count);
  for (let k = 0; k < count; k++) sizes[k] = unbalanceOf(rotor, random.normal);
  sizes.sort();
  let sum = 0;
  let within = 0;
  for (const size of sizes) {
    sum += size;
    if (size <= limit) within++;
  }
  const at = (share: number) => sizes[Math.min(count - 1, Math.floor(share * count))];
  return { mean: sum / count, low: at(0.05), high: at(0.95), within: within / count };
}

function unbalanceOf(rotor: RotorScatter, normal: () => number): number {
  const { blades, bladeMass, bladeRadius } = rotor;
  let mass = rotor.rotorMass - blades * bladeMass;
  let x = 0;
  let y = 0;
  for (let i = 0; i < blades; i++) {
    const offset = rotor.offset * normal();
    const dense = 1 + rotor.density * normal();
    const own = dense * (bladeMass + rotor.massPerOffset * offset);
    const moment = dense * (bladeMass * bladeRadius + rotor.momentPerOffset * offset);
    const angle = (2 * Math.PI * i) / blades;
    x += moment * Math.cos(angle) + own * rotor.seat * normal();
    y += moment * Math.sin(angle) + own * rotor.seat * normal();
    mass += own;
  }
  if (blades === 1) x -= bladeMass * bladeRadius;
  return Math.hypot(x - mass * rotor.bore * normal(), y - mass * rotor.bore * normal());
}
