import { useApp } from '../state/store.ts';
import { headlineOf } from './answers.ts';

/** On a narrow screen the answers lie below the work; this line keeps the verdict in sight and leads there. */
export function VerdictLine() {
  const headline = useApp((s) => s.assessment?.verdict.headline);
  if (!headline) return null;
  const [claim, interval] = headlineOf(headline);
  return (
    <a className="verdict-line" href="#answers">
      <b>{claim}</b> {interval}
    </a>
  );
}
