import { mapTorque, type FanMap } from '../air/map.ts';
import { speedAtThrottle, supplyAt } from '../drive/supply.ts';
import type { Project } from '../project/schema.ts';
import { angularSpeedFromRpm } from '../quantities/units.ts';
import { airLoadOf, airLoadSeen } from '../strength/air-load.ts';
import { rotorStrength, type StrengthAsk } from '../strength/strength.ts';
import type { Strength } from '../strength/types.ts';
import { stopSentence } from '../strength/words.ts';
import { dayOf, type Model } from './model.ts';
import { runAt } from './point.ts';
import type { FanPoint, Remark } from './types.ts';

/** Speed at full throttle on a full battery [rad/s]: the fastest the drive turns the fan. */
export const fastestSpeed = (project: Project, map: FanMap): number =>
  speedAtThrottle(supplyAt(project, 1, dayOf(project)), (omega) => mapTorque(map, omega), 1);

/** Strength of the rotor from the points an assessment has already; null where no blade is left. */
export function strengthOf(
  model: Model,
  map: FanMap,
  full: FanPoint,
  hover: FanPoint | null,
): Strength | null {
  const seen = airLoadSeen(model.rotor, model.air.density, angularSpeedFromRpm(full.rpm), full.annuli);
  const hovers = hover !== null && hover.rpm <= full.rpm;
  return rotorStrength(asked(model, map, seen, hovers ? angularSpeedFromRpm(hover.rpm) : null));
}

/** The same of a model alone, its air's load from a run at `omega` [rad/s] or at its fastest. */
export function strengthOfModel(model: Model, map: FanMap, omega?: number): Strength | null {
  const speed = omega ?? fastestSpeed(model.project, map);
  const load = airLoadOf(model.rotor, model.air.density, speed, runAt(model, speed).annuli);
  const ask = asked(model, map, load, null);
  return rotorStrength({ ...ask, fullSpeed: omega ?? ask.fullSpeed });
}

function asked(
  { project, layout, mass, printed }: Model,
  map: FanMap,
  air: StrengthAsk['air'],
  hoverSpeed: number | null,
): StrengthAsk {
  const air_C = project.brief.airTemperature_C;
  const fullSpeed = fastestSpeed(project, map);
  return { design: project, air, air_C, fullSpeed, hoverSpeed, mass, layout, printed };
}

/** Where each mode is changed. */
const PATHS = {
  blade: 'fan.blade',
  layers: 'fan.blade',
  hub: 'fan.hubDiameter_mm',
  key: 'fan.rotorParts',
  'tip ring': 'fan.tipRing_mm',
} as const;

/** Gap at full throttle below which a rotor of usual scatter touches the duct, in standard deviations of the print. */
const RUBBING = 2;

/** What to mind about the strength of a rotor. */
export function strengthRemarks(project: Project, strength: Strength | null): Remark[] {
  if (!strength) return [];
  const remarks: Remark[] = [];
  if (!strength.holds)
    remarks.push({ weight: 'stop', path: PATHS[strength.modes[0].kind], text: stopSentence(strength) });
  const { gap_mm, radial_mm } = strength.growth.full;
  if (gap_mm === null) return remarks;
  const scatter = RUBBING * project.printer.xyScatter_mm;
  const grown = `At full throttle the blades grow ${radial_mm.toFixed(2)} mm`;
  if (gap_mm <= 0)
    remarks.push({
      weight: 'stop',
      path: 'fan.tipGap_mm',
      text: `${grown} and close the tip gap of ${project.fan.tipGap_mm} mm: they would rub and may break. Widen the gap or stay slower.`,
    });
  else if (gap_mm < scatter)
    remarks.push({
      weight: 'care',
      path: 'fan.tipGap_mm',
      text: `${grown}, which leaves ${gap_mm.toFixed(2)} mm of the tip gap; prints scatter by ${scatter.toFixed(2)} mm, so some will rub.`,
    });
  return remarks;
}
