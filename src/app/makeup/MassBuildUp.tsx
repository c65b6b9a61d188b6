import { formatNumber, formatPercent } from '../../quantities/format.ts';
import { useApp } from '../state/store.ts';

const KINDS = {
  payload: 'payload',
  fixed: 'aboard',
  drive: 'drive',
  battery: 'battery',
  printed: 'printed',
} as const;

/** Every gram of the craft, and what share of the whole it is. */
export function MassBuildUp() {
  const craft = useApp((s) => s.assessment?.craft);
  if (!craft) return null;
  return (
    <div className="scroll" tabIndex={0} role="region" aria-label="Mass build-up">
      <table className="masses">
        <caption>Mass build-up</caption>
        <thead>
          <tr>
            <th scope="col">Item</th>
            <th scope="col">Kind</th>
            <th scope="col">Each</th>
            <th scope="col">Number</th>
            <th scope="col">Mass</th>
            <th scope="col">Share</th>
          </tr>
        </thead>
        <tbody>
          {craft.items.map((item, i) => (
            <tr key={i}>
              <th scope="row">{item.name}</th>
              <td>{KINDS[item.kind]}</td>
              <td>{formatNumber(item.each_g)} g</td>
              <td>{item.count}</td>
              <td>{formatNumber(item.total_g)} g</td>
              <td>{formatPercent(item.total_g / craft.mass_g)}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row" colSpan={4}>
              All-up mass
            </th>
            <td>{formatNumber(craft.mass_g)} g</td>
            <td>100 %</td>
          </tr>
        </tfoot>
      </table>
    </div>
  );
}
