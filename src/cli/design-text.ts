import type { Assessment } from '../assess/types.ts';
import { formatMinutes, formatNumber as n, formatPercent } from '../quantities/format.ts';
import { rpmFromAngularSpeed } from '../quantities/units.ts';
import type { ProjectDesign } from '../study/design.ts';
import { bullet, columns } from './text.ts';

type Designed = Extract<ProjectDesign, { ok: true }>;

const LOADING_WORDS = {
  printable: 'a straight chord that prints well',
  uniform: 'the same pressure rise at every radius',
  'free vortex': 'a free vortex behind it',
} as const;

/** A designed blade in words and tables, for a terminal. */
export function designText(designed: Designed): string {
  const { design, project } = designed;
  const held = [...design.bounds, ...design.limits].map(({ text }) => text).concat(designed.notes);
  return (
    `${project.name}: ${project.fan.bladeCount} blades with ${LOADING_WORDS[designed.loading]}\n` +
    '\nStations\n' +
    stationTable(designed) +
    '\nDesign point, one fan\n' +
    pointTable(designed) +
    '\nOff the design, as drawn\n' +
    curveTable(designed) +
    '\nThe craft\n' +
    comparison(designed) +
    (held.length > 0 ? '\nTo mind\n' + held.map((text) => bullet(text)).join('') : '')
  );
}

function stationTable({ design, project }: Designed): string {
  const { hubDiameter_mm: hub, tipDiameter_mm: tip } = project.fan;
  return columns(
    [
      ['span_ratio', 'radius_mm', 'chord_mm', 'angle_deg', 'thickness_ratio', 'camber_ratio'],
      ...design.stations.map((s) => [
        s.span_ratio.toFixed(2),
        ((hub + s.span_ratio * (tip - hub)) / 2).toFixed(2),
        s.chord_mm.toFixed(2),
        s.angle_deg.toFixed(1),
        s.thickness_ratio.toFixed(3),
        s.camber_ratio.toFixed(3),
      ]),
    ],
    [],
  );
}

function pointTable({ printed: run, rpm, throttle, thrust_N }: Designed): string {
  return columns(
    [
      ['Thrust as printed', `${n(run.thrust)} N`, `(wanted ${n(thrust_N)} N)`],
      ['  of it the rotor', `${n(run.rotorThrust)} N`, ''],
      [
        'Speed',
        `${n(rpm)} rpm`,
        throttle === null ? '(no throttle gives it)' : `(${formatPercent(throttle)} throttle)`,
      ],
      ['Torque', `${n(run.torque * 1000)} mN m`, ''],
      ['Power at the shaft', `${n(run.shaftPower)} W`, ''],
      ['Figure of merit', n(run.idealPower / run.shaftPower, 2), ''],
    ],
    [0, 2],
  );
}

function curveTable({ design }: Designed): string {
  return columns(
    [
      ['rpm', 'thrust N', 'torque mN m', 'shaft W', 'figure of merit'],
      ...design.curve.map((p) => [
        n(rpmFromAngularSpeed(p.omega)),
        n(p.thrust),
        n(p.torque * 1000),
        n(p.shaftPower),
        n(p.figureOfMerit, 2),
      ]),
    ],
    [],
  );
}

function comparison({ before, after }: Designed): string {
  const row = (name: string, value: (a: Assessment) => string) => [name, value(before), value(after)];
  const hover = (a: Assessment) => a.fan.hover;
  return columns([
    ['', 'before', 'after'],
    row('All-up mass', ({ craft }) => `${n(craft.mass_g)} g`),
    row('Thrust over weight', ({ craft }) => n(craft.thrustToWeight)),
    row('Hover throttle', ({ craft }) =>
      craft.hoverThrottle === null ? 'none' : formatPercent(craft.hoverThrottle),
    ),
    row('Hover time', ({ craft }) => (craft.lifts ? formatMinutes(craft.hover_min) : 'none')),
    row('Power at the shaft in hover', (a) => (hover(a) ? `${n(hover(a)!.shaftPower_W)} W` : 'none')),
    row('Motor current at full throttle', ({ fan }) => `${n(fan.full.motorCurrent_A)} A`),
  ]);
}
