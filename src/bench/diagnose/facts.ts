import { packResistance } from '../../drive/battery.ts';
import type { Model } from '../../assess/model.ts';
import { printedAt } from '../../print/printed-fan.ts';
import type { BenchRun, Observed } from '../../project/bench.ts';
import { metresFromMillimetres, radiansFromDegrees } from '../../quantities/units.ts';
import { bladeAt, bladeCurves } from '../../shape/blade.ts';
import type { Fact } from './evidence.ts';
import { testById, type TestId } from './tests.ts';

/**
 * What was measured or looked at on the thing itself, each in the unit of the unknown it speaks of. `fullCurrent`: what each
 * winding of the sound fan takes at full throttle [A].
 */
export function factsOf(model: Model, run: BenchRun, fullCurrent: number): Fact[] {
  const { observed } = run;
  const facts: Fact[] = [];
  const add = (test: TestId, value: number | null, sd = testById.get(test)?.sd ?? 1) => {
    if (value !== null && Number.isFinite(value)) facts.push({ test, value, sd });
  };
  for (const [test, value] of bladeFacts(model, observed)) add(test, value);
  for (const [test, value] of driveFacts(model, observed, fullCurrent)) add(test, value);
  const { gap_mm, turnsRightWay, rightWayUp, bladesWhole, ductClear } = observed;
  if (model.passage && gap_mm !== null)
    add('gap by feeler', metresFromMillimetres(gap_mm - model.project.fan.tipGap_mm) - model.built.gap);
  add('which way it turns', said(turnsRightWay, 0, 1));
  add('which way up', said(rightWayUp, 0, 1));
  // A blade seen to be cut short has lost some fifth of its width, give or take; one that looks whole little.
  add('look at the blades', said(bladesWhole, 0, 0.25), bladesWhole ? 0.06 : 0.15);
  add('look through the duct', said(ductClear, 0, 1.2), ductClear ? 0.3 : 0.9);
  const ln = (ratio: number | null) => ratio && Math.log(ratio);
  add('known weight', ln(observed.scaleShows_ratio));
  add('stick check', ln(observed.dutyReached_ratio));
  add('farther from the pan', observed.fartherThrust_ratio && 1 - 1 / observed.fartherThrust_ratio);
  const lip = run.airReadings.filter((a) => a.kind === 'lip flow' && !a.leftOut).map((a) => a.value);
  // A flow that leaves the lip all round costs about half to one dynamic pressure more. Common practice, no source.
  if (model.passage && lip.length > 0)
    add('smoke at the lip', (0.8 * lip.reduce((s, v) => s + v, 0)) / lip.length);
  return facts;
}

const said = (answer: boolean | null, yes: number, no: number) =>
  answer === null ? null : answer ? yes : no;

type Outcome = readonly [TestId, number | null];

/** The blade beside what the print model and the calibration expect of it. */
function bladeFacts({ project, printed, built }: Model, o: Observed): Outcome[] {
  const curves = bladeCurves(project.fan);
  const at = (span: number) => {
    const radius = curves.hubRadius + span * (curves.tipRadius - curves.hubRadius);
    return { blade: bladeAt(curves, radius), print: printed && printedAt(printed, radius) };
  };
  const wide = at(o.chordAt_ratio);
  const chord = wide.blade.chord * (wide.print?.chordFactor ?? 1) * built.chordKept;
  const steep = at(o.bladeAngleAt_ratio);
  const angle = steep.blade.angle + (steep.print?.turn ?? 0) + built.angle;
  return [
    ['chord by calliper', o.chord_mm === null ? null : 1 - metresFromMillimetres(o.chord_mm) / chord],
    ['angle by gauge', o.bladeAngle_deg === null ? null : radiansFromDegrees(o.bladeAngle_deg) - angle],
    [
      'straightedge',
      o.camberKept_ratio === null ? null : 1 - o.camberKept_ratio / Math.max(0.05, built.camberKept),
    ],
  ];
}

/** Motor and pack beside what the project says of them. */
function driveFacts({ project }: Model, o: Observed, fullCurrent: number): Outcome[] {
  const { motor, battery, calibration } = project;
  const over = (measured: number | null, expected: number) =>
    measured === null ? null : Math.log(measured / expected);
  return [
    [
      'winding resistance',
      over(o.windingResistance_mohm, motor.resistance_mohm * calibration.windingResistance_factor),
    ],
    [
      'free run',
      over(o.velocityConstant_rpmPerV, motor.velocityConstant_rpmPerV * calibration.velocityConstant_factor),
    ],
    [
      'pack resistance',
      over(o.packResistance_mohm, 1000 * packResistance(battery) * calibration.packResistance_factor),
    ],
    ['current limit', o.currentLimit_A && Math.max(0, 1 - o.currentLimit_A / Math.max(1e-3, fullCurrent))],
  ];
}
