import type { FanMap } from '../air/map.ts';
import type { Supply } from '../drive/supply.ts';
import { setPath } from '../project/path.ts';
import type { Project } from '../project/schema.ts';
import { formatNumber as n, formatPercent } from '../quantities/format.ts';
import { geometryFaults } from '../shape/faults.ts';
import { answersFrom, scaledMap, type Answers } from './answers.ts';
import { modelOf, type Model } from './model.ts';
import { runAt } from './point.ts';
import type { Help } from './types.ts';

interface Candidate {
  readonly path: string;
  readonly text: string;
  readonly set: Help['set'];
}

/** Changes below this gain are not worth a line. */
const LEAST_GAIN = 0.01;
const MOST_LINES = 4;

/**
 * Single changes to the fan that would raise thrust over weight, best first. Each is really made: the changed fan is run
 * once at the drawn fan's full speed and the drive finds its new balance; its new printed mass is charged.
 */
export function helpsFor(model: Model, map: FanMap, supply: Supply, answers: Answers): Help[] {
  const { project } = model;
  if (!(answers.fullSpeed > 0) || !(answers.fullThrust > 0)) return [];
  const base = runAt(model, answers.fullSpeed);
  const helps: Help[] = [];
  for (const candidate of candidates(project, model)) {
    const changed = Object.entries(candidate.set).reduce(
      (p, [path, value]) => setPath(p, path, value),
      project,
    );
    if (geometryFaults(changed.fan, changed.motor).length > 0) continue;
    const other = modelOf(changed);
    const run = runAt(other, answers.fullSpeed);
    if (!(run.thrust > 0 && run.torque > 0)) continue;
    const moved = scaledMap(map, run.thrust / base.thrust, run.torque / base.torque);
    const gain =
      answersFrom(changed, supply, moved, other.needed).thrustToWeight / answers.thrustToWeight - 1;
    if (gain >= LEAST_GAIN)
      helps.push({
        ...candidate,
        text: `${candidate.text}: +${formatPercent(gain)} thrust over weight.`,
        gain,
      });
  }
  return helps.sort((a, b) => b.gain - a.gain).slice(0, MOST_LINES);
}

function candidates(project: Project, model: Model): Candidate[] {
  const { fan, brief, motor, printer } = project;
  const list: Candidate[] = [];
  const number = (path: string, name: string, unit: string, from: number, to: number) =>
    list.push({ path, text: `${name} ${n(from)} to ${n(to)} ${unit}`, set: { [path]: to } });
  const ducted = fan.kind === 'ducted';

  const outer = ducted ? 2000 * model.layout.outerRadius : fan.tipDiameter_mm;
  const room = Math.floor((brief.largestDuctWidth_mm - outer) * 2) / 2;
  if (room >= 1)
    number('fan.tipDiameter_mm', 'Tip diameter', 'mm', fan.tipDiameter_mm, fan.tipDiameter_mm + room);

  const leastHub = Math.ceil((motor.canDiameter_mm + 1) * 2) / 2;
  if (fan.hubDiameter_mm > leastHub) number('fan.hubDiameter_mm', 'Hub', 'mm', fan.hubDiameter_mm, leastHub);

  if (ducted) {
    const finest = Math.max(
      0.25,
      Math.round((3 * printer.xyScatter_mm + Math.abs(printer.xyError_mm)) * 20) / 20,
    );
    if (fan.tipGap_mm > finest * 1.2) number('fan.tipGap_mm', 'Tip gap', 'mm', fan.tipGap_mm, finest);
    const roundLip = Math.round(0.12 * fan.tipDiameter_mm * 2) / 2;
    if (fan.duct.lipRadius_mm < 0.9 * roundLip) {
      number('fan.duct.lipRadius_mm', 'Lip radius', 'mm', fan.duct.lipRadius_mm, roundLip);
    }
    if (!fan.stator.curved) {
      list.push({
        path: 'fan.stator.curved',
        text: 'Curved vanes that take out the swirl',
        set: { 'fan.stator.curved': true },
      });
    }
  }
  for (const turn of [2, -2]) {
    list.push({
      path: 'fan.blade',
      text: `Blade angle ${turn > 0 ? '+2' : '−2'} degrees everywhere`,
      set: Object.fromEntries(fan.blade.map((s, i) => [`fan.blade.${i}.angle_deg`, s.angle_deg + turn])),
    });
  }
  for (const factor of [1.15, 0.87]) {
    list.push({
      path: 'fan.blade',
      text: `Blade chord ${factor > 1 ? '15 % wider' : '13 % narrower'}`,
      set: Object.fromEntries(
        fan.blade.map((s, i) => [`fan.blade.${i}.chord_mm`, round(s.chord_mm * factor)]),
      ),
    });
  }
  return list;
}

const round = (x: number) => Math.round(x * 100) / 100;
