import type { Ledger } from '../air/fan.ts';
import type { BalanceAnswer } from '../balance/types.ts';
import type { MassItem } from '../craft/mass.ts';
import type { Interval } from '../quantities/interval.ts';
import type { Sound } from '../sound/types.ts';
import type { Strength } from '../strength/types.ts';
import type { PrintEffect } from './print-types.ts';

/** Where the shaft power of one fan goes [W]. */
export type Losses = Ledger;

export type { BalanceAnswer, MassItem };

/** One fan at one running point. Arrays run from hub to tip, one entry an annulus. */
export interface FanPoint {
  /** Controller duty, 0..1; above 1: more than the battery can give. NaN never; null where no throttle gives this. */
  readonly throttle: number | null;
  readonly rpm: number;
  readonly thrust_N: number;
  readonly rotorThrust_N: number;
  readonly ductThrust_N: number;
  readonly torque_Nm: number;
  readonly shaftPower_W: number;
  /** From the battery, this fan alone. */
  readonly electricalPower_W: number;
  readonly motorCurrent_A: number;
  readonly batteryCurrent_A: number;
  readonly batteryVoltage_V: number;
  readonly motorEfficiency: number;
  /** Ideal power over shaft power, on the reference of its own kind (ducted: P_i = T^1.5 / sqrt(4 sigma rho A)). */
  readonly figureOfMerit: number;
  /** The same thrust and power on the open-rotor reference (P_i = T^1.5 / sqrt(2 rho A)). */
  readonly figureOfMeritOpen: number;
  /** Grams of thrust for each electrical watt. */
  readonly gramsPerWatt: number;
  readonly axialVelocity_mps: number;
  readonly exitVelocity_mps: number;
  readonly massFlow_kgps: number;
  readonly tipSpeed_mps: number;
  readonly tipMach: number;
  /** Where the shaft power goes; with `ideal` the items add up to it (see `ledgerError_W`). */
  readonly losses_W: Losses;
  /** Shaft power minus the sum of `losses_W`. */
  readonly ledgerError_W: number;
  /** Loading limits passed, with their place on the blade. */
  readonly limits: readonly LimitHere[];
  readonly annuli: {
    readonly radius_mm: readonly number[];
    readonly axialVelocity_mps: readonly number[];
    readonly swirlVelocity_mps: readonly number[];
    readonly exitVelocity_mps: readonly number[];
    readonly angleOfAttack_deg: readonly number[];
    readonly liftCoefficient: readonly number[];
    readonly dragCoefficient: readonly number[];
    readonly reynolds: readonly number[];
    /** Thrust of the blades in this annulus, per metre of radius. */
    readonly thrustPerRadius_Npm: readonly number[];
  };
}

/** The same rotor with and without its duct. */
export interface Comparison {
  /** At the shaft power of hover. */
  readonly thrustAtEqualPower: { readonly ducted_N: number; readonly open_N: number; readonly ratio: number };
  /** At the thrust of hover; null where the open rotor can't give it. */
  readonly powerAtEqualThrust: {
    readonly ducted_W: number;
    readonly open_W: number;
    readonly ratio: number;
    readonly openRpm: number;
  } | null;
  /** Momentum's own bound on the thrust ratio at equal power, (2 sigma)^(1/3). */
  readonly idealThrustRatio: number;
  readonly words: string;
}

/** A place on the blade that works past what is usual. */
export interface LimitHere {
  readonly kind: string;
  readonly radius_mm: number;
  readonly span: number;
  readonly text: string;
}

/** A step of the argument, in a plain sentence with its numbers in it. */
export interface Reason {
  readonly id: string;
  readonly text: string;
}

/** Something to mind. `stop`: do not build or run it so; `care`: it will cost you; `note`: good to know. */
export interface Remark {
  readonly weight: 'stop' | 'care' | 'note';
  /** Path in the project file of what it is about, for example `fan.tipGap_mm`. */
  readonly path: string;
  readonly text: string;
}

/** A change that would help, with what it would bring, computed by making it. */
export interface Help {
  readonly path: string;
  readonly text: string;
  /** Thrust-to-weight ratio with the change over that without, minus 1. */
  readonly gain: number;
  /** Values to set to make the change. */
  readonly set: Readonly<Record<string, number | boolean>>;
}

/** Everything the tool says about a project. Read off, never recomputed, by page, command line and sheets. */
export interface Assessment {
  readonly verdict: {
    readonly lifts: boolean;
    /** "Lifts 1.6 times its weight" */
    readonly headline: string;
    /** "Hovers at 58 % throttle for 4 min 50 s." */
    readonly summary: string;
    readonly reasons: readonly Reason[];
  };
  readonly craft: {
    readonly mass_g: number;
    readonly hoverThrottle: number | null;
    readonly hover_min: number;
    readonly thrustToWeight: number;
    readonly lifts: boolean;
    readonly thrustToWeightInterval: Interval;
    readonly hoverThrottleInterval: Interval | null;
    readonly hoverMinutesInterval: Interval;
    /** Weight over all discs [N/m2]. */
    readonly discLoading_Npm2: number;
    readonly batteryShare: number;
    readonly hoverPower_W: number;
    readonly items: readonly MassItem[];
    readonly ductOuterDiameter_mm: number;
  };
  readonly fan: {
    /** Thrust one fan must give in hover [N]. */
    readonly needed_N: number;
    /** The point that carries the craft; null where no speed of this fan gives that thrust. */
    readonly hover: FanPoint | null;
    readonly full: FanPoint;
    readonly atThrottle?: FanPoint;
    /** Along the throttle, battery half charged, with the 90 % interval of thrust. */
    readonly curve: readonly {
      readonly throttle: number;
      readonly rpm: number;
      readonly thrust_N: number;
      readonly thrustLow_N: number;
      readonly thrustHigh_N: number;
      readonly electricalPower_W: number;
    }[];
    /** The same rotor without its duct at the shaft power of hover; null for an open fan or no hover. */
    readonly openAtEqualPower: { readonly thrust_N: number; readonly rpm: number } | null;
    /** Open against ducted, same rotor and disc; null for an open fan or no hover. */
    readonly compare: Comparison | null;
  };
  /** What the printer makes of the blades and what it costs, at hover (else at full throttle); null: flown as drawn. */
  readonly print: PrintEffect | null;
  readonly air: {
    readonly density_kgpm3: number;
    readonly viscosity_Pas: number;
    readonly speedOfSound_mps: number;
    readonly pressure_Pa: number;
  };
  /** Unbalance of a rotor as it leaves the printer, what the grade permits, and the force it shakes with. */
  readonly balance: BalanceAnswer;
  /** Stress, failure speed, growth and energies of the rotor; null where no blade is left. */
  readonly strength: Strength | null;
  /** Tones, noise and levels in hover and at full throttle, at the brief's 3 m over hard ground. */
  readonly sound: Sound;
  readonly remarks: readonly Remark[];
  readonly helps: readonly Help[];
}
