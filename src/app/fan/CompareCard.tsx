import type { Comparison } from '../../assess/types.ts';
import { formatNumber as n } from '../../quantities/format.ts';

/** The same rotor with its duct and without: what each gives for the same power, and takes for the same thrust. */
export function CompareCard({ compare }: { readonly compare: Comparison }) {
  const { thrustAtEqualPower: thrust, powerAtEqualThrust: power, words } = compare;
  return (
    <section className="card compare-card" aria-labelledby="compare-card">
      <h3 id="compare-card">
        With the duct and without <em>in hover</em>
      </h3>
      <table className="compare">
        <thead>
          <tr>
            <td />
            <th scope="col">duct</th>
            <th scope="col">open</th>
          </tr>
        </thead>
        <tbody>
          <tr>
            <th scope="row">Thrust at {power ? `${n(power.ducted_W)} W` : 'the same power'}</th>
            <td>{n(thrust.ducted_N)} N</td>
            <td>{n(thrust.open_N)} N</td>
          </tr>
          <tr>
            <th scope="row">Power at {n(thrust.ducted_N)} N</th>
            {power ? (
              <>
                <td>{n(power.ducted_W)} W</td>
                <td>{n(power.open_W)} W</td>
              </>
            ) : (
              <td colSpan={2}>not reached open</td>
            )}
          </tr>
        </tbody>
      </table>
      <p className="compare-why">{words}</p>
    </section>
  );
}
