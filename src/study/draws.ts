import { atmosphere } from '../air/atmosphere.ts';
import type { FanMap } from '../air/map.ts';
import { answersFrom, scaledMap } from '../assess/answers.ts';
import { AS_DRAWN, departedModel, mapOf, modelOf, quotedSupply, type Model } from '../assess/model.ts';
import { runAt } from '../assess/point.ts';
import { fastestSpeed, strengthOfModel } from '../assess/strength.ts';
import type { Project } from '../project/schema.ts';
import { rpmFromAngularSpeed } from '../quantities/units.ts';
import { drawOf, FURTHEST, type Unknown } from './unknowns.ts';

/** What one draw of the unknowns comes to. */
export interface Drawn {
  readonly thrustToWeight: number;
  /** NaN where no throttle holds the craft. */
  readonly hoverThrottle: number;
  readonly hover_min: number;
  readonly mass_g: number;
  /** Speed at which the rotor fails over its fastest; NaN where no blade is left. */
  readonly speedMargin: number;
}

/** How thrust and torque at a given speed, and the failure speed, answer one unknown: ln of the factor is `first` x + `second` x^2. */
interface Response {
  readonly failure: readonly [first: number, second: number];
  readonly thrust: readonly [first: number, second: number];
  readonly torque: readonly [first: number, second: number];
}

/** A project made ready to be drawn many times over. */
export interface Drawable {
  readonly project: Project;
  readonly unknowns: readonly Unknown[];
  /** The answers of one draw; `x` counts half-widths from the middle. */
  readonly at: (x: ArrayLike<number>) => Drawn;
}

/** Annuli of a moved fan: only its ratio to the drawn one is used. */
const RATIO_ANNULI = 10;

/**
 * Makes a project ready for draws of some 60 us each. What is approximate: the fan is run once with each unknown at either
 * end of its interval, near hover speed; thrust and torque of a draw are the drawn map times those effects, multiplied, each
 * a parabola through its three points; so is the failure speed, which goes with the root of the material's strength besides. The drive, the pack and the hover are worked out afresh in every draw. Held against `drawInFull`
 * by a test.
 */
export function drawableOf(project: Project, unknowns: readonly Unknown[]): Drawable {
  const model = modelOf(project);
  const map = mapOf(model);
  const answers = answersFrom(project, quotedSupply(project), map, model.needed);
  const responses = responsesOf(model, map, unknowns, answers.hoverSpeed ?? answers.fullSpeed);
  const failureRpm = strengthOfModel(model, map)?.failureRpm ?? NaN;
  const at = (x: ArrayLike<number>): Drawn => {
    const draw = drawOf(project, unknowns, x);
    let [thrust, torque, failure] = [0, 0, 0];
    responses.forEach((r, i) => {
      if (!r) return;
      const step = Math.max(-FURTHEST, Math.min(FURTHEST, x[i]));
      thrust += step * (r.thrust[0] + step * r.thrust[1]);
      torque += step * (r.torque[0] + step * r.torque[1]);
      failure += step * (r.failure[0] + step * r.failure[1]);
    });
    return drawn(
      draw.project,
      scaledMap(map, Math.exp(thrust), Math.exp(torque)),
      model,
      draw.massFactor,
      failureRpm * Math.exp(failure) * Math.sqrt(draw.strengthFactor),
    );
  };
  return { project, unknowns, at };
}

/** The same draw with its own fan run in full, its own map and its own strength: some ms. What `drawableOf` is held against. */
export function drawInFull(project: Project, unknowns: readonly Unknown[], x: ArrayLike<number>): Drawn {
  const draw = drawOf(project, unknowns, x);
  const { material } = draw.project;
  const model = departedModel(
    modelOf({
      ...draw.project,
      material: {
        ...material,
        strengthInPlane_MPa: material.strengthInPlane_MPa * draw.strengthFactor,
        strengthAcrossLayers_MPa: material.strengthAcrossLayers_MPa * draw.strengthFactor,
      },
    }),
    draw.departure,
  );
  const map = mapOf(model);
  const failureRpm = strengthOfModel(model, map)?.failureRpm ?? NaN;
  return drawn(draw.project, map, model, draw.massFactor, failureRpm);
}

function drawn(
  project: Project,
  map: FanMap,
  { needed, mass }: Model,
  massFactor: number,
  failureRpm: number,
): Drawn {
  const answers = answersFrom(project, quotedSupply(project), map, needed * massFactor);
  const fastestRpm = rpmFromAngularSpeed(fastestSpeed(project, map));
  return {
    thrustToWeight: answers.thrustToWeight,
    hoverThrottle: answers.thrustToWeight >= 1 ? (answers.hoverThrottle ?? NaN) : NaN,
    hover_min: answers.hoverMinutes,
    mass_g: mass * massFactor * 1000,
    speedMargin: fastestRpm > 0 ? failureRpm / fastestRpm : NaN,
  };
}

/** The effect of each unknown on the fan itself; null where it has none. */
function responsesOf(
  model: Model,
  map: FanMap,
  unknowns: readonly Unknown[],
  omega: number,
): (Response | null)[] {
  const { project } = model;
  const drawnFan = departedModel(model, AS_DRAWN, RATIO_ANNULI);
  const run = (fan: Model) => ({
    ...runAt(fan, omega),
    failure: strengthOfModel(fan, map)?.failureRpm ?? 0,
  });
  const base = run(drawnFan);
  return unknowns.map((unknown, i) => {
    const end = (side: number) => {
      const x = unknowns.map((_, j) => (j === i ? side : 0));
      const { departure, project: moved } = drawOf(project, unknowns, x);
      const { altitude_m, airTemperature_C } = moved.brief;
      if (unknown.id !== 'air temperature') return run(departedModel(drawnFan, departure, RATIO_ANNULI));
      const air = atmosphere(altitude_m, airTemperature_C);
      return run({ ...departedModel({ ...drawnFan, air }, departure, RATIO_ANNULI), project: moved });
    };
    const changed = drawOf(project, [unknown], [1]);
    const touches =
      unknown.id === 'air temperature' ||
      Object.keys(AS_DRAWN).some(
        (key) => changed.departure[key as keyof typeof AS_DRAWN] !== AS_DRAWN[key as keyof typeof AS_DRAWN],
      );
    if (!touches) return null;
    const [down, up] = [end(-1), end(1)];
    const parabola = (low: number, middle: number, high: number): readonly [number, number] => {
      const ln = (a: number) => (a > 0 && middle > 0 ? Math.log(a / middle) : 0);
      return [(ln(high) - ln(low)) / 2, (ln(high) + ln(low)) / 2];
    };
    return {
      thrust: parabola(down.thrust, base.thrust, up.thrust),
      torque: parabola(down.torque, base.torque, up.torque),
      failure: parabola(down.failure, base.failure, up.failure),
    };
  });
}
