import { formatMinutes, formatNumber as n } from '../../quantities/format.ts';
import type { LargerFan } from '../../study/larger-fan-types.ts';
import { LineChart, type Spot } from '../charts/LineChart.tsx';
import { Said } from '../craft/Said.tsx';
import { SHORT_LIMITS } from './limitNames.ts';

/** The drawn fan over tip diameter on the same drive, with what binds first at each size. */
export function LargerFanView({ study }: { readonly study: LargerFan }) {
  const { sizes, drawn, largest, words } = study;
  if (sizes.length < 2) return <Said texts={words} />;
  const spots: Spot[] = [
    {
      x: drawn.tipDiameter_mm,
      y: drawn.thrustToWeight,
      words: `drawn ${n(drawn.tipDiameter_mm)} mm`,
      below: true,
    },
  ];
  if (largest && Math.abs(largest.tipDiameter_mm / drawn.tipDiameter_mm - 1) > 0.02)
    spots.push({
      x: largest.tipDiameter_mm,
      y: largest.thrustToWeight,
      words: `largest ${n(largest.tipDiameter_mm)} mm`,
      hollow: true,
    });
  return (
    <>
      <Said texts={words} />
      <div className="chart-and-words">
        <LineChart
          story={`Thrust over weight over tip diameter: ${n(drawn.thrustToWeight)} at ${n(drawn.tipDiameter_mm)} mm as drawn.`}
          caption={
            <>
              Times its weight: <span className="key">full throttle</span>{' '}
              <span className="key dashed-blue">until the first limit</span>
            </>
          }
          xName="tip diameter, mm"
          yName="thrust over weight"
          from={sizes[0].tipDiameter_mm}
          to={sizes[sizes.length - 1].tipDiameter_mm}
          lines={[
            { points: sizes.map((s) => [s.tipDiameter_mm, s.thrustToWeight]) },
            { points: sizes.map((s) => [s.tipDiameter_mm, s.usableThrustToWeight]), dashed: true },
          ]}
          spots={spots}
          level={{ y: 1, words: 'its weight' }}
        />
        <div className="scroll" tabIndex={0} role="region" aria-label="The fan at other sizes">
          <table className="stations layouts sizes">
            <caption className="unseen">The fan at other sizes</caption>
            <thead>
              <tr>
                <th scope="col">Tips</th>
                <th scope="col">Thrust over weight</th>
                <th scope="col">Hover</th>
                <th scope="col">Full throttle</th>
                <th scope="col">Binds first</th>
              </tr>
            </thead>
            <tbody>
              {sizes.map((s) => (
                <tr key={s.tipDiameter_mm}>
                  <th scope="row">{n(s.tipDiameter_mm)} mm</th>
                  <td>{n(s.thrustToWeight)}</td>
                  <td>{s.lifts ? formatMinutes(s.hover_min) : 'does not lift'}</td>
                  <td>{n(s.fullCurrent_A, 2)} A</td>
                  <td>{s.binding ? SHORT_LIMITS[s.binding.kind] : 'nothing'}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </div>
    </>
  );
}
