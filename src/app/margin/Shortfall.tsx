import type { Project } from '../../project/schema.ts';
import { useApp } from '../state/store.ts';
import { askStudy } from '../worker/study.ts';
import { useResting } from '../worker/useResting.ts';

const look = (project: Project) => askStudy((at) => at.shortfall(project));

/** Why a craft does not lift: what counts for most, each cause set right alone by the worker. */
export function Shortfall() {
  const project = useApp((s) => s.project);
  const { answer, solved, failed } = useResting(look, project);
  return (
    <section className="shortfall" aria-labelledby="shortfall-title" aria-busy={!solved && !failed}>
      <h3 id="shortfall-title">Why it does not lift</h3>
      {failed && <p role="status">The causes could not be told apart here.</p>}
      {!answer && !failed && <p>Being looked into …</p>}
      {answer && (
        <div className={solved ? undefined : 'stale'}>
          {answer.output.map((text) => (
            <p key={text}>{text}</p>
          ))}
        </div>
      )}
    </section>
  );
}
