import { causesFor, type CauseId, type CausePlace, type CauseSpec } from './causes.ts';
import type { Evidence } from './evidence.ts';
import { tellerFor, type Foretold, type Place, type Teller } from './foretell.ts';
import { fitNormal, type NormalFit } from './gaussian.ts';
import type { Prepared } from './prepare.ts';
import { rowsOf, type Row, type Rows } from './rows.ts';
import { bentSupply, lawOf, runAtSpeed, runAtThrottle } from './running.ts';
import {
  FAN_UNKNOWNS,
  NOTHING,
  ordinarySpread,
  UNKNOWN_IDS,
  type UnknownId,
  type Unknowns,
} from './unknowns.ts';

/** One thing that may have happened: no cause, one or two at given places, or something that no cause covers. */
export interface Hypothesis {
  readonly causes: readonly CauseId[];
  readonly unexplained: boolean;
  readonly place: Place;
  /** Standard deviation of each unknown about the place. */
  readonly spread: Unknowns;
  readonly told: Foretold;
  readonly fit: NormalFit;
  /** Chance after the readings; all add up to 1. */
  readonly chance: number;
  /** Thrust each cause alone takes at the top point, over that of the sound fan; in the order of `causes`. */
  readonly takes: readonly number[];
}

export interface Weighed {
  readonly prepared: Prepared;
  readonly evidence: Evidence;
  readonly specs: readonly CauseSpec[];
  readonly rows: Rows;
  readonly teller: Teller;
  readonly hypotheses: readonly Hypothesis[];
  /** The sound fan within ordinary scatter. */
  readonly sound: Hypothesis;
}

/** Chance, readings aside, that what is amiss is nothing the tool knows. Common practice, no source. */
const UNEXPLAINED_PRIOR = 0.03;

/** Causes taken two by two: those that explain most alone. */
const PAIRED_CAUSES = 7;

const COLUMNS = UNKNOWN_IDS.length;

type Draft = Omit<Hypothesis, 'chance'> & { readonly logWeight: number };

/** Every hypothesis held against the readings by Bayes' rule. */
export function weigh(prepared: Prepared, evidence: Evidence): Weighed {
  const { model } = prepared;
  const sound = prepared.node(NOTHING, 'right');
  const law = lawOf(prepared, [sound]);
  const supply = bentSupply(model.project, NOTHING, evidence.charge, evidence.fansRunning);
  const soundThrust = (p: { throttle: number | null; omega: number | null }) =>
    Math.max(
      1e-3 * model.needed,
      (p.throttle === null && p.omega !== null
        ? runAtSpeed(law, supply, p.omega)
        : runAtThrottle(law, supply, p.throttle ?? 1, Infinity)
      ).thrust,
    );
  const rows = rowsOf(evidence, model.rotor.tipRadius, soundThrust);
  const teller = tellerFor(prepared, evidence, rows, rows.points.map(soundThrust));
  const specs = causesFor(model, {
    jetOnPan: evidence.jetOnPan,
    throttleUnknown: rows.points.some((p) => p.throttle === null && p.omega === null),
  });
  const { common } = evidence;
  const ordinary = ordinarySpread(model.project, {
    charge: evidence.charge_sd,
    thrust: common.thrust,
    rpm: common.rpm,
    voltage: common.voltage,
    current: common.current,
    pan: evidence.jetOnPan ? 0.015 : 0.003,
  });
  const none = specs.reduce((p, s) => p * (1 - s.prior), 1) * (1 - UNEXPLAINED_PRIOR);
  const fitted = (draft: Omit<Draft, 'fit' | 'logWeight'>, prior: number, unexplained = false): Draft => {
    const fit = fitRows(rows, draft.told, draft.spread, unexplained);
    return { ...draft, fit, logWeight: Math.log(prior) + fit.logLikelihood };
  };
  const soundPlace: Place = { u: NOTHING, turn: 'right', nodes: [sound], sign: 1 };
  const soundTold = teller.foretell(soundPlace, true);
  const plain = { causes: [], place: soundPlace, spread: ordinary, told: soundTold, takes: [] };
  const drafts: Draft[] = [
    fitted({ ...plain, unexplained: false }, none),
    fitted({ ...plain, unexplained: true }, (none * UNEXPLAINED_PRIOR) / (1 - UNEXPLAINED_PRIOR), true),
  ];
  const singles = new Map<CauseId, Draft[]>();
  for (const spec of specs) {
    const odds = spec.prior / (1 - spec.prior);
    const own: Draft[] = [];
    for (const at of spec.places) {
      for (const sign of signsOf(spec)) {
        const place = placeOf(prepared, [[spec, at]], sign.sign);
        const told = teller.foretell(place, true);
        own.push(
          fitted(
            {
              causes: [spec.id],
              unexplained: false,
              place,
              spread: spreadAbout(ordinary, [[spec, at]]),
              told,
              takes: [soundTold.top - told.top],
            },
            none * odds * at.weight * sign.weight,
          ),
        );
      }
    }
    singles.set(spec.id, own);
    drafts.push(...own);
  }
  for (const [a, b] of pairsOf(specs, singles)) drafts.push(...pairDrafts(a, b));
  return { prepared, evidence, specs, rows, teller, ...shared(drafts) };

  function pairDrafts(a: CauseSpec, b: CauseSpec): Draft[] {
    const prior = (none * a.prior * b.prior) / (1 - a.prior) / (1 - b.prior);
    const out: Draft[] = [];
    for (const pa of coarse(a.places, singles.get(a.id)!))
      for (const pb of coarse(b.places, singles.get(b.id)!)) {
        const place = placeOf(
          prepared,
          [
            [a, pa.at],
            [b, pb.at],
          ],
          pa.draft.place.sign,
        );
        const told = joined(teller.foretell(place, false), pa.draft.told, pb.draft.told, b.unknown);
        out.push(
          fitted(
            {
              causes: [a.id, b.id],
              unexplained: false,
              place,
              spread: spreadAbout(ordinary, [
                [a, pa.at],
                [b, pb.at],
              ]),
              told,
              takes: [pa.draft.takes[0], pb.draft.takes[0]],
            },
            prior * pa.at.weight * pb.at.weight,
          ),
        );
      }
    return out;
  }

  /** Slopes of two faults together: those of the first, the second's own column from the second, thrust in proportion. */
  function joined(pair: Foretold, a: Foretold, b: Foretold, second: UnknownId | null): Foretold {
    const slope = Float64Array.from(a.slope);
    const place = second ? UNKNOWN_IDS.indexOf(second) : -1;
    rows.rows.forEach((row, k) => {
      const thrust = row.aim.kind === 'channel' && row.aim.channel === 'thrust';
      const over = (t: Foretold) =>
        thrust ? pair.value[k] / (Math.abs(t.value[k]) > 0.02 ? t.value[k] : 0.02) : 1;
      const factor = over(a);
      if (factor !== 1) for (let i = 0; i < COLUMNS; i++) slope[k * COLUMNS + i] *= factor;
      if (place >= 0) slope[k * COLUMNS + place] = b.slope[k * COLUMNS + place] * over(b);
    });
    return { ...pair, slope };
  }
}

/** Share of pulls the wrong way that are seen as such; of the rest only the size is written down. Common practice, no source. */
const SEEN_AS_SUCH = 0.7;

const signsOf = (spec: CauseSpec): readonly { sign: 1 | -1; weight: number }[] =>
  spec.turn === 'backward'
    ? [
        { sign: 1, weight: SEEN_AS_SUCH },
        { sign: -1, weight: 1 - SEEN_AS_SUCH },
      ]
    : [{ sign: 1, weight: 1 }];

const signWeight = (sign: 1 | -1, drafts: readonly Draft[]) =>
  drafts.length === 1 ? 1 : sign === 1 ? SEEN_AS_SUCH : 1 - SEEN_AS_SUCH;

type Placed = readonly [CauseSpec, CausePlace];

function placeOf(prepared: Prepared, placed: readonly Placed[], sign: 1 | -1): Place {
  const alone = placed.map(([spec, at]) => ({
    u: spec.unknown ? { ...NOTHING, [spec.unknown]: at.value } : NOTHING,
    turn: spec.turn,
    fan: spec.unknown === null || FAN_UNKNOWNS.includes(spec.unknown),
  }));
  const nodes = alone.filter((p) => p.fan).map((p) => prepared.node(p.u, p.turn));
  return {
    u: alone.reduce((u, p) => addUnknowns(u, p.u), NOTHING),
    turn: placed.map(([spec]) => spec.turn).find((t) => t !== 'right') ?? 'right',
    nodes: nodes.length > 0 ? nodes : [prepared.node(NOTHING, 'right')],
    sign,
  };
}

const addUnknowns = (a: Unknowns, b: Unknowns): Unknowns =>
  Object.fromEntries(UNKNOWN_IDS.map((id) => [id, a[id] + b[id]])) as Record<UnknownId, number>;

/** Ordinary scatter, and the width of each cause's hump on top of it. */
function spreadAbout(ordinary: Unknowns, placed: readonly Placed[]): Unknowns {
  const out: Record<UnknownId, number> = { ...ordinary };
  for (const [spec, at] of placed)
    if (spec.unknown) out[spec.unknown] = Math.hypot(out[spec.unknown], at.width);
  return out;
}

/** Every other place, twice as wide: two causes at once are looked at less finely. */
function coarse(places: readonly CausePlace[], drafts: readonly Draft[]) {
  if (places.length === 1)
    return drafts.map((draft) => ({
      at: { ...places[0], weight: signWeight(draft.place.sign, drafts) },
      draft,
    }));
  const kept = places.map((at, i) => ({ at, draft: drafts[i] })).filter((_, i) => i % 2 === 0);
  const sum = kept.reduce((s, k) => s + k.at.weight, 0);
  return kept.map((k) => ({ ...k, at: { ...k.at, width: 2 * k.at.width, weight: k.at.weight / sum } }));
}

function pairsOf(specs: readonly CauseSpec[], singles: ReadonlyMap<CauseId, readonly Draft[]>) {
  const best = (s: CauseSpec) => Math.max(...singles.get(s.id)!.map((d) => d.logWeight));
  const first = [...specs].sort((a, b) => best(b) - best(a)).slice(0, PAIRED_CAUSES);
  return first.flatMap((a, i) =>
    first
      .slice(i + 1)
      .filter((b) => a.turn === 'right' || b.turn === 'right')
      // The one that changes how the rotor turns goes first: its slopes hold for both.
      .map((b) => (b.turn === 'right' ? ([a, b] as const) : ([b, a] as const))),
  );
}

function shared(drafts: readonly Draft[]): { hypotheses: Hypothesis[]; sound: Hypothesis } {
  const most = Math.max(...drafts.map((d) => d.logWeight));
  const weights = drafts.map((d) => Math.exp(d.logWeight - most));
  const sum = weights.reduce((a, b) => a + b, 0);
  const hypotheses = drafts.map(({ logWeight: _, ...d }, i) => ({ ...d, chance: weights[i] / sum }));
  return { hypotheses, sound: hypotheses[0] };
}

/** How wide each channel strays where no known cause is at work: as a whole, along the throttle, and from point to point. */
const STRAY: Record<string, { whole: number; along: number; each: number }> = {
  thrust: { whole: 0.4, along: 0.3, each: 0.1 },
  rpm: { whole: 0.25, along: 0.2, each: 0.05 },
  voltage: { whole: 0.05, along: 0.05, each: 0.01 },
  current: { whole: 0.4, along: 0.3, each: 0.1 },
  exit: { whole: 0.3, along: 0, each: 0.05 },
  thread: { whole: 0.2, along: 0, each: 0.05 },
};

function fitRows(
  { rows, measuredCount, points }: Rows,
  told: Foretold,
  spread: Unknowns,
  stray: boolean,
): NormalFit {
  const channels = Object.keys(STRAY);
  const n = COLUMNS + (stray ? 2 * channels.length : 0);
  const residual = new Float64Array(measuredCount);
  const sd = new Float64Array(measuredCount);
  const jacobian = new Float64Array(measuredCount * n);
  for (let k = 0; k < measuredCount; k++) {
    const row: Row = rows[k];
    residual[k] = row.measured - told.value[k];
    sd[k] = row.sd;
    for (let i = 0; i < COLUMNS; i++)
      jacobian[k * n + i] = told.slope[k * COLUMNS + i] * spread[UNKNOWN_IDS[i]];
    if (!stray || row.aim.kind !== 'channel') continue;
    const { whole, along, each } = STRAY[row.aim.channel];
    const at = k * n + COLUMNS + 2 * channels.indexOf(row.aim.channel);
    jacobian[at] = whole;
    jacobian[at + 1] = along * Math.log(points[row.aim.point].throttle ?? 1);
    sd[k] = Math.hypot(sd[k], each);
  }
  return fitNormal(residual, sd, jacobian, n);
}
