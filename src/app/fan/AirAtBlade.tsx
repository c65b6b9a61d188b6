import type { ReactNode } from 'react';
import { formatNumber as n } from '../../quantities/format.ts';
import { VelocityTriangle } from '../charts/VelocityTriangle.tsx';
import type { Triangle } from '../charts/triangle.ts';

const ROWS: readonly (readonly [string, ReactNode, (t: Triangle) => string])[] = [
  ['Blade speed', 'U', (t) => `${n(t.blade_mps)} m/s`],
  [
    'Through the disc',
    <>
      V<sub>x</sub>
    </>,
    (t) => `${n(t.axial_mps)} m/s`,
  ],
  [
    'Swirl behind it',
    <>
      V<sub>t</sub>
    </>,
    (t) => `${n(t.swirl_mps, 2)} m/s`,
  ],
  ['Met by the blade', 'W', (t) => `${n(t.relative_mps)} m/s`],
  ['Inflow angle', 'φ', (t) => `${n(t.inflow_deg)}°`],
  ['Angle of attack', 'α', (t) => `${n(t.attack_deg, 2)}°`],
  [
    'Lift coefficient',
    <>
      c<sub>l</sub>
    </>,
    (t) => n(t.lift, 2),
  ],
  [
    'Drag coefficient',
    <>
      c<sub>d</sub>
    </>,
    (t) => n(t.drag, 2),
  ],
  ['Reynolds number', 'Re', (t) => n(t.reynolds, 2)],
];

/** The air that one section of the blade meets: its triangle of speeds, and what the section makes of it. */
export function AirAtBlade({ air }: { readonly air: Triangle }) {
  return (
    <div className="air-at-blade">
      <VelocityTriangle air={air} />
      <dl>
        {ROWS.map(([name, symbol, write]) => (
          <div key={name}>
            <dt>
              {name} <i>{symbol}</i>
            </dt>
            <dd>{write(air)}</dd>
          </div>
        ))}
      </dl>
    </div>
  );
}
