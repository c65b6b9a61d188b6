import type { Section } from '../project/schema.ts';

/** A blade section by name, as used where a table gives no thickness and camber of its own. */
export interface NamedSection {
  readonly family: Section['family'];
  /** Over chord. */
  readonly thickness: number;
  readonly camber: number;
  readonly camberPosition: number;
  /** Whether the name gave thickness and camber too, or the family alone. */
  readonly fromDigits: boolean;
}

const FAMILIES: Readonly<Record<Section['family'], NamedSection>> = {
  'flat-plate': { family: 'flat-plate', thickness: 0.05, camber: 0, camberPosition: 0.5, fromDigits: false },
  'arc-plate': { family: 'arc-plate', thickness: 0.05, camber: 0.05, camberPosition: 0.5, fromDigits: false },
  'four-digit': {
    family: 'four-digit',
    thickness: 0.1,
    camber: 0.03,
    camberPosition: 0.4,
    fromDigits: false,
  },
};

/** What `namedSection` takes, for help texts and refusals. */
export const SECTION_NAMES =
  'flat-plate (5 % thick), arc-plate (5 % thick, 5 % camber), four-digit (10 % thick, 3 % camber at 40 %), ' +
  'or four digits of NACA Report 460 such as 4412 (4 % camber at 40 % of the chord, 12 % thick)';

/**
 * The section a name stands for, or null: a family with its usual proportions, or the four digits of Jacobs, Ward and
 * Pinkerton, NACA Report 460 (1933): camber in hundredths, its place in tenths, thickness in hundredths of the chord.
 */
export function namedSection(name: string): NamedSection | null {
  const plain = name.trim().toLowerCase();
  if (Object.hasOwn(FAMILIES, plain)) return FAMILIES[plain as Section['family']];
  const digits = /^(?:naca[ -]?)?(\d)(\d)(\d\d)$/.exec(plain);
  if (!digits) return null;
  const [camber, place, thickness] = digits.slice(1).map(Number);
  if (thickness < 1 || thickness > 40 || (camber > 0 && place === 0)) return null;
  return {
    family: 'four-digit',
    thickness: thickness / 100,
    camber: camber / 100,
    camberPosition: place === 0 ? 0.4 : place / 10,
    fromDigits: true,
  };
}
