import { ChoiceField } from '../field/ChoiceField.tsx';
import { NumberField } from '../field/NumberField.tsx';
import type { Project } from '../../project/schema.ts';
import { SizeCard } from '../size/SizeCard.tsx';
import { useApp } from '../state/store.ts';
import { askStudy } from '../worker/study.ts';
import { useResting } from '../worker/useResting.ts';
import { BatteryCard } from './BatteryCard.tsx';
import { DuctOrOpenCard } from './DuctOrOpenCard.tsx';
import { LayoutsCard } from './LayoutsCard.tsx';
import { MakeOrBuyCard } from './MakeOrBuyCard.tsx';
import { Said } from './Said.tsx';
import { TopView } from './TopView.tsx';

const look = (project: Project) => askStudy((at) => at.craft(project));

/** The whole machine: where its mass sits, what wind it stands, which battery and layout suit it, and whether a duct does. */
export function CraftStage() {
  const project = useApp((s) => s.project);
  const { answer, solved, failed } = useResting(look, project);
  const output = answer?.output;
  const state = failed
    ? ''
    : solved
      ? 'battery half full'
      : output
        ? 'being worked out again'
        : 'being worked out';
  return (
    <>
      <section className="card" aria-labelledby="stand-title">
        <h2 id="stand-title">How it stands together</h2>
        <div className="form">
          <NumberField path="craft.fanCount" />
          <ChoiceField
            path="craft.layout"
            label="Layout"
            names={{ ring: 'in a ring', row: 'in a row', 'two rows': 'in two rows' }}
          />
          <NumberField path="craft.ductSpacing_mm" />
          <NumberField path="craft.batteryBelow_mm" />
          <NumberField path="craft.payloadBelow_mm" />
          <NumberField path="craft.tilt_deg" />
        </div>
      </section>
      {failed && (
        <p role="status" className="card">
          This craft could not be worked out; the other numbers are not affected.
        </p>
      )}
      <div className="craft-answers" aria-busy={!solved && !failed}>
        <section className="card" aria-labelledby="balance-title">
          <h3 id="balance-title">
            Balance and wind <em>{state}</em>
          </h3>
          {answer && output && (
            <div className={solved ? 'balance' : 'balance stale'}>
              <TopView placement={output.placement} project={answer.input} />
              <div>
                <Said label="In hover and climb" texts={output.flying} />
                <Said label="In wind" texts={output.wind} />
                <Said label="Near ground, walls and each other" texts={output.nearness} />
              </div>
            </div>
          )}
          <p className="caution">
            The wind figures are estimates for a craft that is steered well; fly the first time in still air,
            low, over soft ground and away from people, and keep to the rules of the place.
          </p>
        </section>
        {answer && output && (
          <>
            <BatteryCard study={output.battery} stale={!solved} />
            <LayoutsCard asked={answer.input} stands={output.stands} stale={!solved} />
            <DuctOrOpenCard study={output.ductOrOpen} asked={answer.input} stale={!solved} />
          </>
        )}
      </div>
      <MakeOrBuyCard />
      <SizeCard />
    </>
  );
}
