import { acceptCause } from '../../bench/calibrate.ts';
import type { CauseFinding, Diagnosis } from '../../bench/diagnose/types.ts';
import { formatPercent } from '../../quantities/format.ts';
import { replaceProject } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import type { RunPlace } from './place.ts';

/** Takes a cause as true: one step, which undo takes back. */
function accept(cause: CauseFinding, build: string): void {
  const { project } = useApp.getState();
  const { id, name, belongsTo, size } = cause;
  const accepted = acceptCause(project, { id, name, value: size?.interval.value ?? 0, belongsTo }, build);
  replaceProject(accepted.project, `accepted: ${name}`);
}

const BELONGS: Readonly<Record<CauseFinding['belongsTo'], string>> = {
  printer: 'a truth of this printer; the next build inherits it',
  motor: 'a truth of this motor; the next build inherits it',
  battery: 'a truth of this pack; the next build inherits it',
  build: 'a fault of this build; the next does not inherit it',
  bench: 'a matter of the bench; it is written down and changes no model',
};

const chance = (p: number): string => (p < 0.005 ? 'under 1 %' : p > 0.995 ? 'over 99 %' : formatPercent(p));

interface Props {
  readonly place: RunPlace;
  readonly diagnosis: Diagnosis | null;
  readonly working: boolean;
  readonly failed: boolean;
}

/** Why it does what it does: causes by their odds, what to measure next, what to change. */
export function CausesCard({ place: { build }, diagnosis, working, failed }: Props) {
  return (
    <section className="card" aria-labelledby="causes-title" aria-busy={working} data-bench="causes">
      <h2 id="causes-title">Why</h2>
      {failed && <p role="alert">The causes could not be weighed for these readings.</p>}
      {!diagnosis && !failed && (
        <p className="said">
          {working ? 'Weighing the causes …' : 'One reading with the fan running is enough to begin.'}
        </p>
      )}
      {diagnosis && (
        <>
          <div className="why" aria-live="polite">
            {diagnosis.sentences.map((text) => (
              <p key={text}>{text}</p>
            ))}
          </div>
          {diagnosis.causes.length > 0 && (
            <ol className="causes" aria-label="Causes, likeliest first">
              {diagnosis.causes.map((cause) => (
                <Cause
                  key={cause.id}
                  cause={cause}
                  // What is shown while it is weighed anew is of the model before; taken over twice it would count twice.
                  onAccept={working ? null : () => accept(cause, build.id)}
                />
              ))}
            </ol>
          )}
          <p className={diagnosis.unexplained.flagged ? 'unexplained flagged' : 'unexplained'}>
            {diagnosis.unexplained.flagged && <b>Unexplained. </b>}
            Nothing amiss beyond ordinary scatter: {chance(diagnosis.nothingAmiss)}. Something not known here:{' '}
            {chance(diagnosis.unexplained.chance)}.
          </p>
          {diagnosis.next.length > 0 && (
            <>
              <h3>Measure next</h3>
              <ol className="next-tests">
                {diagnosis.next.map((test) => (
                  <li key={test.test}>
                    <b>{test.words}</b> {test.how}
                    {test.caution && <p className="caution">{test.caution}</p>}
                  </li>
                ))}
              </ol>
            </>
          )}
          {diagnosis.bestChange && (
            <>
              <h3>What brings most</h3>
              <p className="said">{diagnosis.bestChange.words}</p>
            </>
          )}
        </>
      )}
      {build.learned.length > 0 && (
        <>
          <h3>Learned on this build</h3>
          <ul className="notes" data-bench="learned">
            {build.learned.map((text, i) => (
              <li key={i}>{text}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

function Cause({
  cause,
  onAccept,
}: {
  readonly cause: CauseFinding;
  readonly onAccept: (() => void) | null;
}) {
  const { name, size, share } = cause;
  return (
    <li>
      <h3>
        {name}
        {size && size.words !== '' && <em> {size.words}</em>}
      </h3>
      <div className="odds">
        <span className="odds-bar" aria-hidden="true">
          <span style={{ width: `${Math.round(100 * cause.chance)}%` }} />
        </span>
        <span>
          chance {chance(cause.chance)}, odds {cause.odds}
          {share &&
            `; explains ${formatPercent(share.value)} of the shortfall (${formatPercent(share.low)} to ${formatPercent(share.high)})`}
        </span>
      </div>
      {cause.for.length + cause.against.length > 0 && (
        <ul className="signs">
          {cause.for.map((text) => (
            <li key={text} className="for">
              <span className="unseen">For: </span>
              {text}
            </li>
          ))}
          {cause.against.map((text) => (
            <li key={text} className="against">
              <span className="unseen">Against: </span>
              {text}
            </li>
          ))}
        </ul>
      )}
      <p className="said">{cause.fix}</p>
      <div className="bench-buttons">
        <button disabled={onAccept === null} onClick={onAccept ?? undefined}>
          Accept: {name}
        </button>
        <span className="soft-words">{BELONGS[cause.belongsTo]}</span>
      </div>
    </li>
  );
}
