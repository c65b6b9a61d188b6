import { useId } from 'react';
import { Said } from '../craft/Said.tsx';
import { useApp } from '../state/store.ts';
import { FrontTable } from './FrontTable.tsx';
import { look, setFans, setScope, stillHolds, stopLooking, useSizing } from './run.ts';
import { SCOPES, type Scope } from './scope.ts';
import { SizeMap } from './SizeMap.tsx';

const COUNTS = Array.from({ length: 12 }, (_, i) => i + 1);
const fansInWords = (count: number): string => (count === 1 ? '1 fan' : `${count} fans`);

/** Which tip diameter, motor and battery would do, and why the others would not. */
export function SizeCard() {
  const project = useApp((s) => s.project);
  const { scope, fans, state, done, total, asked, study } = useSizing();
  const id = useId();
  const working = state === 'working';
  const stale = asked !== null && !stillHolds(asked, study, project);
  return (
    <section className="card" aria-labelledby="size-title" aria-busy={working}>
      <h3 id="size-title">
        Which size would do <em>a plain ducted fan, sized anew for this brief, payload and printer</em>
      </h3>
      <p className="parts-foot size-start">
        <label htmlFor={id}>Look over</label>
        <select id={id} value={scope} disabled={working} onChange={(e) => setScope(e.target.value as Scope)}>
          {Object.entries(SCOPES).map(([key, words]) => (
            <option key={key} value={key}>
              {words}
            </option>
          ))}
        </select>
        <label htmlFor={`${id}-fans`}>for</label>
        <select
          id={`${id}-fans`}
          aria-label="Number of fans to size for"
          value={fans ?? ''}
          disabled={working}
          onChange={(e) => setFans(e.target.value === '' ? null : Number(e.target.value))}
        >
          <option value="">{fansInWords(project.craft.fanCount)}, as now</option>
          {COUNTS.filter((count) => count !== project.craft.fanCount).map((count) => (
            <option key={count} value={count}>
              {fansInWords(count)}
            </option>
          ))}
        </select>
        {working ? (
          <button onClick={stopLooking}>Stop</button>
        ) : (
          <button className="chief" onClick={look}>
            {study ? 'Look again' : 'Look for sizes'}
          </button>
        )}
        {working && <progress aria-label="Sizes looked at" value={done} max={total || 1} />}
        <span role="status">
          {working
            ? total > 0 && `${done} of ${total}`
            : state === 'failed'
              ? 'The sizes could not be worked out; the project is as it was.'
              : study && !study.complete
                ? 'Stopped before its end: the map shows what was looked at.'
                : stale
                  ? 'Brief, craft, printer or material changed since: look again.'
                  : ''}
        </span>
      </p>
      {study && asked && (
        <div className={stale || working ? 'stale' : undefined}>
          {study.fanCount !== project.craft.fanCount && (
            <p className="layout-note">
              This map is for {fansInWords(study.fanCount)}; the project has {project.craft.fanCount}. Using
              one changes their number too; frame and wiring stay as heavy as you entered them.
            </p>
          )}
          <SizeMap study={study} />
          <Said label="In short" texts={study.words} />
          <FrontTable study={study} asked={asked} stale={stale || working} />
          <p className="layout-note">
            Each square is the best of some 13 fans: hub, 3, 5 or 7 blades, blade angle and chord. Using one
            puts its plain fan in place of yours, with its motor and battery; a motor of the list brings the
            smallest controller that stands it. Generic parts are estimates: enter your own figures before you
            print.
          </p>
        </div>
      )}
    </section>
  );
}
