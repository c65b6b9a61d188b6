/** One way in which the rotor can fail, at full throttle. */
export interface FailureMode {
  readonly kind: 'blade' | 'layers' | 'hub' | 'key' | 'tip ring';
  /** What fails and how, as the subject of a sentence. */
  readonly name: string;
  /** Place on the blade; null where it is not one. */
  readonly radius_mm: number | null;
  readonly stress_MPa: number;
  /** At which it fails, warm, without a safety factor. */
  readonly strength_MPa: number;
  /** Speed at which stress reaches strength. */
  readonly failureRpm: number;
}

/** What speed does to the blade's shape. */
export interface GrowthAt {
  readonly rpm: number;
  readonly radial_mm: number;
  /** Gap left between tip and duct; null for an open rotor. */
  readonly gap_mm: number | null;
  /** Turn of the tip, positive: steeper. */
  readonly tipTurn_deg: number;
}

/** A blade that comes off against the duct wall. An estimate. */
export interface FreedBlade {
  readonly rpm: number;
  readonly mass_g: number;
  readonly speed_mps: number;
  readonly energy_J: number;
  /** Energy that shears a plug the size of its tip out of the wall; null for an open rotor. */
  readonly wall_J: number | null;
}

/** A drop or bump taken by one printed part. An estimate. */
export interface BumpTaken {
  readonly part: 'duct' | 'frame';
  readonly height_m: number;
  readonly energy_J: number;
  readonly force_N: number;
  /** Peak deceleration over gravity. */
  readonly load_g: number;
  readonly travel_mm: number;
  readonly stress_MPa: number;
  readonly strength_MPa: number;
  /** Height from which it would just hold. */
  readonly heldFrom_m: number;
}

/** How strong the rotor is. Plain data; stresses at full throttle on a full battery. */
export interface Strength {
  /** Strength over the stress allowed. */
  readonly safetyFactor: number;
  /** Full throttle on a full battery, the fastest it turns. */
  readonly fullRpm: number;
  readonly hoverRpm: number | null;
  /** The weakest place reaches its strength here. */
  readonly failureRpm: number;
  /** Highest speed that leaves the safety factor: failure speed over its square root. */
  readonly safeRpm: number;
  /** Failure speed over full-throttle speed. */
  readonly speedMargin: number;
  /** Whether full throttle stays within `safeRpm`. */
  readonly holds: boolean;
  /** Weakest first. */
  readonly modes: readonly FailureMode[];
  /** Along the blade, hub to tip. */
  readonly stations: {
    readonly radius_mm: readonly number[];
    readonly centrifugal_MPa: readonly number[];
    /** Largest tension by bending. */
    readonly bending_MPa: readonly number[];
    /** Both, at the root with the fillet's concentration. */
    readonly peak_MPa: readonly number[];
    /** Strength over the safety factor. */
    readonly allowed_MPa: readonly number[];
    /** Where the inside is hollow: share of the section that carries. */
    readonly carrying: readonly number[];
  };
  readonly root: {
    readonly fillet_mm: number;
    readonly tensionFactor: number;
    readonly bendingFactor: number;
  };
  readonly material: {
    readonly layers: 'along' | 'across';
    readonly blade_C: number;
    readonly hub_C: number;
    /** Share of the table strength kept at that warmth. */
    readonly bladeShare: number;
    readonly hubShare: number;
  };
  readonly growth: { readonly hover: GrowthAt | null; readonly full: GrowthAt };
  readonly freedBlade: FreedBlade;
  readonly bumps: readonly BumpTaken[];
  readonly words: readonly string[];
}
