import { runFan, type FanAir } from '../../air/fan.ts';
import type { Passage } from '../../air/passage.ts';
import { rotorOfFan, type RotorAir } from '../../air/rotor.ts';
import { AS_DRAWN, departedModel, type Model } from '../../assess/model.ts';
import type { Fan } from '../../project/schema.ts';
import type { Turn, Unknowns } from './unknowns.ts';

/** A fan with something amiss, ready to run. */
export interface BentFan {
  readonly rotor: RotorAir;
  readonly passage: Passage | null;
  readonly factors: Model['factors'];
  readonly backward: boolean;
  readonly air: Model['air'];
}

/** Nose of a four-digit section that flies with its sharp back edge first, over its proper nose. Our estimate. */
const BACK_EDGE_NOSE = 0.2;

/** How thick the section is where its edge was lost, over its largest thickness, for each share of chord lost. Our estimate. */
const LOST_EDGE = 0.5;

/** Most of chord that may be taken as lost, so that a blade is left. */
const MOST_LOST = 0.8;

/**
 * The fan of `model` with the unknowns in it. A rotor put on upside down keeps the hand of its screw, so it blows the right
 * way, but its hollow side leads and its back edge meets the air first; one turned backward blows the wrong way as well.
 */
export function bentFan(model: Model, u: Unknowns, turn: Turn, annuli: number): BentFan {
  const departure = {
    ...AS_DRAWN,
    angle: u.angle,
    dragFactor: Math.exp(u.drag),
    liftFactor: Math.exp(u.lift),
    gap: u.gap,
    lossFactor: Math.exp(u.loss),
    exitFactor: Math.exp(u.exit),
  };
  const { passage, factors, rotor } = departedModel(model, departure, annuli);
  const drawn = u.edge === 0 && u.flat === 0 && turn !== 'upside down';
  return {
    rotor: drawn
      ? rotor
      : rotorOfFan(bentBlade(model.project.fan, u, turn), { angle: u.angle, printed: model.printed }, annuli),
    passage: passage && {
      ...passage,
      losses: {
        ...passage.losses,
        inletLip: passage.losses.inletLip + Math.max(-0.9 * passage.losses.inletLip, u.blocked),
      },
    },
    factors,
    backward: turn === 'backward',
    air: model.air,
  };
}

function bentBlade(fan: Fan, { edge, flat }: Unknowns, turn: Turn): Fan {
  const kept = 1 - Math.min(MOST_LOST, edge);
  const hollow = (turn === 'upside down' ? -1 : 1) * (1 - flat);
  const { section, blade } = fan;
  const mean = blade.reduce((s, b) => s + b.chord_mm * b.thickness_ratio, 0) / blade.length;
  return {
    ...fan,
    section: {
      ...section,
      trailingEdge_mm: section.trailingEdge_mm + LOST_EDGE * Math.max(0, edge) * mean,
      camberPosition_ratio:
        turn === 'upside down' ? 1 - section.camberPosition_ratio : section.camberPosition_ratio,
      noseBluntness_ratio:
        turn === 'upside down' && section.family === 'four-digit'
          ? BACK_EDGE_NOSE
          : section.noseBluntness_ratio,
    },
    blade: blade.map((b) => ({
      ...b,
      chord_mm: b.chord_mm * kept,
      thickness_ratio: b.thickness_ratio / kept,
      camber_ratio: b.camber_ratio * hollow,
    })),
  };
}

/** The fan at `omega` [rad/s], counted without sign. */
export const runBent = (fan: BentFan, omega: number): FanAir =>
  runFan(fan.rotor, fan.passage, fan.air, {
    omega: fan.backward ? -omega : omega,
    axialSpeed: 0,
    ...fan.factors,
  });
