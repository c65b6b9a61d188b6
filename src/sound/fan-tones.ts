import { ductModes, interactions, type ModeFate } from './duct-modes.ts';
import { gustResponse, patternTone, steadyTone } from './rotor-tones.ts';
import type { SoundSource, VanesForSound } from './source.ts';
import type { Part } from './types.ts';

/** One order of the shaft, and the mean square pressure each cause gives [Pa^2 at 1 m, mean over directions]. */
export interface OrderTone {
  readonly order: number;
  readonly parts: Readonly<Partial<Record<Part, number>>>;
}

/** Harmonics of the blade passing that are worked out, as long as they stay below the highest frequency. */
const HARMONICS = 8;
const HIGHEST_HZ = 14_000;

/** Patterns of more lobes than this hardly sound at the speeds of small fans. */
const MOST_LOBES = 4;

/** -14 dB [Pa^2], and no sound at all. */
const INAUDIBLE = 1.6e-11;
const SILENT = { loading: 0, thickness: 0 };

/** The fate of a pattern without a duct. */
const FREE: ModeFate = { lobes: 0, cutOnRatio: Infinity, cutOn: true, decay: 0, share: 1 };

export type FateOf = (lobes: number, omega: number, from?: readonly [number, number]) => ModeFate;

/** Says what of a pattern leaves this fan; all of it without a duct. */
export const fateIn = ({ duct, soundSpeed, axialSpeed }: SoundSource): FateOf =>
  duct ? ductModes(duct, soundSpeed, axialSpeed) : () => FREE;

/**
 * All tones of one fan. The free-field sum of each pattern is multiplied by the share of its energy that the duct lets out;
 * what the short duct's lip and rim scatter besides is part of the interval.
 */
export function fanTones(source: SoundSource): OrderTone[] {
  const { blades, omega } = source;
  if (!(omega > 0)) return [];
  const fate = fateIn(source);
  const tones: OrderTone[] = [];
  const turns = omega / (2 * Math.PI);
  let steady = { loading: Infinity, thickness: Infinity };
  for (let n = 1; n <= HARMONICS && n * blades * turns < HIGHEST_HZ; n++) {
    const order = n * blades;
    const rotor = fate(order, order * omega).share;
    // Steady tones fall fast with their order; once out of hearing they stay there.
    steady = steady.loading + steady.thickness < INAUDIBLE ? SILENT : steadyTone(source, order);
    const { loading, thickness } = steady;
    tones.push({
      order,
      parts: {
        loading: loading * rotor,
        thickness: thickness * rotor,
        'uneven air': unevenAir(source, order, fate),
        'rotor and vanes': source.vanes ? rotorAndVanes(source, source.vanes, n, fate) : 0,
      },
    });
  }
  for (let order = 1; order < 2 * blades; order++) {
    if (order % blades === 0) continue;
    tones.push({ order, parts: { 'unequal blades': unequalBlades(source, order, fate) } });
  }
  return tones.sort((a, b) => a.order - b.order);
}

/**
 * Blades that carry unlike loads sound at every turn of the shaft. Independent departures of share s a blade add up to
 * |sum| = s sqrt(B) blade loads at any order that is no multiple of B; blades out of place by d add q d to s.
 */
function unequalBlades(source: SoundSource, order: number, fate: FateOf): number {
  const { blades, omega, bladeScatter, placeScatter } = source;
  const share = Math.hypot(bladeScatter, order * placeScatter) / Math.sqrt(blades);
  return patternTone(source, order, order, share) * fate(order, order * omega).share;
}

/**
 * Load that swings k times a turn gives patterns of q - k and q + k lobes, which sound far better than the steady load's q:
 * share e_1 / k with e_1 of `unevenAir` (estimate), through the gust response, half of it each way.
 */
function unevenAir(source: SoundSource, order: number, fate: FateOf): number {
  const { omega, strips, unevenAir: once } = source;
  const outer = strips[Math.floor(0.75 * strips.length)];
  let sum = 0;
  for (let lobes = 0; lobes <= MOST_LOBES; lobes++) {
    let squares = 0;
    for (const k of lobes === 0 ? [order] : [order - lobes, order + lobes]) {
      if (k < 1) continue;
      squares += ((once / k / 2) * gustResponse((k * omega * outer.chord) / (2 * outer.relativeSpeed))) ** 2;
    }
    sum += patternTone(source, order, lobes, Math.sqrt(squares)) * fate(lobes, order * omega).share;
  }
  return sum;
}

/** Lift slope of a thin section over 2 pi is 1; wake and strut fields are two-dimensional. */
const TWO_PI = 2 * Math.PI;

/** Mean square over all directions of cos(th) on the axis of a force. */
const DIPOLE = 1 / 3;

/**
 * Wakes of the blades that sweep over the vanes, and the field of the vanes that the blades sweep through, at harmonic n.
 * Wake: the hole in the velocity 2.42 sqrt(c_d) / (x/c + 0.3) deep and 0.68 sqrt(c_d (x/c + 0.15)) chords half wide (Silverstein,
 * Katzoff and Bullivant, NACA report 651, 1939), taken as a cosine arch of that width in each pitch; each vane answers with
 * rho pi c_v V w |S|, less as the wake reaches root and tip of the vane at different times, 1 / sqrt(1 + (q skew / 2)^2); V vanes
 * make the patterns m = n B + k V of as many forces in step. The field ahead of the vanes: the
 * blades' load swings by (2 pi / c_l) (V_x / W) (t / pitch) exp(-2 pi x / pitch) at V a turn (doublet of the strut's thickness;
 * our estimate). Good for which counts are better, within some 10 dB for how loud.
 */
function rotorAndVanes(source: SoundSource, vanes: VanesForSound, n: number, fate: FateOf): number {
  const { blades, omega, soundSpeed: c, strips, density, axialSpeed } = source;
  const order = n * blades;
  const modes = interactions(blades, vanes.count, n, 2 * MOST_LOBES).slice(0, 3);
  if (modes.length === 0) return 0;
  const at = strips[Math.floor(0.6 * strips.length)];
  const through = Math.max(1, Math.abs(axialSpeed));
  const swirl = Math.hypot(through, omega * at.radius * 0.2);
  const along = vanes.gap / at.chord / Math.max(0.2, through / at.relativeSpeed);
  const hole = Math.min(0.5, (2.42 * Math.sqrt(at.cd)) / (along + 0.3));
  const halfWidth = 0.68 * at.chord * Math.sqrt(at.cd * (along + 0.15));
  const pitch = (TWO_PI * at.radius) / blades;
  // Fourier part n of an arch of half width Y in a pitch, seen across the vane.
  const gust =
    hole *
    (omega * at.radius) *
    archHarmonic(n, Math.min(0.5, (halfWidth * at.relativeSpeed) / through / pitch));
  const height = strips.reduce((sum, s) => sum + s.width, 0);
  const respond = gustResponse((order * omega * vanes.chord) / (2 * swirl));
  const skew = 1 / Math.hypot(1, (order * edgeSkew(source)) / 2);
  const force = density * Math.PI * vanes.chord * swirl * gust * respond * skew * height * vanes.count;
  const vanePitch = (TWO_PI * at.radius) / vanes.count;
  const swing =
    (TWO_PI / Math.max(0.3, Math.abs(at.cl))) *
    (through / at.relativeSpeed) *
    (vanes.thickness / vanePitch) *
    Math.exp((-TWO_PI * vanes.gap) / vanePitch);
  let sum = 0;
  for (const { lobes, vaneTurns } of modes) {
    // Forces in step at wave number k, spread round as m lobes: as J_m of the ring's size, at its best direction's half.
    const ring = ringFactor(lobes, (order * omega * at.radius) / c);
    const wake = ((order * omega * force) / (4 * Math.PI * c)) ** 2 * 0.5 * DIPOLE * ring;
    sum += wake * fate(lobes, order * omega, source.duct?.fromVanes).share;
    const k = Math.abs(vaneTurns) * vanes.count;
    const answer = gustResponse((k * omega * at.chord) / (2 * at.relativeSpeed));
    const share = ((swing ** Math.abs(vaneTurns) * answer) / 2) * Math.SQRT1_2;
    sum += patternTone(source, order, lobes, Math.min(0.3, share)) * fate(lobes, order * omega).share;
  }
  return sum;
}

/** Angle round the axis by which the wakes of hub and tip reach a straight vane apart: their back edges' places [rad]. */
function edgeSkew({ strips }: SoundSource): number {
  const place = ({ chordAround, radius }: SoundSource['strips'][number]) => chordAround / 2 / radius;
  return Math.abs(place(strips[0]) - place(strips[strips.length - 1]));
}

/** Amplitude of harmonic n of a cosine arch of half width `y` (over the pitch, at most 1/2) and height 1, about zero. */
function archHarmonic(n: number, y: number): number {
  const x = 2 * n * y;
  return Math.abs(1 - x) < 1e-3 || x === 0
    ? 2 * y * 0.5
    : Math.abs(((4 * y) / Math.PI) * (Math.cos((Math.PI * x) / 2) / (1 - x * x)));
}

/** How well a ring of m lobes and size ka sounds against one without lobes: 1 for m = 0, falling as (ka/2m)^2m. */
function ringFactor(lobes: number, ka: number): number {
  const m = Math.abs(lobes);
  if (m === 0) return 1;
  return Math.min(1, (ka / (2 * m)) ** (2 * m));
}
