import { useEffect } from 'react';
import type { Project } from '../../project/schema.ts';
import { Said } from '../craft/Said.tsx';
import { useApp } from '../state/store.ts';
import { askStudy } from '../worker/study.ts';
import { useAsked } from '../worker/useAsked.ts';

const look = (project: Project) => askStudy((at) => at.printerLimits(project));

/** What the printer makes of this blade, the thinnest it could make, and the smallest fan worth trying. */
export function PrinterLimitsCard() {
  const project = useApp((s) => s.project);
  const print = useApp((s) => s.assessment?.print ?? null);
  const remarks = useApp((s) => s.assessment?.remarks);
  const [{ answer, failed }, ask] = useAsked(look);
  useEffect(() => ask(project), [ask, project]);
  const stale = answer?.input !== project;
  const lost = print?.stations.some((s) => s.lost) === true;
  const stop = remarks?.find(({ weight, path }) => lost && weight === 'stop' && path === 'fan.blade');
  return (
    <section className="card" aria-labelledby="limits-title" aria-busy={stale && !failed}>
      <h2 id="limits-title">What this printer can do</h2>
      {stop && <p className="wrong">{stop.text}</p>}
      {print && <p>{print.words}</p>}
      {failed && <p role="status">The limits of this printer could not be worked out.</p>}
      {answer && (
        <div className={stale ? 'stale' : undefined}>
          <Said texts={[...answer.output.thinnest.map(({ words }) => words), answer.output.smallest.words]} />
        </div>
      )}
    </section>
  );
}
