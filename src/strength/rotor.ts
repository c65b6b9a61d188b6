import type { PrintedBlade } from '../print/printed-fan.ts';
import type { Design, Fan } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import { bladeAt, bladeCurves, type BladeSection } from '../shape/blade.ts';
import { fanLayout, type FanLayout } from '../shape/layout.ts';
import { rootKey } from '../shape/root-key.ts';
import { rootBlendRadius } from '../shape/root.ts';
import { bladeForces, bladeStretch, type AirLoad, type BladeForces } from './blade.ts';
import { POISSON } from './material.ts';
import type { KeyedRoot } from './keys.ts';
import { ringBending, turningRing } from './ring.ts';
import { carryingSection, printedBladeSection, shellThickness, type CarryingSection } from './section.ts';

export type RotorDesign = Pick<Design, 'fan' | 'motor' | 'printer' | 'material'>;

export interface LoadOptions {
  readonly layout?: FanLayout;
  /** What the printer leaves of the blades; null or left out: they come out as drawn. */
  readonly printed?: PrintedBlade | null;
  readonly stations?: number;
}

/** Sections along the blade; 13 match 60 within 1 % in every stress, as a test shows. */
const STATIONS = 13;

/** A ring round the blade tips [m], its section `thickness` by `height`. */
export interface TipRing {
  readonly thickness: number;
  readonly height: number;
  readonly radius: number;
}

/** A rotor ready for stresses, which all grow with the square of the speed: forces at 1 rad/s. SI. */
export interface LoadedRotor {
  readonly layout: FanLayout;
  readonly sections: readonly CarryingSection[];
  readonly forces: BladeForces;
  readonly density: number;
  readonly modulus: number;
  readonly fillet: number;
  /** Hoop stress in the rim of the hub, and growth of its radius, at 1 rad/s. */
  readonly hubHoop: number;
  readonly hubGrowth: number;
  /** How separate blades are held, and what pulls at each key at 1 rad/s [N]; null for a rotor in one piece. */
  readonly key: (KeyedRoot & { readonly pull: number }) | null;
  readonly ring: (TipRing & { readonly hoop: number; readonly bending: number }) | null;
  /** Mass of a blade with its share of a tip ring [kg] and radius of its centre [m]. */
  readonly bladeMass: number;
  readonly bladeCentre: number;
}

/**
 * Cuts a rotor into sections and loads it at 1 rad/s; null where no blade is left outside the hub.
 *
 * - A tip ring would grow by rho w^2 R^3 / E by itself; what the blades hold
 *   back of that pulls at their tips, from equal growth of both (thin ring, blade stretch as above).
 * - With blades apart the body inside the feet of the keys carries them, their platforms and the posts between as dead weight.
 * - The rim of the hub is a ring of even height under the pull of the blades: hoop stress as in `turningRing`, plus its bending
 *   between blades spread over their root's width. The web of a cup is left out, which is on the safe side.
 */
export function loadedRotor(
  { fan, motor, printer, material }: RotorDesign,
  air: AirLoad | null,
  { layout = fanLayout(fan, motor), printed = null, stations = STATIONS }: LoadOptions = {},
): LoadedRotor | null {
  const { hubRadius, tipRadius } = layout;
  if (!(tipRadius > hubRadius && hubRadius > 0)) return null;
  const curves = bladeCurves(fan);
  const shell = shellThickness(printer);
  const density = material.density_kgpm3;
  const modulus = 1e9 * material.modulus_GPa;
  const made = (at: BladeSection) => (printed ? printedBladeSection(at, printed) : at);
  const sections = Array.from({ length: stations }, (_, i) =>
    carryingSection(
      fan,
      made(bladeAt(curves, hubRadius + ((tipRadius - hubRadius) * i) / (stations - 1))),
      shell,
      printer.infill_ratio,
    ),
  );
  const blades = fan.bladeCount;
  const free = bladeForces(sections, density, air);
  const ringShape = tipRingOf(fan.tipRing_mm, tipRadius, 2 * layout.ringHalfHeight);
  let tipPull = 0;
  if (ringShape) {
    const { radius, thickness, height } = ringShape;
    const alone = (density * radius ** 3) / modulus;
    const blade = bladeStretch(sections, free.pull, modulus, 1);
    const each = bladeStretch(sections, new Float64Array(stations).fill(1), modulus, 1);
    const held = (blades * radius) / (2 * Math.PI * modulus * thickness * height);
    tipPull = Math.max(0, (alone - blade) / (each + held));
  }
  const forces = tipPull > 0 ? bladeForces(sections, density, air, tipPull) : free;
  const pull = forces.pull[0];
  const apart = fan.rotorParts === 'blades apart';
  const hub = apart
    ? bodyLoad(fan, layout, density, pull)
    : { ...rimLoad(layout, sections[0], blades, pull), key: null };
  const rim = { inner: hub.inner, outer: hub.outer, density, modulus, poisson: POISSON };
  const turned = turningRing(rim, 1, hub.pull);
  const { mass, centre } = bladeMassOf(sections, density);
  const ring = ringShape && loadedRing(ringShape, density, tipPull, blades, sections);
  const ringMass = ring ? (density * 2 * Math.PI * ring.radius * ring.thickness * ring.height) / blades : 0;
  return {
    layout,
    sections,
    forces,
    density,
    modulus,
    fillet: Math.max(rootBlendRadius(fan, layout, curves), metresFromMillimetres(printer.lineWidth_mm) / 2),
    hubHoop: turned.hoop + hub.bending,
    hubGrowth: turned.growth,
    key: hub.key,
    ring,
    bladeMass: mass + ringMass,
    bladeCentre: (mass * centre + ringMass * (ring?.radius ?? tipRadius)) / (mass + ringMass),
  };
}

/** The rim of a hub in one piece under the pull of its blades: radii, pull on its face [Pa] and stress by bending [Pa]. */
function rimLoad(layout: FanLayout, root: CarryingSection, blades: number, pull: number) {
  const { hubRadius, hubRimRadius, hubBossRadius, shaftRadius } = layout;
  const height = layout.hubBottomZ - layout.hubTopZ;
  const hollow = hubRimRadius > hubBossRadius;
  const inner = Math.min(hollow ? hubRimRadius : shaftRadius, 0.98 * hubRadius);
  const spread = (root.chord * Math.abs(Math.cos(root.angle))) / 2 / hubRadius;
  const bend = ringBending(pull, (inner + hubRadius) / 2, blades, spread);
  return {
    inner,
    outer: hubRadius,
    pull: (blades * pull) / (2 * Math.PI * hubRadius * height),
    bending: hollow ? (6 * bend) / (height * (hubRadius - inner) ** 2) : 0,
  };
}

/** The body of a hub that holds blades apart, and the key of one of them; no key where none can be made. */
function bodyLoad(fan: Fan, layout: FanLayout, density: number, pull: number) {
  const drawn = rootKey(fan, layout);
  const { hubRadius, shaftRadius } = layout;
  const length = drawn.platformBottomZ - drawn.platformTopZ;
  const depth = drawn.platformInnerRadius - drawn.footRadius;
  const outer = Math.min(hubRadius, Math.max(drawn.footRadius, 1.05 * shaftRadius));
  /** Integral of rho r over the ring between two radii, per unit of its height [kg]. */
  const ring = (from: number, to: number) => (2 * Math.PI * density * (to ** 3 - from ** 3)) / 3;
  const makable = length > 0 && depth > 0 && drawn.footRadius > 0 && drawn.footWidth > drawn.neckWidth;
  const height = Math.max(length, (layout.hubBottomZ - layout.hubTopZ) / 10);
  const platform = (ring(drawn.platformInnerRadius, hubRadius) * length) / fan.bladeCount;
  const own =
    ((density * (drawn.footWidth + drawn.neckWidth)) / 2) *
    depth *
    length *
    ((drawn.footRadius + drawn.platformInnerRadius) / 2);
  return {
    inner: Math.min(shaftRadius, 0.98 * outer),
    outer,
    pull: (fan.bladeCount * pull + ring(outer, hubRadius) * height) / (2 * Math.PI * outer * height),
    bending: 0,
    key: makable
      ? {
          neck: drawn.neckWidth,
          head: drawn.footWidth,
          depth,
          length,
          radius: drawn.footRadius,
          pull: pull + platform + own,
        }
      : null,
  };
}

/** The ring round the tip circle; null for none. */
function tipRingOf(thickness_mm: number, tipRadius: number, height: number): TipRing | null {
  const thickness = metresFromMillimetres(thickness_mm);
  if (!(thickness > 0 && thickness < tipRadius / 2 && height > 0)) return null;
  return { thickness, height, radius: tipRadius + thickness / 2 };
}

/** The blades' pull inward spread round the ring takes from its hoop stress; between them it bends. */
function loadedRing(
  ring: TipRing,
  density: number,
  tipPull: number,
  blades: number,
  sections: readonly CarryingSection[],
) {
  const { radius, thickness, height } = ring;
  const tip = sections[sections.length - 1];
  const spread = (tip.chord * Math.abs(Math.cos(tip.angle))) / 2 / radius;
  const bend = ringBending(tipPull, radius, blades, spread);
  return {
    ...ring,
    hoop: density * radius ** 2 - (blades * tipPull) / (2 * Math.PI * thickness * height),
    bending: (6 * bend) / (height * thickness ** 2),
  };
}

function bladeMassOf(sections: readonly CarryingSection[], density: number) {
  let mass = 0;
  let moment = 0;
  for (let i = 1; i < sections.length; i++) {
    const [a, b] = [sections[i - 1], sections[i]];
    const half = (density * (b.radius - a.radius)) / 2;
    mass += half * (a.massArea + b.massArea);
    moment += half * (a.massArea * a.radius + b.massArea * b.radius);
  }
  return { mass, centre: moment / mass };
}

/**
 * Growth of the rotor's radius at the tips [m] at `omega` [rad/s], by its own pull: blade stretch and growth of the hub.
 * Warmth and creep are left out. 0 where no blade is left.
 */
export function radialGrowth(design: RotorDesign, omega: number): number {
  const rotor = loadedRotor(design, null);
  return rotor ? tipGrowth(rotor, omega) : 0;
}

/** The same of a rotor already loaded. */
export const tipGrowth = ({ sections, forces, modulus, hubGrowth }: LoadedRotor, omega: number): number =>
  bladeStretch(sections, forces.pull, modulus, omega) + hubGrowth * omega * omega;
