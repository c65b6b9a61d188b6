import type { Air } from '../../air/atmosphere.ts';
import type { TestId } from './tests.ts';

/** One running point as the diagnosis takes it. One fan, SI; sd: one standard deviation of the point's own error. */
export interface EvidencePoint {
  readonly throttle: number | null;
  /** [rad/s] */
  readonly omega: number | null;
  readonly omega_sd: number;
  /** As the rig shows it; negative: it pulls the wrong way. */
  readonly thrust: number;
  readonly thrust_sd: number;
  readonly voltage: number | null;
  readonly voltage_sd: number;
  /** From the pack, one fan. */
  readonly current: number | null;
  readonly current_sd: number;
}

/** A reading of the air behind the fan. */
export interface AirEvidence {
  readonly kind: 'exit speed' | 'thread angle';
  /** m/s, rad */
  readonly value: number;
  readonly sd: number;
  /** From the axis [m]; null: over the whole exit. */
  readonly radius: number | null;
  readonly throttle: number | null;
  readonly omega: number | null;
}

/** What a test on the thing itself said, in the unknown's own unit (see `unknowns.ts`). */
export interface Fact {
  readonly test: TestId;
  readonly value: number;
  readonly sd: number;
}

/** Everything a diagnosis rests on. */
export interface Evidence {
  readonly air: Air;
  readonly fansRunning: number;
  /** State of charge during the run, and how well it is known. */
  readonly charge: number;
  readonly charge_sd: number;
  readonly points: readonly EvidencePoint[];
  readonly airReadings: readonly AirEvidence[];
  readonly facts: readonly Fact[];
  /** Standard deviations of what the meters have wrong in the same way at every point, over the reading. */
  readonly common: {
    readonly thrust: number;
    readonly rpm: number;
    readonly voltage: number;
    readonly current: number;
  };
  readonly jetOnPan: boolean;
}

/** Most running points used; a longer sweep is gathered into as many. */
export const MOST_POINTS = 8;

/** Neighbours gathered until there are no more than `most`, means weighted evenly, errors as for means. */
export function gathered(points: readonly EvidencePoint[], most = MOST_POINTS): EvidencePoint[] {
  if (points.length <= most) return [...points];
  const order = [...points].sort(
    (a, b) => (a.throttle ?? a.omega ?? a.thrust) - (b.throttle ?? b.omega ?? b.thrust),
  );
  return Array.from({ length: most }, (_, k) => {
    const part = order.slice(
      Math.floor((k * order.length) / most),
      Math.floor(((k + 1) * order.length) / most),
    );
    const mean = (pick: (p: EvidencePoint) => number | null) => {
      const values = part.map(pick);
      return values.some((v) => v === null)
        ? null
        : (values as number[]).reduce((s, v) => s + v, 0) / values.length;
    };
    const error = (pick: (p: EvidencePoint) => number) =>
      Math.sqrt(part.reduce((s, p) => s + pick(p) ** 2, 0)) / part.length;
    return {
      throttle: mean((p) => p.throttle),
      omega: mean((p) => p.omega),
      omega_sd: error((p) => p.omega_sd),
      thrust: mean((p) => p.thrust) ?? 0,
      thrust_sd: error((p) => p.thrust_sd),
      voltage: mean((p) => p.voltage),
      voltage_sd: error((p) => p.voltage_sd),
      current: mean((p) => p.current),
      current_sd: error((p) => p.current_sd),
    };
  });
}
