import { fanPlaces } from '../craft/stand.ts';
import type { PrintedBlade } from '../print/printed-fan.ts';
import type { Craft } from '../project/schema.ts';
import { GRAVITY } from '../quantities/constants.ts';
import {
  degreesFromRadians,
  gramsFromKilograms,
  metresFromMillimetres,
  millimetresFromMetres,
  rpmFromAngularSpeed,
} from '../quantities/units.ts';
import type { FanLayout } from '../shape/layout.ts';
import { standsAcross } from '../shape/lies.ts';
import { bendingTension, tipTurn, type AirLoad } from './blade.ts';
import { armsOf, blowOf, shearEnergy, squeezedDuct, type Spring } from './impact.ts';
import { keyStress } from './keys.ts';
import { HUB_WARMER_K, POISSON, SHEAR_SHARE, warmShare, warmStrength } from './material.ts';
import { filletConcentration } from './root.ts';
import { loadedRotor, tipGrowth, type LoadedRotor, type RotorDesign } from './rotor.ts';
import { shellThickness } from './section.ts';
import type { BumpTaken, FailureMode, FreedBlade, GrowthAt, Strength } from './types.ts';
import { strengthWords } from './words.ts';

export interface StrengthAsk {
  readonly design: RotorDesign & { readonly craft: Craft };
  /** The air's load at some speed; null: none counted. */
  readonly air: AirLoad | null;
  /** Air where it flies [C] */
  readonly air_C: number;
  /** Fastest it turns, full throttle on a full battery, and in hover, null without one [rad/s]. */
  readonly fullSpeed: number;
  readonly hoverSpeed: number | null;
  /** All-up mass [kg] */
  readonly mass: number;
  readonly layout?: FanLayout;
  /** What the printer leaves of the blades; null or left out: they come out as drawn. */
  readonly printed?: PrintedBlade | null;
}

const MPA = 1e-6;

/**
 * Stress, failure speed, growth and energies of a rotor. Every stress grows with the square of the speed (centrifugal exactly,
 * the air's load near enough), so each mode fails at w sqrt(strength / stress). Null where no blade is left outside the hub.
 */
export function rotorStrength(ask: StrengthAsk): Strength | null {
  const { design, air_C, fullSpeed } = ask;
  const { fan, material } = design;
  const rotor = loadedRotor(design, ask.air, ask);
  if (!rotor) return null;
  const layers = standsAcross(fan) ? 'across' : 'along';
  const hub_C = air_C + HUB_WARMER_K;
  const factor = filletConcentration(rotor.fillet, rotor.sections[0].thickness);
  const stress = stressesOf(rotor, factor);
  const strength = rotor.sections.map((_, i) => warmStrength(material, layers, i === 0 ? hub_C : air_C));
  const square = fullSpeed ** 2;
  const mode = modeAt(fullSpeed);
  const modes = [
    weakest(rotor, stress.peak, strength, (kind, radius, unit, holds) =>
      mode(
        kind,
        radius === 0 ? 'the blade at its root' : 'the blade',
        rotor.sections[radius].radius,
        unit,
        holds,
      ),
    ),
    ...(layers === 'along' ? [layerMode(rotor, design, air_C, mode)] : []),
    mode(
      'hub',
      fan.rotorParts === 'blades apart' ? 'the body of the hub' : 'the rim of the hub',
      null,
      rotor.hubHoop,
      warmStrength(material, 'along', hub_C),
    ),
    ...keyMode(rotor, ask, hub_C, layers, mode),
    ...(rotor.ring
      ? [
          mode(
            'tip ring',
            'the ring round the tips',
            null,
            Math.max(0, rotor.ring.hoop) + rotor.ring.bending,
            warmStrength(material, 'along', air_C),
          ),
        ]
      : []),
  ].sort((a, b) => a.failureRpm - b.failureRpm);
  const failureRpm = modes[0].failureRpm;
  const fullRpm = rpmFromAngularSpeed(fullSpeed);
  const safeRpm = failureRpm / Math.sqrt(fan.safetyFactor);
  const list = (pick: (i: number) => number) => rotor.sections.map((_, i) => pick(i));
  const answer: Omit<Strength, 'words'> = {
    safetyFactor: fan.safetyFactor,
    fullRpm,
    hoverRpm: ask.hoverSpeed === null ? null : rpmFromAngularSpeed(ask.hoverSpeed),
    failureRpm,
    safeRpm,
    speedMargin: fullRpm > 0 ? failureRpm / fullRpm : Infinity,
    holds: fullRpm <= safeRpm,
    modes,
    stations: {
      radius_mm: list((i) => millimetresFromMetres(rotor.sections[i].radius)),
      centrifugal_MPa: list((i) => MPA * square * stress.pull[i]),
      bending_MPa: list((i) => MPA * square * stress.bending[i]),
      peak_MPa: list((i) => MPA * square * stress.peak[i]),
      allowed_MPa: list((i) => (MPA * strength[i]) / fan.safetyFactor),
      carrying: list((i) => stress.carrying[i]),
    },
    root: {
      fillet_mm: millimetresFromMetres(rotor.fillet),
      tensionFactor: factor.tension,
      bendingFactor: factor.bending,
    },
    material: {
      layers,
      blade_C: air_C,
      hub_C,
      bladeShare: warmShare(material, air_C),
      hubShare: warmShare(material, hub_C),
    },
    growth: {
      hover: ask.hoverSpeed === null ? null : growthAt(rotor, fan.tipGap_mm, ask.hoverSpeed),
      full: growthAt(rotor, fan.tipGap_mm, fullSpeed),
    },
    freedBlade: freedBlade(rotor, design, air_C, fullSpeed),
    bumps: bumpsTaken(rotor.layout, ask),
  };
  return { ...answer, words: strengthWords(answer, design) };
}

/** Stresses at 1 rad/s [Pa s2]. */
function stressesOf(rotor: LoadedRotor, factor: { tension: number; bending: number }) {
  const { sections, forces } = rotor;
  const pull = sections.map((s, i) => forces.pull[i] / s.area);
  const bending = sections.map((s, i) => bendingTension(s, forces.bendingX[i], forces.bendingY[i]));
  return {
    pull,
    bending,
    peak: pull.map((p, i) => (i === 0 ? factor.tension * p + factor.bending * bending[i] : p + bending[i])),
    carrying: sections.map((s) => s.area / Math.max(s.area, outlineArea(s))),
  };
}

function outlineArea({ x, y }: LoadedRotor['sections'][number]): number {
  let twice = 0;
  for (let i = x.length - 1, j = 0; j < x.length; i = j++) twice += x[i] * y[j] - x[j] * y[i];
  return Math.abs(twice) / 2;
}

type ModeAt = (
  kind: FailureMode['kind'],
  name: string,
  radius: number | null,
  unit: number,
  strength: number,
) => FailureMode;

/** A mode from its stress at 1 rad/s. */
const modeAt =
  (fullSpeed: number): ModeAt =>
  (kind, name, radius, unit, strength) => ({
    kind,
    name,
    radius_mm: radius === null ? null : millimetresFromMetres(radius),
    stress_MPa: MPA * unit * fullSpeed ** 2,
    strength_MPa: MPA * strength,
    failureRpm: unit > 0 ? rpmFromAngularSpeed(Math.sqrt(strength / unit)) : Infinity,
  });

/** The place along the blade where stress comes nearest to strength. */
function weakest(
  rotor: LoadedRotor,
  peak: readonly number[],
  strength: readonly number[],
  make: (kind: 'blade', place: number, unit: number, strength: number) => FailureMode,
): FailureMode {
  let at = 0;
  for (let i = 1; i < rotor.sections.length; i++) if (peak[i] * strength[at] > peak[at] * strength[i]) at = i;
  return make('blade', at, peak[at], strength[at]);
}

/** Shear between the layers of a blade that lies: 3/2 of the mean shear square to the chord, as in a full rectangle. */
function layerMode(rotor: LoadedRotor, { material }: RotorDesign, air_C: number, mode: ModeAt): FailureMode {
  let at = 0;
  const shear = rotor.sections.map((s, i) => (1.5 * rotor.forces.shear[i]) / s.area);
  shear.forEach((value, i) => {
    if (value > shear[at]) at = i;
  });
  const strength = SHEAR_SHARE * warmStrength(material, 'across', air_C);
  return mode('layers', 'the bond between layers', rotor.sections[at].radius, shear[at], strength);
}

/** Stress in the corner of a slot over the mean in its neck: about two, common practice, no source. */
const SLOT_CORNER = 2;

/** The weakest of neck, shoulders, seat and the hub's post between two keys; none where no key can be made. */
function keyMode(
  rotor: LoadedRotor,
  { design: { fan, material } }: StrengthAsk,
  hub_C: number,
  layers: 'along' | 'across',
  mode: ModeAt,
): FailureMode[] {
  const { key } = rotor;
  if (!key) return [];
  const at = keyStress(key, key.pull, fan.bladeCount);
  const blade = warmStrength(material, layers, hub_C);
  const hub = warmStrength(material, 'along', hub_C);
  const shear = SHEAR_SHARE * Math.min(blade, warmStrength(material, 'across', hub_C));
  const modes = [
    mode('key', 'the neck of the blade key', null, SLOT_CORNER * at.neck, blade),
    mode('key', 'the shoulders of the blade key', null, at.shear, shear),
    mode('key', 'the seat of the blade key', null, at.bearing, Math.min(blade, hub)),
    mode('key', 'the post of the hub between two blade keys', null, SLOT_CORNER * at.tooth, hub),
  ];
  return [modes.reduce((a, b) => (b.failureRpm < a.failureRpm ? b : a))];
}

function growthAt(rotor: LoadedRotor, gap_mm: number, omega: number): GrowthAt {
  const radial_mm = millimetresFromMetres(tipGrowth(rotor, omega));
  return {
    rpm: rpmFromAngularSpeed(omega),
    radial_mm,
    gap_mm: rotor.layout.ducted ? gap_mm - radial_mm : null,
    tipTurn_deg: degreesFromRadians(tipTurn(rotor.sections, rotor.forces, rotor.modulus, POISSON, omega)),
  };
}

/** A whole blade that leaves at its root, flying with the speed of its centre, against the wall as printed. */
function freedBlade(
  rotor: LoadedRotor,
  { fan, printer, material }: RotorDesign,
  air_C: number,
  omega: number,
): FreedBlade {
  const speed = omega * rotor.bladeCentre;
  const wall = Math.min(metresFromMillimetres(fan.duct.wall_mm), 2 * shellThickness(printer));
  const shear = SHEAR_SHARE * warmStrength(material, 'across', air_C);
  const tip = rotor.sections[rotor.sections.length - 1];
  return {
    rpm: rpmFromAngularSpeed(omega),
    mass_g: gramsFromKilograms(rotor.bladeMass),
    speed_mps: speed,
    energy_J: (rotor.bladeMass * speed ** 2) / 2,
    wall_J: rotor.layout.ducted ? shearEnergy(tip.perimeter, wall, shear) : null,
  };
}

/** Room between the edge of the plate and its board or battery [m]. Common practice, no source. */
const PLATE_RIM = 0.006;

/** The drop of the project taken by one duct on its side, and by the arms of a printed frame landing flat. */
function bumpsTaken(layout: FanLayout, { design, mass, air_C }: StrengthAsk): BumpTaken[] {
  const { craft, printer, material } = design;
  const modulus = 1e9 * material.modulus_GPa;
  const taken: BumpTaken[] = [];
  const take = (part: BumpTaken['part'], carried: number, spring: Spring, strength: number) => {
    const blow = blowOf(carried, craft.dropHeight_m, spring);
    // The height whose blow just reaches the strength: h = x^2 k / (2 m g) - x, with x the travel there.
    const most = strength / spring.stressPerForce / spring.stiffness;
    const held = (spring.stiffness * most ** 2) / (2 * carried * GRAVITY) - most;
    taken.push({
      part,
      height_m: craft.dropHeight_m,
      energy_J: blow.energy,
      force_N: blow.force,
      load_g: blow.load,
      travel_mm: millimetresFromMetres(blow.travel),
      stress_MPa: MPA * blow.stress,
      strength_MPa: MPA * strength,
      heldFrom_m: Math.max(0, held),
    });
  };
  if (!(mass > 0)) return taken;
  if (layout.ducted) {
    const wall = Math.min(layout.wall, 2 * shellThickness(printer));
    const length = layout.exitZ - layout.topZ;
    const ring = squeezedDuct(layout.boreRadius + wall / 2, wall, length, layout.lipRadius, modulus);
    take('duct', mass, ring, warmStrength(material, 'along', air_C));
  }
  const arms = frameArms(craft, layout, modulus);
  if (arms) take('frame', mass / 2, arms, warmStrength(material, 'along', air_C));
  return taken;
}

/** The arms of a printed frame as cantilevers from plate to duct; null where no frame is printed. */
function frameArms({ frame, ...craft }: Craft, layout: FanLayout, modulus: number): Spring | null {
  if (frame.kind === 'none' || craft.fanCount < 2) return null;
  const outer = layout.outerRadius;
  const pitch = 2 * outer + metresFromMillimetres(craft.ductSpacing_mm);
  const far = Math.max(...fanPlaces(craft, pitch).map(({ x, y }) => Math.hypot(x, y)));
  const plate = metresFromMillimetres(Math.max(frame.bayWidth_mm, frame.boardSpacing_mm)) / 2 + PLATE_RIM;
  const length = Math.max(0.005, far - outer - plate);
  const mm = metresFromMillimetres;
  return armsOf(craft.fanCount, length, mm(frame.armWidth_mm), mm(frame.plate_mm), modulus);
}
