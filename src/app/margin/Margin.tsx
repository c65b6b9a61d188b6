import { useApp } from '../state/store.ts';
import { Answers } from './Answers.tsx';
import { answersOf, headlineOf } from './answers.ts';
import { Helps } from './Helps.tsx';
import { Remarks } from './Remarks.tsx';
import { Shortfall } from './Shortfall.tsx';

/** The margin column: the verdict, the answers with their reasons, what to mind and what would help. */
export function Margin() {
  const assessment = useApp((s) => s.assessment);
  const fans = useApp((s) => s.project.craft.fanCount);
  if (!assessment)
    return (
      <aside className="margin" aria-label="Answers">
        <h2>No answer for this design</h2>
        <p>The computation failed; undo the last change. Nothing you entered is lost.</p>
      </aside>
    );
  const { verdict, remarks, helps } = assessment;
  const [claim, interval] = headlineOf(verdict.headline);
  return (
    <aside className="margin" id="answers" aria-label="Answers" tabIndex={0}>
      <h2 className={verdict.lifts ? 'verdict' : 'verdict no'}>
        {claim} {interval && <span>{interval}</span>}
      </h2>
      <p className="summary">{verdict.summary}</p>
      {!verdict.lifts && <Shortfall />}
      <details className="reasons">
        <summary>Why: the chain of reasons</summary>
        <ol>
          {verdict.reasons.map((r) => (
            <li key={r.id}>{r.text}</li>
          ))}
        </ol>
      </details>
      <Remarks remarks={remarks.filter((r) => r.weight === 'stop')} label="Do not build it so" />
      <Answers rows={answersOf(assessment, fans)} reasons={verdict.reasons} />
      <Helps helps={helps} />
      <Remarks remarks={remarks.filter((r) => r.weight !== 'stop')} label="To mind" />
      <p className="caution">
        These are estimates, no certificate. In brackets: the range the model claims for nine cases in ten.
        Behind a spinning rotor stand shielded, with eye protection and no fingers near; local rules for
        flying come first.
      </p>
    </aside>
  );
}
