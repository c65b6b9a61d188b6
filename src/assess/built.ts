import { rotorOfFan, type RotorAir, type RotorChange } from '../air/rotor.ts';
import type { Calibration } from '../project/calibration.ts';
import type { Fan } from '../project/schema.ts';
import { metresFromMillimetres, radiansFromDegrees } from '../quantities/units.ts';

/** How the fan as built is known to differ from the drawing; SI. */
export interface Built {
  /** Added to the blade angle [rad] */
  readonly angle: number;
  /** Shares of chord and camber that came out. */
  readonly chordKept: number;
  readonly camberKept: number;
  readonly dragFactor: number;
  /** Added to the tip gap [m] */
  readonly gap: number;
  /** Added loss on the axial velocity head. */
  readonly blocked: number;
  readonly turn: 'right' | 'backward' | 'upside down';
}

/** What a project's calibration says of the fan itself. */
export const builtOf = (c: Calibration): Built => ({
  angle: radiansFromDegrees(c.bladeAngle_deg),
  chordKept: c.chordKept_ratio,
  camberKept: c.camberKept_ratio,
  dragFactor: c.sectionDrag_factor,
  gap: metresFromMillimetres(c.faults.gapAdded_mm),
  blocked: c.faults.blockedLoss,
  turn: c.faults.turn,
});

/** Nose of a four-digit section that flies with its sharp back edge first, over its proper nose. Our estimate. */
const BACK_EDGE_NOSE = 0.2;

/** How thick the section is where its edge was lost, over its largest thickness, for each share of chord lost. Our estimate. */
const LOST_EDGE = 0.5;

/** Least of the chord that is left. */
const LEAST_KEPT = 0.2;

/**
 * The rotor as built. One put on upside down keeps the hand of its screw, so it blows the right way, but its hollow side leads
 * and its back edge meets the air first. One turned backward meets the air at the supplement of its angle and blows the wrong
 * way as well.
 */
export function builtRotor(fan: Fan, built: Built, change: RotorChange, annuli?: number): RotorAir {
  const plain = built.chordKept === 1 && built.camberKept === 1 && built.turn !== 'upside down';
  const rotor = rotorOfFan(
    plain ? fan : builtBlade(fan, built),
    { ...change, angle: (change.angle ?? 0) + built.angle },
    annuli,
  );
  return built.turn === 'backward' ? { ...rotor, angle: rotor.angle.map((a) => Math.PI - a) } : rotor;
}

function builtBlade(fan: Fan, { chordKept, camberKept, turn }: Built): Fan {
  const kept = Math.max(LEAST_KEPT, chordKept);
  const over = turn === 'upside down';
  const { section, blade } = fan;
  const thickness = blade.reduce((s, b) => s + b.chord_mm * b.thickness_ratio, 0) / blade.length;
  return {
    ...fan,
    section: {
      ...section,
      trailingEdge_mm: section.trailingEdge_mm + LOST_EDGE * Math.max(0, 1 - kept) * thickness,
      camberPosition_ratio: over ? 1 - section.camberPosition_ratio : section.camberPosition_ratio,
      noseBluntness_ratio:
        over && section.family === 'four-digit' ? BACK_EDGE_NOSE : section.noseBluntness_ratio,
    },
    blade: blade.map((b) => ({
      ...b,
      chord_mm: b.chord_mm * kept,
      thickness_ratio: b.thickness_ratio / kept,
      camber_ratio: b.camber_ratio * camberKept * (over ? -1 : 1),
    })),
  };
}
