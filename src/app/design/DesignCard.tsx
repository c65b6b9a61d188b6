import type { Project } from '../../project/schema.ts';
import type { DesignWish } from '../../study/design.ts';
import { askStudy } from '../worker/study.ts';
import { useAsked } from '../worker/useAsked.ts';
import { DesignForm } from './DesignForm.tsx';
import { DrawnBladeView } from './DrawnBladeView.tsx';

interface Question {
  readonly project: Project;
  readonly wish: DesignWish;
}

const draw = ({ project, wish }: Question) => askStudy((at) => at.design(project, wish));

/** A blade drawn by the tool for the thrust that carries the craft, shown beside the one in hand before it is used. */
export function DesignCard({ project }: { readonly project: Project }) {
  const [{ working, failed, answer }, ask] = useAsked(draw);
  return (
    <section className="card" aria-labelledby="design-card">
      <h3 id="design-card">
        Draw a blade for me <em>chord and angle for the thrust that carries this craft</em>
      </h3>
      <DesignForm blades={project.fan.bladeCount} onAsk={(wish) => ask({ project, wish })}>
        {working && 'Drawing the blade …'}
        {failed && 'The drawing stopped before it had a blade; try again.'}
      </DesignForm>
      <div aria-live="polite">
        {answer && !working && !answer.output.ok && (
          <section className="drawn" aria-label="Why there is no such blade">
            {answer.output.reasons.map((text) => (
              <p key={text}>{text}</p>
            ))}
          </section>
        )}
        {answer && answer.output.ok && (
          <DrawnBladeView blade={answer.output} asked={answer.input.project} project={project} />
        )}
      </div>
    </section>
  );
}
