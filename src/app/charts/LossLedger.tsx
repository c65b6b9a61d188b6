import type { FanPoint, Losses } from '../../assess/types.ts';

const NAMES: Readonly<Record<keyof Losses, string>> = {
  ideal: 'moving the air, ideal',
  unevenJet: 'uneven jet',
  profileDrag: 'blade drag',
  tipGap: 'tip gap',
  swirl: 'swirl left',
  inletLip: 'inlet lip',
  wallFriction: 'duct wall',
  hubBase: 'hub and motor wake',
  struts: 'vanes',
  exitExpansion: 'exit',
};

/** Where the shaft power goes: one bar an item, and their sum. */
export function LossLedger({ point }: { readonly point: FanPoint }) {
  const items = (Object.keys(NAMES) as (keyof Losses)[])
    .map((key) => ({ key, name: NAMES[key], watts: point.losses_W[key] }))
    .filter(({ key, watts }) => key === 'ideal' || Math.abs(watts) > 1e-9);
  const largest = Math.max(...items.map((i) => Math.abs(i.watts)), 1e-12);
  const decimals = largest >= 100 ? 0 : largest >= 10 ? 1 : 2;
  const write = (watts: number) => `${watts.toFixed(decimals).replace('-', '−')} W`;
  const sum = items.reduce((total, i) => total + i.watts, 0);
  return (
    <table className="ledger">
      <caption className="unseen">Where the shaft power of one fan goes</caption>
      <tbody>
        {items.map(({ key, name, watts }) => (
          <tr key={key} className={key === 'ideal' ? 'first' : watts < 0 ? 'back' : undefined}>
            <th scope="row">{name}</th>
            <td className="bar">
              <span style={{ width: `${(100 * Math.abs(watts)) / largest}%` }} />
            </td>
            <td>{write(watts)}</td>
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">sum, at the shaft</th>
          <td />
          <td>{write(sum)}</td>
        </tr>
      </tfoot>
    </table>
  );
}
