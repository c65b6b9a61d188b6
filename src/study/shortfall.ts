import { mapTorque } from '../air/map.ts';
import { mapOf, quotedSupply } from '../assess/model.ts';
import { dischargeLimit } from '../drive/battery.ts';
import { motorCurrent } from '../drive/motor.ts';
import type { Project } from '../project/schema.ts';
import { formatNumber as n, formatPercent } from '../quantities/format.ts';
import { scaledFan, tryProject, turned, type Tried } from './tried.ts';

/** What may hold a craft down. */
export type CauseKind = 'disc' | 'mass' | 'drive' | 'blade';

/** One cause, found by setting it right alone and leaving all else. */
export interface Cause {
  readonly kind: CauseKind;
  /** Thrust over weight with this alone set right, and that over the present one, minus 1. */
  readonly thrustToWeight: number;
  readonly gain: number;
  /** Value now and set right: N/m2, g, A and degrees for disc, mass, drive and blade. */
  readonly now: number;
  readonly right: number;
  /** What it would take of this alone to carry the weight: tip mm, craft g, volts over present volts; null: it can't alone. */
  readonly alone: number | null;
}

export interface Shortfall {
  readonly lifts: boolean;
  readonly thrustToWeight: number;
  /** Largest gain first. */
  readonly causes: readonly Cause[];
  /** Three where it does not lift, one where it does. */
  readonly sentences: readonly string[];
}

/**
 * What "right" is for each: a disc loading at which small craft hover on common batteries; a payload of a quarter of the
 * craft; a drive whose full throttle just uses what motor and pack stand for seconds; a blade turned to its best. The first two
 * are common practice, no source.
 */
const SOUND_LOADING = 250;
const SOUND_PAYLOAD_SHARE = 0.25;
const BLADE_TURNS = [-8, -6, -4, -2, 0, 2, 4, 6, 8];

/** How far one thing alone is driven to see whether it would carry the craft. */
const WIDEST = 3;
const MOST_VOLTS = 3;

/** The same fan on a wider disc, the mass held as it is (a larger duct weighs more: that is the mass's affair). */
function withDisc(base: Tried, factor: number): Tried {
  const fan = scaledFan(base.project.fan, base.project.fan.tipDiameter_mm * factor);
  const alone = tryProject({ ...base.project, fan });
  return tryProject({ ...base.project, fan }, base.mass - alone.mass);
}

/** The same motor and cells on `factor` times the volts, nothing heavier. */
const withVolts = (base: Tried, factor: number): Tried =>
  tryProject({
    ...base.project,
    battery: {
      ...base.project.battery,
      cells: base.project.battery.cells * factor,
      cellResistance_mohm: base.project.battery.cellResistance_mohm / factor,
    },
  });

/** Current in each winding at full throttle [A]. */
function fullCurrent(tried: Tried): number {
  const { fullSpeed } = tried.answers;
  return fullSpeed > 0
    ? motorCurrent(quotedSupply(tried.project).motor, mapTorque(mapOf(tried.model), fullSpeed), fullSpeed)
    : Infinity;
}

/** Smallest factor from 1 to `top` with `ok`, taken to be one-sided; null where even `top` isn't. */
function least(ok: (factor: number) => boolean, top: number): number | null {
  if (ok(1)) return 1;
  if (!ok(top)) return null;
  let [low, high] = [1, top];
  for (let i = 0; i < 14; i++) {
    const middle = (low + high) / 2;
    if (ok(middle)) high = middle;
    else low = middle;
  }
  return high;
}

const carries = ({ answers }: Tried) => answers.thrustToWeight >= 1;

function discCause(base: Tried): Cause {
  const now = base.needed / base.model.discArea;
  const { tipRadius, hubRadius } = base.model.rotor;
  const area = (base.model.discArea * Math.max(now, SOUND_LOADING)) / SOUND_LOADING;
  const factor = Math.sqrt(area / Math.PI + hubRadius ** 2) / tipRadius;
  const changed = now > SOUND_LOADING ? withDisc(base, Math.min(WIDEST, factor)) : base;
  const alone = least((f) => carries(withDisc(base, f)), WIDEST);
  return cause(base, 'disc', changed, now, SOUND_LOADING, alone && alone * base.project.fan.tipDiameter_mm);
}

function massCause(base: Tried): Cause {
  const now = base.mass * 1000;
  const payload = base.project.brief.payload_g;
  const bare = now - payload;
  const right = Math.min(now, bare / (1 - SOUND_PAYLOAD_SHARE));
  const changed = tryProject({ ...base.project, brief: { ...base.project.brief, payload_g: right - bare } });
  const alone = now * Math.min(1, base.answers.thrustToWeight);
  return cause(base, 'mass', changed, now, right, alone >= bare ? alone : null);
}

/** What the drive stands for seconds [A in each winding]: the motor's short-time current or the pack's limit, shared. */
const strongest = ({ motor, battery, craft }: Project) =>
  Math.min(motor.burstCurrent_A, dischargeLimit(battery) / craft.fanCount);

function driveCause(base: Tried): Cause {
  const burst = strongest(base.project);
  const now = fullCurrent(base);
  const within = (f: number) => fullCurrent(withVolts(base, f)) <= burst;
  const past = least((f) => !within(f), MOST_VOLTS);
  const changed = within(1) ? withVolts(base, past ?? MOST_VOLTS) : base;
  // Volts that would carry it count only while the winding stands its current.
  const volts = least((f) => carries(withVolts(base, f)), MOST_VOLTS);
  return cause(base, 'drive', changed, now, burst, volts !== null && within(volts) ? volts : null);
}

function bladeCause(base: Tried): Cause {
  const tries = BLADE_TURNS.map((angle) => ({
    angle,
    tried: tryProject({ ...base.project, fan: turned(base.project.fan, angle) }),
  }));
  const best = tries.reduce((a, b) =>
    b.tried.answers.thrustToWeight > a.tried.answers.thrustToWeight ? b : a,
  );
  return cause(base, 'blade', best.tried, 0, best.angle, carries(best.tried) ? best.angle : null);
}

function cause(
  base: Tried,
  kind: CauseKind,
  changed: Tried,
  now: number,
  right: number,
  alone: number | null,
): Cause {
  const { thrustToWeight } = changed.answers;
  return {
    kind,
    thrustToWeight,
    gain: thrustToWeight / base.answers.thrustToWeight - 1,
    now,
    right,
    alone,
  };
}

/**
 * Why a craft does not lift: disc, mass, drive and blade are each set right alone and the whole is run again; what brings
 * most is the largest cause. Each answer also says what that one alone would have to be. About 30 ms.
 */
export function shortfallOf(project: Project): Shortfall {
  const base = tryProject(project);
  const { thrustToWeight } = base.answers;
  const ratio = n(thrustToWeight, 2);
  if (!(thrustToWeight > 0))
    return {
      lifts: false,
      thrustToWeight,
      causes: [],
      sentences: [
        'Its fans push nothing down at full throttle.',
        'Look at the blade angles first: they turn the air the wrong way or not at all.',
        'Nothing else is worth a change before that.',
      ],
    };
  const causes = [discCause(base), massCause(base), driveCause(base), bladeCause(base)].sort(
    (a, b) => b.gain - a.gain,
  );
  const lifts = thrustToWeight >= 1;
  const [first, second] = causes;
  const sentences = lifts
    ? [`It lifts, ${ratio} times its weight; ${NAMES[first.kind]} would still bring most.`]
    : [
        `At full throttle it lifts ${ratio} times its weight; of what is amiss ${NAMES[first.kind]} and ${NAMES[second.kind]} count for most.`,
        sentenceFor(first, project),
        sentenceFor(second, project),
      ];
  return { lifts, thrustToWeight, causes, sentences };
}

const NAMES: Record<CauseKind, string> = {
  disc: 'the size of its discs',
  mass: 'its mass',
  drive: 'the power of its drive',
  blade: 'the angle of its blades',
};

function sentenceFor(c: Cause, { fan, motor, brief }: Project): string {
  const to = `${n(c.thrustToWeight, 2)} times its weight`;
  switch (c.kind) {
    case 'disc':
      return (
        `Its discs carry ${n(c.now)} N/m² where small craft do well below about ${n(c.right)}: on discs that large the same mass and drive would lift ${to}; ` +
        (c.alone === null
          ? 'wider discs alone do not carry it with this motor.'
          : `tips of ${n(c.alone)} mm instead of ${n(fan.tipDiameter_mm)} alone would carry it, if nothing got heavier.`)
      );
    case 'mass':
      return (
        `It weighs ${n(c.now)} g and ${formatPercent(brief.payload_g / c.now)} of that is payload: with a payload of a quarter it would weigh ${n(c.right)} g and lift ${to}; ` +
        (c.alone === null
          ? 'even without any payload it would not carry itself.'
          : `at ${n(c.alone)} g, ${n(c.now - c.alone, 2)} g less, this alone would carry it.`)
      );
    case 'drive':
      return (
        `At full throttle each winding takes ${n(c.now, 2)} A of the ${n(c.right, 2)} A that motor and pack stand for seconds: with volts enough to use them it would lift ${to}; ` +
        (c.alone === null
          ? 'volts alone do not carry it before that limit, so it takes a larger motor or pack too.'
          : `${n(c.alone, 2)} times the volts (or a motor that turns as much faster for each volt, ${n(c.alone * motor.velocityConstant_rpmPerV, 2)} rpm/V) would carry it at the same mass.`)
      );
    case 'blade':
      return (
        `Turned by ${n(c.right, 2)} degrees its blades would lift ${to}` +
        (c.alone === null ? ', which is not enough alone.' : ', which alone would carry it.')
      );
  }
}
