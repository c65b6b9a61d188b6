import { gathered, type Evidence, type EvidencePoint } from './evidence.ts';
import { testById, TESTS, type TestAim, type TestId } from './tests.ts';

export type Channel = 'thrust' | 'rpm' | 'voltage' | 'current' | 'exit' | 'thread';

/** One number a hypothesis must foretell. Thrust over that of the sound fan, logarithms of the rest, angles in rad. */
export interface Row {
  readonly aim:
    | {
        readonly kind: 'channel';
        readonly channel: Channel;
        readonly point: number;
        readonly radius: number | null;
      }
    | Exclude<TestAim, { kind: 'channel' }>;
  readonly test: TestId | null;
  readonly measured: number;
  readonly sd: number;
}

/** Points, rows that were measured, then rows of tests not made yet (their `measured` is NaN). */
export interface Rows {
  readonly points: readonly EvidencePoint[];
  readonly rows: readonly Row[];
  readonly measuredCount: number;
  /** Place in `points` of the one with most throttle, that shortfall and tests refer to. */
  readonly top: number;
}

/**
 * What the form of the model itself may be off by from point to point, apart from its unknowns: thrust 2 %, speed 0.7 %,
 * voltage 0.4 %, current 3 %, exit speed at one place 6 %, swirl angle 3 degrees. Our estimates, from how measured stands and
 * fans scatter about the model (docs/checks.md).
 */
export const FORM = {
  thrust: 0.02,
  rpm: 0.007,
  voltage: 0.004,
  current: 0.03,
  exit: 0.06,
  thread: 0.05,
} as const;

/** Smallest current that a meter in the leads tells from nothing [A]. */
const LEAST_CURRENT = 0.02;

/** Place of the readings that tests ask for, over the tip radius. */
export const TEST_RADIUS = 0.75;

/** `soundThrust` is what the sound fan would show at a point [N], never 0. */
export function rowsOf(
  evidence: Evidence,
  tipRadius: number,
  soundThrust: (p: EvidencePoint) => number,
): Rows {
  const points = gathered(evidence.points);
  const top = points.reduce(
    (best, p, i) =>
      (p.throttle ?? 1) > (points[best].throttle ?? 1) ||
      ((p.throttle ?? 1) === (points[best].throttle ?? 1) && p.thrust > points[best].thrust)
        ? i
        : best,
    0,
  );
  const rows: Row[] = [];
  const add = (
    channel: Channel,
    point: number,
    measured: number,
    own: number,
    radius: number | null = null,
  ) =>
    rows.push({
      aim: { kind: 'channel', channel, point, radius },
      test: null,
      measured,
      sd: Math.hypot(own, FORM[channel]),
    });
  points.forEach((p, i) => {
    const sound = soundThrust(p);
    add('thrust', i, p.thrust / sound, p.thrust_sd / sound);
    if (p.omega !== null && p.throttle !== null) add('rpm', i, Math.log(p.omega), p.omega_sd / p.omega);
    if (p.voltage !== null && p.voltage > 0) add('voltage', i, Math.log(p.voltage), p.voltage_sd / p.voltage);
    if (p.current !== null && p.current > LEAST_CURRENT)
      add('current', i, Math.log(p.current), Math.hypot(p.current_sd, LEAST_CURRENT) / p.current);
  });
  for (const reading of evidence.airReadings) {
    const same = (p: EvidencePoint) =>
      reading.omega !== null && p.omega !== null
        ? Math.abs(Math.log(p.omega / reading.omega))
        : Math.abs((p.throttle ?? 1) - (reading.throttle ?? 1));
    const nearest = points.reduce((best, p, i) => (same(p) < same(points[best]) ? i : best), top);
    if (reading.kind === 'exit speed') {
      // Where the air was read at another throttle, the speed behind the fan goes with that of the rotor, and so with the duty.
      const at = points[nearest];
      const scale =
        reading.omega !== null && at.omega !== null
          ? at.omega / reading.omega
          : (at.throttle ?? 1) / (reading.throttle ?? at.throttle ?? 1);
      add(
        'exit',
        nearest,
        Math.log(Math.max(0.05, reading.value * scale)),
        reading.sd / Math.max(0.05, reading.value),
        reading.radius,
      );
    } else add('thread', nearest, Math.abs(reading.value), reading.sd, reading.radius);
  }
  const done = new Set<TestId>();
  for (const fact of evidence.facts) {
    const spec = testById.get(fact.test);
    if (!spec) continue;
    done.add(fact.test);
    rows.push({
      ...testRow(spec.aim, top, points.length, tipRadius),
      test: fact.test,
      measured: fact.value,
      sd: fact.sd,
    });
  }
  const measuredCount = rows.length;
  const has = (channel: Channel) => rows.some((r) => r.aim.kind === 'channel' && r.aim.channel === channel);
  const half = points.some((p) => p.throttle !== null && p.throttle > 0.25 && p.throttle < 0.7);
  for (const spec of TESTS) {
    const idle =
      spec.aim.kind === 'channel' &&
      (spec.aim.channel === 'half'
        ? half
        : spec.aim.channel === 'rpm'
          ? points[top].omega !== null
          : has(spec.aim.channel));
    if (done.has(spec.id) || idle) continue;
    rows.push({
      ...testRow(spec.aim, top, points.length, tipRadius),
      test: spec.id,
      measured: NaN,
      sd: spec.sd,
    });
  }
  return { points: [...points, HALF_POINT], rows, measuredCount, top };
}

/** Where the test at half throttle would be taken. */
const HALF_POINT: EvidencePoint = {
  throttle: 0.5,
  omega: null,
  omega_sd: 0,
  thrust: 0,
  thrust_sd: 0,
  voltage: null,
  voltage_sd: 0,
  current: null,
  current_sd: 0,
};

function testRow(aim: TestAim, top: number, halfPoint: number, tipRadius: number): Pick<Row, 'aim'> {
  if (aim.kind !== 'channel') return { aim };
  return {
    aim:
      aim.channel === 'half'
        ? { kind: 'channel', channel: 'thrust', point: halfPoint, radius: null }
        : { kind: 'channel', channel: aim.channel, point: top, radius: TEST_RADIUS * tipRadius },
  };
}
