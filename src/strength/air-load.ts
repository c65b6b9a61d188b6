import type { AnnulusState } from '../air/annulus.ts';
import type { RotorAir } from '../air/rotor.ts';
import type { AirLoad } from './blade.ts';

/** What a running point says of each annulus, hub to tip, as an assessment holds it. */
export interface AnnuliSeen {
  readonly axialVelocity_mps: readonly number[];
  readonly swirlVelocity_mps: readonly number[];
  readonly liftCoefficient: readonly number[];
  readonly dragCoefficient: readonly number[];
}

/** The air's load on a rotor from the annuli of a run at `omega` [rad/s] in air of `density` [kg/m3]. */
export function airLoadOf(
  rotor: RotorAir,
  density: number,
  omega: number,
  states: readonly Pick<AnnulusState, 'relativeSpeed' | 'cx' | 'ct'>[],
): AirLoad {
  const head = (i: number) =>
    (density / 2) * states[i].relativeSpeed ** 2 * rotor.bladeCount * rotor.chord[i];
  return {
    omega,
    bladeCount: rotor.bladeCount,
    radius: rotor.radius,
    thrustPerRadius: states.map((s, i) => head(i) * s.cx),
    torquePerRadius: states.map((s, i) => head(i) * s.ct * rotor.radius[i]),
    relativeSpeed: states.map((s) => s.relativeSpeed),
    density,
  };
}

/** The same from what an assessment shows of the point: the wind at the blade is (w r - V_t / 2, V_x). */
export function airLoadSeen(rotor: RotorAir, density: number, omega: number, seen: AnnuliSeen): AirLoad {
  const states = seen.axialVelocity_mps.map((axial, i) => {
    const across = omega * rotor.radius[i] - seen.swirlVelocity_mps[i] / 2;
    const relativeSpeed = Math.hypot(axial, across);
    const [sin, cos] = relativeSpeed > 0 ? [axial / relativeSpeed, across / relativeSpeed] : [0, 1];
    const [lift, drag] = [seen.liftCoefficient[i], seen.dragCoefficient[i]];
    return { relativeSpeed, cx: lift * cos - drag * sin, ct: lift * sin + drag * cos };
  });
  return airLoadOf(rotor, density, omega, states);
}
