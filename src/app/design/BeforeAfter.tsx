import type { Assessment } from '../../assess/types.ts';
import { formatMinutes, formatNumber as n, formatPercent } from '../../quantities/format.ts';

const ROWS: readonly (readonly [string, (a: Assessment) => string])[] = [
  ['Thrust over weight', ({ craft }) => n(craft.thrustToWeight)],
  [
    'Hover throttle',
    ({ craft }) => (craft.hoverThrottle === null ? 'none' : formatPercent(craft.hoverThrottle)),
  ],
  ['Hover time', ({ craft }) => (craft.lifts ? formatMinutes(craft.hover_min) : 'none')],
  ['Shaft power in hover', ({ fan }) => (fan.hover ? `${n(fan.hover.shaftPower_W)} W` : 'none')],
  ['Winding at full throttle', ({ fan }) => `${n(fan.full.motorCurrent_A)} A`],
  ['All-up mass', ({ craft }) => `${n(craft.mass_g)} g`],
];

/** What the craft does with the blade in hand and with the other one. */
export function BeforeAfter({ before, after }: { readonly before: Assessment; readonly after: Assessment }) {
  return (
    <table className="stations before-after">
      <caption className="unseen">The craft before and after</caption>
      <thead>
        <tr>
          <th scope="col">The craft</th>
          <th scope="col">now</th>
          <th scope="col">with this blade</th>
        </tr>
      </thead>
      <tbody>
        {ROWS.map(([name, write]) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>{write(before)}</td>
            <td>{write(after)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
