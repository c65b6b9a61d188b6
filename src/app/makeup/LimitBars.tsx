import type { DriveLimits } from '../../drive/limit-types.ts';
import { formatNumber as n, formatPercent } from '../../quantities/format.ts';
import { SHORT_LIMITS } from './limitNames.ts';

/** Each limit along the throttle: how far it lets you go, and where hover stands. */
export function LimitBars({ limits: { limits, hoverThrottle } }: { readonly limits: DriveLimits }) {
  return (
    <div className="scroll" tabIndex={0} role="region" aria-label="Limits along the throttle">
      <table className="stations limit-bars">
        <caption className="unseen">Limits along the throttle</caption>
        <thead>
          <tr>
            <th scope="col">Limit</th>
            <th scope="col">at most</th>
            <th scope="col">0 to 100 % throttle</th>
            <th scope="col">reached</th>
          </tr>
        </thead>
        <tbody>
          {limits.map((l) => (
            <tr key={l.kind}>
              <th scope="row">{SHORT_LIMITS[l.kind]}</th>
              <td>
                {n(l.limit)} {l.unit}
              </td>
              <td className="track">
                <span className="allowed" style={{ width: formatWidth(l.at?.throttle ?? 1) }} />
                {l.at && <span className="past" style={{ width: formatWidth(1 - l.at.throttle) }} />}
                {hoverThrottle !== null && (
                  <span className="at-hover" style={{ left: formatWidth(hoverThrottle) }} />
                )}
              </td>
              <td>{l.at ? formatPercent(l.at.throttle) : 'never'}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="layout-note">
        {hoverThrottle === null
          ? 'It does not hover, so no throttle of hover is marked.'
          : `Dashed upright line: hover, ${formatPercent(hoverThrottle)} throttle.`}
      </p>
    </div>
  );
}

const formatWidth = (share: number): string => `${(100 * Math.min(1, Math.max(0, share))).toFixed(1)}%`;
