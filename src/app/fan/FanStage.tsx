import { formatNumber } from '../../quantities/format.ts';
import { geometryFaults } from '../../shape/faults.ts';
import { LossLedger } from '../charts/LossLedger.tsx';
import { ThrustChart } from '../charts/ThrustChart.tsx';
import { whenOf } from '../margin/answers.ts';
import { DesignCard } from '../design/DesignCard.tsx';
import { AirEntry } from '../entry/AirEntry.tsx';
import { EndView } from '../sheet/EndView.tsx';
import { HalfSection } from '../sheet/HalfSection.tsx';
import { TitleBlock } from '../sheet/TitleBlock.tsx';
import { useApp } from '../state/store.ts';
import { StrengthCard } from '../strength/StrengthCard.tsx';
import { SolidView } from '../view3d/SolidView.tsx';
import { BladeCard } from './BladeCard.tsx';
import { BladeTable } from './BladeTable.tsx';
import { CompareCard } from './CompareCard.tsx';
import { FanFields } from './FanFields.tsx';

/** The fan on its drawing sheet, and below it what it does. */
export function FanStage() {
  const project = useApp((s) => s.project);
  const assessment = useApp((s) => s.assessment);
  const faults = geometryFaults(project.fan, project.motor);
  const point = assessment && (assessment.fan.hover ?? assessment.fan.full);
  const compare = assessment?.fan.compare;
  return (
    <>
      <h2 className="unseen">The fan</h2>
      <section className="sheet" aria-label="Drawing of the fan">
        <HalfSection project={project} assessment={assessment} />
        <div className="views">
          <SolidView />
          <EndView project={project} />
          <TitleBlock project={project} assessment={assessment} />
        </div>
      </section>
      {faults.length > 0 && (
        <ul className="faults" role="status">
          {faults.map((f) => (
            <li key={f.path + f.text}>{f.text}</li>
          ))}
        </ul>
      )}
      {assessment && point && (
        <div className={compare ? 'strip' : 'strip two'}>
          <section className="card" aria-labelledby="thrust-card">
            <h3 id="thrust-card">
              Thrust of one fan <em>with its 90 % interval</em>
            </h3>
            <ThrustChart fan={assessment.fan} />
          </section>
          <section className="card" aria-labelledby="loss-card">
            <h3 id="loss-card">
              Where {formatNumber(point.shaftPower_W)} W goes <em>one fan, {whenOf(assessment)}</em>
            </h3>
            <LossLedger point={point} />
          </section>
          {compare && <CompareCard compare={compare} />}
        </div>
      )}
      {assessment && point && (
        <BladeCard project={project} point={point} when={whenOf(assessment)} print={assessment.print} />
      )}
      {assessment && <StrengthCard project={project} strength={assessment.strength} />}
      <DesignCard project={project} />
      <AirEntry project={project} hover={assessment?.fan.hover ?? null} />
      <BladeTable project={project} />
      <FanFields />
    </>
  );
}
