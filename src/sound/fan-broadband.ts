import { degreesFromRadians } from '../quantities/units.ts';
import { bluntEdge, stretchScales, turbulentEdge } from './self-noise.ts';
import { REFERENCE_PRESSURE } from './levels.ts';
import type { SoundSource } from './source.ts';
import { THIRD_OCTAVES } from './weighting.ts';

/** Strips put together into one stretch: self-noise comes from the outer part, where the speed is. */
const STRIPS_A_STRETCH = 2;

/**
 * Self-noise of all blades of one fan in third octaves [Pa^2 at 1 m, mean over directions]. The turn past the listener is left
 * out (Doppler smears a band by less than itself below Mach 0.4), and so is the duct, which is too short to hold such short
 * waves. Back edges of a print vary by some quarter in thickness, so what they shed is spread over the bands beside it by a
 * quarter each. Not in it: turbulence the fan draws in, tip vortices, laminar whistling (printed edges are blunt and rough).
 */
export function fanBroadband(source: SoundSource): Float64Array {
  const bands = new Float64Array(THIRD_OCTAVES.length);
  const blunt = new Float64Array(THIRD_OCTAVES.length);
  const { strips, soundSpeed, viscosity, density, blades, edgeAngle_deg } = source;
  if (!(source.omega > 0)) return bands;
  for (let i = strips.length % STRIPS_A_STRETCH; i < strips.length; i += STRIPS_A_STRETCH) {
    const pair = strips.slice(i, i + STRIPS_A_STRETCH);
    const span = pair.reduce((sum, s) => sum + s.width, 0);
    const mean = (pick: (s: (typeof pair)[number]) => number) =>
      pair.reduce((sum, s) => sum + pick(s) * s.width, 0) / span;
    const scales = stretchScales({
      span,
      chord: mean((s) => s.chord),
      speed: mean((s) => s.relativeSpeed),
      alpha_deg: degreesFromRadians(mean((s) => s.alpha)),
      edge: mean((s) => s.edge),
      edgeAngle_deg,
      soundSpeed,
      viscosity_m2ps: viscosity / density,
    });
    for (let b = 0; b < bands.length; b++) {
      const { middle } = THIRD_OCTAVES[b];
      bands[b] += blades * REFERENCE_PRESSURE ** 2 * turbulentEdge(scales, middle);
      blunt[b] += blades * REFERENCE_PRESSURE ** 2 * bluntEdge(scales, middle);
    }
  }
  for (let b = 0; b < bands.length; b++)
    bands[b] += (blunt[Math.max(0, b - 1)] + 2 * blunt[b] + blunt[Math.min(bands.length - 1, b + 1)]) / 4;
  return bands;
}
