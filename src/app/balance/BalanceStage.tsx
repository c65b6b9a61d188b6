import { useMemo } from 'react';
import { benchAnswer } from '../../balance/bench.ts';
import { benchCard } from '../../balance/card.ts';
import { chanceInWords } from '../../balance/words.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import { NumberField } from '../field/NumberField.tsx';
import { useApp } from '../state/store.ts';
import { BenchCardView } from './BenchCardView.tsx';
import { BladesCard } from './BladesCard.tsx';
import { RunsCard } from './RunsCard.tsx';

/** The rotor's balance: what the printer leaves, the blades in order, the correction from runs, the card. */
export function BalanceStage() {
  const project = useApp((s) => s.project);
  const balance = useApp((s) => s.assessment?.balance ?? null);
  const bench = useMemo(() => balance && benchAnswer(project, balance), [project, balance]);
  if (!balance || !bench)
    return (
      <section className="card">
        <p>The balance could not be worked out for this project.</p>
      </section>
    );
  return (
    <>
      <section className="card" aria-labelledby="unbalance-title">
        <h2 id="unbalance-title">Balance as printed</h2>
        <div className="unbalance">
          <div>
            {balance.words.map((text) => (
              <p key={text}>{text}</p>
            ))}
            <div className="form">
              <NumberField path="balance.grade_mmps" label="Balance grade G" />
            </div>
          </div>
          <div>
            <table className="figure-table">
              <caption>Where it comes from</caption>
              <thead>
                <tr>
                  <th scope="col">Cause</th>
                  <th scope="col">
                    Mean <small>g mm</small>
                  </th>
                </tr>
              </thead>
              <tbody>
                {balance.sources.map(({ name, size_gmm }) => (
                  <tr key={name}>
                    <th scope="row">{name}</th>
                    <td>{n(size_gmm, 2)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
            <table className="figure-table">
              <caption>Grades at full throttle</caption>
              <thead>
                <tr>
                  <th scope="col">Grade</th>
                  <th scope="col">
                    Permits <small>g mm</small>
                  </th>
                  <th scope="col">Rotors that meet it untouched</th>
                </tr>
              </thead>
              <tbody>
                {balance.grades.map(({ grade_mmps, permissible_gmm, passChance }) => (
                  <tr key={grade_mmps} aria-current={grade_mmps === balance.grade_mmps || undefined}>
                    <th scope="row">{`G\u00a0${grade_mmps}`}</th>
                    <td>{n(permissible_gmm, 2)}</td>
                    <td>{chanceInWords(passChance)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        </div>
      </section>
      <BladesCard bench={bench} blades={balance.blades} apart={balance.apart} />
      <RunsCard bench={bench} expected_gmm={balance.expected_gmm.value} />
      <BenchCardView card={benchCard(project.name, balance, bench.workshop)} />
    </>
  );
}
