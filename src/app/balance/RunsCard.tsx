import type { BenchAnswer } from '../../balance/types.ts';
import type { BalanceRun } from '../../project/schema.ts';
import { NumberField } from '../field/NumberField.tsx';
import { edit } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import { CircleDrawing } from './CircleDrawing.tsx';

const COLUMNS = [
  ['amplitude', 'Vibration', 'any unit'],
  ['trialMass_g', 'Trial mass', 'g'],
  ['trialRadius_mm', 'Radius', 'mm'],
  ['trialAngle_deg', 'Place', '° past the mark'],
  ['phase_deg', 'Phase', '°, if read'],
] as const;

const MOST = 24;
const PATH = 'balance.runs';

interface Props {
  readonly bench: BenchAnswer;
  readonly expected_gmm: number;
}

/** Runs on the stand, the construction drawn, and the correction in words. */
export function RunsCard({ bench, expected_gmm }: Props) {
  const runs = useApp((s) => s.project.balance.runs);
  const { trial, trialWords, workshop } = bench;
  const blank = (trialMass_g: number, trialAngle_deg: number): BalanceRun => ({
    amplitude: 0,
    trialMass_g,
    trialRadius_mm: round(workshop.radius_mm),
    trialAngle_deg,
    phase_deg: null,
  });
  const usual = round(Math.max(0.001, expected_gmm / workshop.radius_mm));
  const unread = runs.filter((run) => run.amplitude === 0).length;
  return (
    <section className="card" aria-labelledby="runs-title">
      <h2 id="runs-title">Trial runs</h2>
      <p className="caution">
        The rotor turns for these runs. Clamp the rig, wear eye protection, keep everyone out of the plane of
        the rotor, and pull the battery before every touch. Read the card below first; local rules come first
        of all.
      </p>
      {runs.length === 0 ? (
        <p className="parts-foot">
          <button
            className="chief"
            onClick={() =>
              edit(
                { [PATH]: [blank(0, 0), ...[0, 120, 240].map((place) => blank(usual, place))] },
                'started trial runs',
              )
            }
          >
            Start with four runs
          </button>
          <span>
            One as the rotor came, three with a trial mass; a phone on the rig can read the vibration.
          </span>
        </p>
      ) : (
        <>
          <div className="scroll trial-runs" tabIndex={0} role="region" aria-label="Trial runs">
            <table className="stations">
              <thead>
                <tr>
                  <th scope="col">Run</th>
                  {COLUMNS.map(([key, name, unit]) => (
                    <th key={key} scope="col">
                      {name} <small>{unit}</small>
                    </th>
                  ))}
                  <th scope="col">
                    <span className="unseen">Remove</span>
                  </th>
                </tr>
              </thead>
              <tbody>
                {runs.map((run, i) => (
                  <tr key={i}>
                    <th scope="row">{run.trialMass_g === 0 ? 'as it came' : i + 1}</th>
                    {COLUMNS.map(([key, name]) => (
                      <td key={key}>
                        <NumberField bare path={`${PATH}.${i}.${key}`} label={`${name}, run ${i + 1}`} />
                      </td>
                    ))}
                    <td className="buttons">
                      <button
                        title="Remove"
                        aria-label={`Remove run ${i + 1}`}
                        onClick={() => edit({ [PATH]: runs.filter((_, k) => k !== i) }, 'removed run')}
                      >
                        −
                      </button>
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
          <button
            disabled={runs.length >= MOST}
            onClick={() => edit({ [PATH]: [...runs, blank(usual, 0)] }, 'added run')}
          >
            Add a run
          </button>
          <div className="unbalance" aria-live="polite">
            {unread > 0 ? (
              <p>
                {unread === 1 ? 'One run has' : `${unread} runs have`} no vibration yet (0); the correction
                follows when all are read.
              </p>
            ) : (
              trial && (
                <>
                  {trial.ok && trial.circles.length > 0 && <CircleDrawing trial={trial} />}
                  <div>
                    {(trial.ok ? trialWords : [trial.message]).map((text) => (
                      <p key={text}>{text}</p>
                    ))}
                  </div>
                </>
              )
            )}
          </div>
        </>
      )}
      <div className="form">
        <NumberField path="balance.correctionRadius_mm" label="Radius of the correction" />
        <NumberField path="balance.drill_mm" label="Drill" />
        <NumberField path="balance.tape_gpm" label="Tape" />
      </div>
    </section>
  );
}

/** To two digits: a start for the person to change, no figure of its own. */
const round = (value: number): number => Number(value.toPrecision(2));
