import type { DuctFlowResult } from '../../assess/lip-flow.ts';
import type { FanPoint } from '../../assess/types.ts';
import type { Project } from '../../project/schema.ts';
import { millimetresFromMetres } from '../../quantities/units.ts';
import { fanLayout } from '../../shape/layout.ts';
import { askStudy } from '../worker/study.ts';
import { useResting } from '../worker/useResting.ts';
import { EntryFigures } from './EntryFigures.tsx';
import { InflowChart } from './InflowChart.tsx';
import { NotKnown } from './NotKnown.tsx';
import { SuctionDrawing } from './SuctionDrawing.tsx';

const solve = (project: Project) => askStudy((at) => at.ductFlow(project));

interface Props {
  readonly project: Project;
  /** The hover point by the annuli; null where there is none. */
  readonly hover: FanPoint | null;
}

/** How the air comes round the lip and into the rotor, by potential flow, solved when the hands rest. */
export function AirEntry({ project, hover }: Props) {
  const { working, failed, answer, solved } = useResting(solve, project);
  const result = answer?.output;
  return (
    <section className="card entry-air" aria-labelledby="entry-card" aria-busy={working || !solved}>
      <h3 id="entry-card">
        How the air enters <em>{state(solved || failed, result)}</em>
      </h3>
      {failed && <p role="status">This flow could not be solved; the other numbers are not affected.</p>}
      {result?.ok === false && <p>{result.why}</p>}
      {answer && result?.ok && (
        <div className={solved ? undefined : 'stale'}>
          <ul className="said">
            {result.answer.sentences.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
          <div className="entry-views">
            <SuctionDrawing
              answer={result.answer}
              rotorZ_mm={millimetresFromMetres(fanLayout(answer.input.fan, answer.input.motor).rotorZ)}
            />
            <InflowChart inflow={result.answer.inflow} annuli={solved && hover ? hover.annuli : null} />
            <EntryFigures answer={result.answer} />
          </div>
          <NotKnown />
        </div>
      )}
    </section>
  );
}

function state(done: boolean, result: DuctFlowResult | undefined): string {
  if (done && result?.ok === false) return '';
  if (done) return 'potential flow about the duct as drawn, in hover';
  return result?.ok ? 'the last answer; being solved again' : 'being solved';
}
