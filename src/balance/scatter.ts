import { integrate } from '../numerics/quadrature.ts';
import type { Fan, Material, Printer } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import { bladeAt, bladeCurves } from '../shape/blade.ts';
import { standsAcross } from '../shape/lies.ts';
import { sectionIntegrals, sectionOutline, sectionSpecAt } from '../shape/section.ts';
import type { PrintedVolumes } from '../shape/volumes.ts';
import { addSpreads, type Spread } from './spread.ts';

/**
 * Scatter of the density from blade to blade of one print, one standard deviation over the mean: flow of the filament,
 * cure of the resin. Parts of their own lie at other places of the bed and scatter twice as much. Estimates, no source.
 */
const DENSITY_SCATTER: Readonly<Record<Printer['process'], number>> = { filament: 0.01, resin: 0.003 };
const APART = 2;

/** Points a side of the outlines: mass and perimeter to about 0.2 %. */
const POINTS = 20;

/** What the balance of a printed rotor depends on. SI. */
export interface RotorScatter {
  readonly blades: number;
  readonly rotorMass: number;
  readonly bladeMass: number;
  /** Radius of a blade's centre of mass. */
  readonly bladeRadius: number;
  /** Blades printed each by itself. */
  readonly apart: boolean;
  /** Mass [kg] and moment about the axis [kg m] that a blade gains for each metre its sides come out proud. */
  readonly massPerOffset: number;
  readonly momentPerOffset: number;
  /** One standard deviation: of that offset of a whole blade [m], of density over the mean, of the bore [m], of a seat [m]. */
  readonly offset: number;
  readonly density: number;
  readonly bore: number;
  readonly seat: number;
}

/**
 * Reads the scatter of a rotor off the printer and the blade's sections. Each layer's outline comes out proud by some
 * offset d, so a section of chord c, thickness t, angle b and perimeter p gains
 * - one piece, axis upright: each layer cuts the blade along the direction of turning: 2 d (c |sin b| + t |cos b|);
 * - a blade apart, standing on its root: the section lies in the layer: p d;
 * - a blade apart, lying on the bed: only its edges grow: 2 d t.
 * What is wrong with a whole print is wrong with all its blades and leaves the balance alone; from blade to blade the
 * layers scatter, each by the printer's scatter s and by itself, so a blade of N layers is off by d = s / sqrt(N) (an
 * estimate, no source). Bore and seats lie off by s in x and in y.
 */
export function rotorScatter(
  fan: Fan,
  printer: Printer,
  material: Material,
  volumes: Pick<PrintedVolumes, 'rotor' | 'blades'>,
): RotorScatter {
  const curves = bladeCurves(fan);
  const apart = fan.rotorParts === 'blades apart';
  const standing = standsAcross(fan);
  const seen = new Map<number, { area: number; gain: number }>();
  const sectionAt = (radius: number) => {
    const known = seen.get(radius);
    if (known) return known;
    const at = bladeAt(curves, radius);
    const { area, perimeter } = sectionIntegrals(sectionOutline(sectionSpecAt(fan.section, at), POINTS));
    const upright = Math.abs(Math.sin(at.angle)) + at.thickness * Math.abs(Math.cos(at.angle));
    const gain = at.chord * (standing ? perimeter : 2 * (apart ? at.thickness : upright));
    const found = { area: area * at.chord ** 2, gain };
    seen.set(radius, found);
    return found;
  };
  const over = (f: (radius: number) => number) =>
    curves.tipRadius > curves.hubRadius ? integrate(f, curves.hubRadius, curves.tipRadius, 2) : 0;
  const density = material.density_kgpm3;
  const volume = over((r) => sectionAt(r).area);
  const scatter = metresFromMillimetres(printer.xyScatter_mm);
  const gain = over((r) => sectionAt(r).gain);
  const span = Math.max(curves.tipRadius - curves.hubRadius, Number.MIN_VALUE);
  const height = standing ? span : gain / 2 / span;
  const layers = Math.max(1, height / metresFromMillimetres(printer.layer_mm));
  return {
    blades: fan.bladeCount,
    rotorMass: density * volumes.rotor,
    bladeMass: (density * volumes.blades) / fan.bladeCount,
    bladeRadius: volume > 0 ? over((r) => r * sectionAt(r).area) / volume : curves.hubRadius,
    apart,
    massPerOffset: density * gain,
    momentPerOffset: density * over((r) => r * sectionAt(r).gain),
    offset: scatter / Math.sqrt(layers),
    density: DENSITY_SCATTER[printer.process] * (apart ? APART : 1),
    bore: scatter,
    seat: apart ? scatter : 0,
  };
}

/** One cause of unbalance and how widely it scatters [kg m]. */
export interface UnbalanceSource {
  readonly name: string;
  readonly spread: Spread;
}

/**
 * Expected unbalance in closed form, cause by cause. Blade moments u_i = u + du_i at the angles 2 pi i / B leave
 * U = sum du_i e_i; with B >= 3 even places each part of U has the variance B s^2 / 2, with two blades all of it (2 s^2)
 * lies along the blades. A seat off by s in x and y moves a blade's mass: B m_b^2 s^2 in each part. A bore off by e in
 * x and y leaves M e. A rotor of one blade is taken with its counterweight in place, exact when drawn.
 */
export function unbalanceSources(rotor: RotorScatter): UnbalanceSource[] {
  const { blades, bladeMass, bladeRadius, rotorMass } = rotor;
  const ofBlades = (moment: number): Spread => {
    if (blades < 3) return { major: Math.sqrt(blades) * moment, minor: 0 };
    const part = Math.sqrt(blades / 2) * moment;
    return { major: part, minor: part };
  };
  const even = (part: number): Spread => ({ major: part, minor: part });
  const sources: UnbalanceSource[] = [
    { name: 'bore off the middle', spread: even(rotorMass * rotor.bore) },
    { name: 'blades thicker or thinner', spread: ofBlades(rotor.momentPerOffset * rotor.offset) },
    { name: 'density from blade to blade', spread: ofBlades(bladeMass * bladeRadius * rotor.density) },
  ];
  if (rotor.apart)
    sources.push({
      name: 'blades off their seats',
      spread: even(Math.sqrt(blades) * bladeMass * rotor.seat),
    });
  return sources;
}

/** All causes together. */
export const expectedSpread = (rotor: RotorScatter): Spread =>
  addSpreads(unbalanceSources(rotor).map(({ spread }) => spread));

/** Standard deviation of a blade's mass over its mass. */
export const bladeMassScatter = (rotor: RotorScatter): number =>
  Math.hypot((rotor.massPerOffset * rotor.offset) / rotor.bladeMass, rotor.density);
