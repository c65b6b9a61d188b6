import type { Project } from '../../project/schema.ts';
import { useApp } from '../state/store.ts';
import { askStudy } from '../worker/study.ts';
import { useResting } from '../worker/useResting.ts';
import { Said } from '../craft/Said.tsx';
import { LargerFanView } from './LargerFanView.tsx';
import { LimitBars } from './LimitBars.tsx';

const look = (project: Project) => askStudy((at) => at.drive(project));

/** What the drive stands along the throttle, and whether it would turn a larger fan; worked out when the hands rest. */
export function BindingCards() {
  const project = useApp((s) => s.project);
  const { answer, solved, failed } = useResting(look, project);
  const state = failed
    ? ''
    : solved
      ? 'battery half full'
      : answer
        ? 'being worked out again'
        : 'being worked out';
  return (
    <div className="craft-answers" aria-busy={!solved && !failed}>
      <section className="card" aria-labelledby="binding-title">
        <h2 id="binding-title">
          What binds first <em>{state}</em>
        </h2>
        {failed && (
          <p role="status">The limits could not be worked out; the other numbers are not affected.</p>
        )}
        {answer && (
          <div className={solved ? 'chart-and-words' : 'chart-and-words stale'}>
            <LimitBars limits={answer.output.limits} />
            <Said texts={answer.output.limits.words} />
          </div>
        )}
      </section>
      {answer && (
        <section className="card" aria-labelledby="larger-title">
          <h2 id="larger-title">
            Could this motor turn a larger fan? <em>the drawn fan at other sizes on the same drive</em>
          </h2>
          <div className={solved ? undefined : 'stale'}>
            <LargerFanView study={answer.output.larger} />
          </div>
        </section>
      )}
    </div>
  );
}
