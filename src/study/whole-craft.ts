import { climbOf } from '../craft/climb.ts';
import { controlWords, type Axis } from '../craft/control.ts';
import { hoverControl, windLimits, type From, type WindLimits } from '../craft/wind.ts';
import { nearnessRemarks, windWords } from '../craft/wind-words.ts';
import type { Project } from '../project/schema.ts';
import { formatNumber as n } from '../quantities/format.ts';
import { degreesFromRadians } from '../quantities/units.ts';
import { flownProject } from './tried.ts';

/** What is left for steering in a level hover, and how fast it climbs. */
export interface ControlLeft {
  /** Whether every fan stays within its reach in a level hover. */
  readonly holds: boolean;
  /** Moment free both ways with the lift held, and that over the inertia. */
  readonly moment_Nm: Readonly<Record<Axis, number>>;
  readonly acceleration_radps2: Readonly<Record<Axis, number>>;
  /** Axes that the fans' speeds alone can't steer. */
  readonly without: readonly Axis[];
  readonly climb_mps: number;
  readonly words: readonly string[];
}

const NONE: Readonly<Record<Axis, number>> = { roll: 0, pitch: 0, yaw: 0 };

/** Control in hover and climb of a project, in words too. About 15 ms. */
export function controlLeft(project: Project): ControlLeft {
  const flown = flownProject(project);
  const control = hoverControl(flown);
  const { rate } = climbOf(flown);
  const holds = control?.holds ?? false;
  return {
    holds,
    moment_Nm: holds && control ? control.moment : NONE,
    acceleration_radps2: holds && control ? control.acceleration : NONE,
    without: control?.without ?? [],
    climb_mps: rate,
    words: [
      ...(control ? controlWords(control) : ['It cannot hover, so there is no control to speak of.']),
      rate > 0
        ? `Straight up at full throttle it climbs at ${n(rate, 2)} m/s.`
        : 'It does not climb: full throttle does not carry its weight.',
    ],
  };
}

/** The wind a craft stands from one side. */
export interface WindStood {
  readonly from: From;
  readonly steady_mps: number;
  readonly gust_mps: number;
  readonly steadyLimit: WindLimits['steadyLimit'];
  /** At that steady wind; null where it stands none. */
  readonly lean_deg: number | null;
  readonly words: readonly string[];
}

/** Wind from the front and from the side, and what nearness of ground, walls and fans does. About 40 ms. */
export function windStood(project: Project): {
  readonly winds: readonly WindStood[];
  readonly nearness: readonly string[];
} {
  const flown = flownProject(project);
  const winds = (['front', 'side'] as const).map((from): WindStood => {
    const limits = windLimits(flown, from);
    return {
      from,
      steady_mps: limits.steady,
      gust_mps: limits.gust,
      steadyLimit: limits.steadyLimit,
      lean_deg: limits.atSteady && degreesFromRadians(limits.atSteady.lean),
      words: windWords(limits),
    };
  });
  return { winds, nearness: nearnessRemarks(flown) };
}
