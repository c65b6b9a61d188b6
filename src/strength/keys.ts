/** A blade's root as a key that a slot in the hub holds by two shoulders. SI, [m]. */
export interface KeyedRoot {
  /** Width of the neck between the shoulders, in the direction of rotation. */
  readonly neck: number;
  /** Width of the head below it. */
  readonly head: number;
  /** How deep, along the blade, the shoulder may be sheared: from the neck's foot to the end of the head. */
  readonly depth: number;
  /** Length of neck and head along the axis of the rotor. */
  readonly length: number;
  /** Radius at which the shoulders bear. */
  readonly radius: number;
}

/** Stresses of a keyed root under a pull [Pa]. */
export interface KeyStress {
  /** Tension in the neck. */
  readonly neck: number;
  /** Shear of the two shoulders. */
  readonly shear: number;
  /** Pressure on the two shoulders. */
  readonly bearing: number;
  /** Tension in the hub's own tooth between two slots, which holds the pull as well. */
  readonly tooth: number;
}

/**
 * Mean stresses where a keyed root is held: neck F / (n L), shear F / (2 d L), bearing F / ((h - n) L), and the tooth of the
 * hub between two slots, which takes half the pull from either side, F / (w L) with w = 2 r sin(pi / B) - h its width where
 * the heads are. Forces over plain areas, as for a dovetail; how stress crowds in the corner is counted by the caller.
 * Throws where a dimension is not above 0 or the head is not wider than the neck.
 */
export function keyStress(key: KeyedRoot, pull: number, bladeCount: number): KeyStress {
  const { neck, head, depth, length, radius } = key;
  if (!(neck > 0 && head > neck && depth > 0 && length > 0))
    throw new Error(
      `keyStress needs a head wider than the neck and lengths above 0; got neck ${neck}, head ${head}, depth ${depth}, length ${length} m`,
    );
  const tooth = 2 * radius * Math.sin(Math.PI / Math.max(2, bladeCount)) - head;
  return {
    neck: pull / (neck * length),
    shear: pull / (2 * depth * length),
    bearing: pull / ((head - neck) * length),
    tooth: tooth > 0 ? pull / (tooth * length) : Infinity,
  };
}
