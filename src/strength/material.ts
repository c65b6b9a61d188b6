import type { Material } from '../project/schema.ts';

/** Temperature at which tables give strength [C]: the test climate of ISO 291, from memory. */
const TABLE_C = 23;

/** How much warmer than the air the hub runs, on the bell of a working motor [K]. Common practice, no source. */
export const HUB_WARMER_K = 15;

/** Poisson's ratio of glassy printed polymers, from memory. */
export const POISSON = 0.38;

/**
 * Share of its table strength a printed polymer keeps at `temperature` [C]: all of it up to 23 C, then falling in a
 * straight line to nothing where it softens. A rule of thumb on the safe side near room temperature, no source; 0..1.
 */
export function warmShare(material: Material, temperature: number): number {
  const room = material.softening_C - TABLE_C;
  if (!(room > 0)) return temperature < material.softening_C ? 1 : 0;
  return Math.min(1, Math.max(0, (material.softening_C - temperature) / room));
}

/** Strength [Pa] along or across the layers at `temperature` [C], without any safety factor. */
export function warmStrength(material: Material, layers: 'along' | 'across', temperature: number): number {
  const cold = layers === 'along' ? material.strengthInPlane_MPa : material.strengthAcrossLayers_MPa;
  return 1e6 * cold * warmShare(material, temperature);
}

/** Shear strength over tensile strength, von Mises 1/sqrt(3); for polymers an estimate. */
export const SHEAR_SHARE = 1 / Math.sqrt(3);
