import type { Project } from '../../project/schema.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import { withCounts, type CountChoice } from '../../study/blade-vane-count.ts';
import { Said } from '../craft/Said.tsx';
import { replaceProject } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import { askStudy } from '../worker/study.ts';
import { useAsked } from '../worker/useAsked.ts';

const look = (project: Project) => askStudy((at) => at.counts(project));

/** Rows shown; the present one besides. */
const SHOWN = 8;

/** Counts of blades and vanes ranked by how loud, at what power, and whether they print. */
export function CountsCard() {
  const project = useApp((s) => s.project);
  const [{ answer, working, failed }, ask] = useAsked(look);
  const stale = answer !== null && answer.input !== project;
  const choices = answer?.output.choices ?? [];
  const shown = choices.slice(0, SHOWN);
  const present = choices.find((c) => c.present);
  if (present && !shown.includes(present)) shown.push(present);
  const ducted = answer?.input.fan.kind === 'ducted';
  return (
    <section className="card" aria-labelledby="counts-title" aria-busy={working}>
      <h3 id="counts-title">
        Counts of blades and vanes <em>at the thrust of hover, blade area kept</em>
      </h3>
      <p className="parts-foot">
        <button onClick={() => ask(project)} disabled={working}>
          {working ? 'Ranking…' : answer ? 'Rank them again' : 'Rank the counts'}
        </button>
        {stale && <span>The project has changed since.</span>}
        {failed && <span role="status">The counts could not be ranked.</span>}
      </p>
      {answer && (
        <div className={stale ? 'stale' : undefined}>
          <div className="scroll" tabIndex={0} role="region" aria-label="Counts of blades and vanes">
            <table className="figure-table counts">
              <thead>
                <tr>
                  <th scope="col">Blades</th>
                  {ducted && <th scope="col">Vanes</th>}
                  <th scope="col">
                    Against now <small>dB</small>
                  </th>
                  <th scope="col">
                    Power <small>%</small>
                  </th>
                  <th scope="col">Lowest pattern that travels</th>
                  <td />
                </tr>
              </thead>
              <tbody>
                {shown.map((c) => (
                  <tr key={`${c.bladeCount}/${c.vaneCount}`} aria-current={c.present ? 'true' : undefined}>
                    <th scope="row">{c.bladeCount}</th>
                    {ducted && <td>{c.vaneCount}</td>}
                    <td>
                      {c.present
                        ? 'as drawn'
                        : c.change_dB
                          ? `${signed(c.change_dB.value)} (${signed(c.change_dB.low)} to ${signed(c.change_dB.high)})`
                          : '–'}
                    </td>
                    <td>{c.power_ratio === null ? '–' : signed(100 * (c.power_ratio - 1))}</td>
                    <td>{patternOf(c)}</td>
                    <td>
                      {!c.present && !stale && c.faults.length === 0 && (
                        <button
                          aria-label={`Take ${c.bladeCount} blades and ${c.vaneCount} vanes`}
                          onClick={() =>
                            replaceProject(
                              withCounts(project, c.bladeCount, c.vaneCount),
                              `took ${c.bladeCount} blades and ${c.vaneCount} vanes`,
                            )
                          }
                        >
                          Take
                        </button>
                      )}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
          <Said texts={answer.output.words} />
        </div>
      )}
    </section>
  );
}

const signed = (value: number): string =>
  `${value > 0.05 ? '+' : ''}${Math.abs(value) < 0.05 ? '0' : n(value, 2)}`;

function patternOf({ travels, faults }: CountChoice): string {
  if (faults.length > 0) return 'can’t be built so';
  if (!travels) return 'none';
  const lobes = Math.abs(travels.lobes);
  const name = lobes === 0 ? 'plane wave' : `${lobes} lobe${lobes === 1 ? '' : 's'}`;
  return `${name} at ${travels.harmonic} × blades`;
}
