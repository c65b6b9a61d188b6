import type { Reason } from '../../assess/types.ts';
import type { Answer } from './answers.ts';

interface Props {
  readonly rows: readonly Answer[];
  readonly reasons: readonly Reason[];
}

/** One line an answer; each opens to what lies behind it. */
export function Answers({ rows, reasons }: Props) {
  return (
    <div className="answers">
      {rows.map(({ id, label, value, interval, chain, why }) => (
        <details key={id} data-answer={id}>
          <summary>
            <span className="what">{label}</span>
            <span className="value">
              {value}
              {interval && <small>{interval}</small>}
            </span>
          </summary>
          <ul>
            {reasons
              .filter((r) => chain.includes(r.id))
              .map((r) => (
                <li key={r.id}>{r.text}</li>
              ))}
            {why.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </details>
      ))}
    </div>
  );
}
