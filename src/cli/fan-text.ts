import { formatNumber } from '../quantities/format.ts';
import type { SingleFan } from '../study/single-fan.ts';
import { bullet, columns, wrap } from './text.ts';

/** One fan at one speed, for a terminal. */
export function fanText(title: string, assumed: readonly string[], fan: SingleFan, written?: string): string {
  const number = (value: number | null, digits = 4) =>
    value === null ? 'none' : formatNumber(value, digits);
  return (
    `${title}\n` +
    assumed.map((text) => bullet(text)).join('') +
    '\n' +
    columns(
      [
        ['Speed', number(fan.rpm), 'rpm'],
        ['Tip diameter', number(fan.tipDiameter_mm), 'mm'],
        ['Blades', String(fan.bladeCount), ''],
        ['Air', number(fan.density_kgpm3), 'kg/m³'],
        ['Speed of the air toward it', number(fan.axialSpeed_mps), 'm/s'],
        ['Thrust', number(fan.thrust_N), 'N'],
        ['  of it the rotor', number(fan.rotorThrust_N), 'N'],
        ['Torque', number(fan.torque_Nm * 1000), 'mN m'],
        ['Power at the shaft', number(fan.power_W), 'W'],
        ['Figure of merit', number(fan.figureOfMerit, 3), ''],
        ['Thrust over rho n² D⁴', number(fan.ct), ''],
        ['Power over rho n³ D⁵', number(fan.cp), ''],
        ['Thrust over rho A (Ω R)²', number(fan.ctRotor), ''],
        ['Power over rho A (Ω R)³', number(fan.cpRotor), ''],
      ],
      [0, 2],
    ) +
    '\nAlong the blade\n' +
    annuliTable(fan) +
    'Every third annulus; --json has them all.\n' +
    (fan.limits.length > 0 ? `\nTo mind\n${fan.limits.map(({ text }) => bullet(text)).join('')}` : '') +
    (written === undefined ? '' : `\n${wrap(written)}`)
  );
}

function annuliTable({ annuli: a }: SingleFan): string {
  const rows = a.radius_mm
    .map((radius, i) => [
      formatNumber(radius),
      formatNumber(a.chord_mm[i]),
      formatNumber(a.angle_deg[i]),
      formatNumber(a.axialVelocity_mps[i]),
      formatNumber(a.swirlVelocity_mps[i]),
      formatNumber(a.angleOfAttack_deg[i], 2),
      formatNumber(a.liftCoefficient[i], 2),
      formatNumber(a.dragCoefficient[i], 2),
      formatNumber(a.reynolds[i]),
    ])
    .filter((_, i) => i % 3 === 0 || i === a.radius_mm.length - 1);
  return columns([
    ['radius', 'chord', 'angle', 'axial', 'swirl', 'attack', 'lift', 'drag', 'Reynolds'],
    ['mm', 'mm', '°', 'm/s', 'm/s', '°', '', '', ''],
    ...rows,
  ]);
}
