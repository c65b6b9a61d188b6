import type { FanAir } from '../air/fan.ts';
import { rotorOfFan } from '../air/rotor.ts';
import { printedAt, type PrintedStation } from '../print/printed-fan.ts';
import { printedWords } from '../print/printed-words.ts';
import { formatPercent } from '../quantities/format.ts';
import { degreesFromRadians, millimetresFromMetres } from '../quantities/units.ts';
import type { Model } from './model.ts';
import { runAt } from './point.ts';
import type { PrintEffect, PrintStation } from './print-types.ts';

export type { PrintEffect, PrintStation };

/** Annuli of both fans: only their ratio is used. */
const RATIO_ANNULI = 12;

/** The printed blade against the drawn one at `omega` [rad/s]; null where the model flies the drawing. */
export function printEffect(model: Model, omega: number): PrintEffect | null {
  const { printed } = model;
  if (!printed) return null;
  const { fan } = model.project;
  const run = (blade: typeof printed | null): FanAir =>
    runAt({ ...model, rotor: rotorOfFan(fan, { printed: blade }, RATIO_ANNULI) }, omega);
  const drawn = run(null);
  const made = run(printed);
  const ratio = (a: number, b: number) => (b > 0 ? a / b : 1);
  const thrust = ratio(made.thrust, drawn.thrust);
  const torque = ratio(made.torque, drawn.torque);
  const shares = changeOfForce(model, drawn, made);
  const lost = 1 - thrust;
  return {
    lay: printed.lay,
    thrustLost_ratio: lost,
    torqueChange_ratio: torque - 1,
    thrustAtPowerLost_ratio: torque > 0 ? 1 - Math.max(0, thrust) / torque ** (2 / 3) : 1,
    stations: printed.stations.map((s) => stationOf(s, fan.section.roughness_mm, shares(s.radius))),
    words: [headline(lost, torque - 1), ...printedWords(printed)].join(' '),
  };
}

function headline(lost: number, torque: number): string {
  const change = (value: number, more: string, less: string) =>
    Math.abs(value) < 0.005 ? 'the same' : `${formatPercent(Math.abs(value))} ${value > 0 ? more : less}`;
  if (Math.abs(lost) < 0.005 && Math.abs(torque) < 0.005)
    return 'As printed the blades give the thrust of the drawing at the same torque.';
  return `As printed the blades give ${change(lost, 'less', 'more')} thrust and take ${change(torque, 'more', 'less')} torque at the same speed, against the drawing.`;
}

/** Change of the blades' axial force with radius, by the annulus it falls in. */
function changeOfForce(
  { project: { fan }, printed }: Model,
  drawn: FanAir,
  made: FanAir,
): (radius: number) => number {
  const { radius, width } = rotorOfFan(fan, {}, RATIO_ANNULI);
  return (r) => {
    let i = radius.findIndex((middle, k) => r <= middle + width[k] / 2);
    if (i < 0) i = radius.length - 1;
    const chord = printed ? printedAt(printed, radius[i]).chordFactor : 1;
    const before = drawn.annuli[i].relativeSpeed ** 2 * drawn.annuli[i].cx;
    const after = made.annuli[i].relativeSpeed ** 2 * made.annuli[i].cx * chord;
    return before > 0 ? after / before - 1 : 0;
  };
}

function stationOf(s: PrintedStation, roughness_mm: number, thrustChange_ratio: number): PrintStation {
  const mm = millimetresFromMetres;
  const { chord, thickness, camber, edge } = s.drawn;
  return {
    span: s.span,
    radius_mm: mm(s.radius),
    drawnChord_mm: mm(chord),
    chord_mm: mm(chord * s.chordFactor),
    lostFront_mm: mm(s.lostFront),
    lostBack_mm: mm(s.lostBack),
    turn_deg: degreesFromRadians(s.turn),
    drawnThickness_mm: mm(thickness * chord),
    thickness_mm: mm(thickness * chord * s.thicknessFactor),
    drawnCamber_mm: mm(camber * chord),
    camber_mm: mm(camber * chord * s.camberFactor),
    trailingEdge_mm: s.lost ? 0 : mm(edge + s.edgeAdded),
    roughness_mm: Math.max(roughness_mm, mm(s.steps)),
    lost: s.lost,
    weak: s.weak,
    thrustChange_ratio,
  };
}
