import type { Reduced, ReducedPoint } from '../../bench/types.ts';
import { formatNumber as n, formatPercent } from '../../quantities/format.ts';
import type { Interval } from '../../quantities/interval.ts';
import type { Evaluated } from './ask.ts';
import { BenchChart } from './BenchChart.tsx';

const bare = (i: Interval | null, digits = 3): string => (i ? n(i.value, digits) : '–');
const ranged = (i: Interval | null): string =>
  i ? `${n(i.value)} (${n(i.low, 2)} to ${n(i.high, 2)})` : '–';
const share = (i: Interval | null): string =>
  i ? `${formatPercent(i.value)} (${Math.round(100 * i.low)} to ${Math.round(100 * i.high)})` : '–';

/** Measured against predicted, the share of hover first. */
export function ResultsCard({ found }: { readonly found: Evaluated }) {
  const { reduced, comparison, expected } = found;
  const { hoverShare, remarks, rigEffects, points } = reduced;
  const anyRpm = points.some((p) => p.rpm !== null);
  if (points.length === 0)
    return (
      <section className="card" aria-labelledby="results-title">
        <h2 id="results-title">What it does</h2>
        {remarks.map(({ text }) => (
          <p key={text} className="said">
            {text}
          </p>
        ))}
      </section>
    );
  return (
    <section className="card" aria-labelledby="results-title" data-bench="results">
      <h2 id="results-title">What it does</h2>
      {hoverShare && <p className="hover-share">{hoverShare.words}</p>}
      <ul className="notes">
        {comparison.words.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      <div className={anyRpm ? 'two-charts' : undefined}>
        <BenchChart
          along="throttle"
          reduced={reduced}
          expected={expected}
          caption="At equal throttle: fan and drive together"
        />
        {anyRpm && (
          <BenchChart
            along="rpm"
            reduced={reduced}
            expected={expected}
            caption="At equal speed: the air side alone"
          />
        )}
      </div>
      <h3>
        Measured against predicted <em>one fan; 9 of 10 intervals</em>
      </h3>
      <div className="scroll" tabIndex={0} role="region" aria-label="Measured against predicted">
        <table className="figure-table">
          <thead>
            <tr>
              <th scope="col">Throttle</th>
              <th scope="col">rpm</th>
              <th scope="col">
                Thrust <small>N</small>
              </th>
              <th scope="col">
                Predicted, equal throttle <small>N</small>
              </th>
              <th scope="col">of it</th>
              {anyRpm && (
                <>
                  <th scope="col">
                    Predicted, equal speed <small>N</small>
                  </th>
                  <th scope="col">of it</th>
                </>
              )}
            </tr>
          </thead>
          <tbody>
            {comparison.points.map((p) => (
              <tr key={p.point}>
                <th scope="row">{p.throttle === null ? '–' : formatPercent(p.throttle)}</th>
                <td>{p.rpm === null ? '–' : n(p.rpm, 4)}</td>
                <td>{ranged(p.measured_N)}</td>
                <td>{ranged(p.predictedAtThrottle_N)}</td>
                <td>{share(p.ratios.total)}</td>
                {anyRpm && (
                  <>
                    <td>{ranged(p.predictedAtRpm_N)}</td>
                    <td>{share(p.ratios.air)}</td>
                  </>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <Coefficients reduced={reduced} />
      {[...rigEffects, ...remarks].length > 0 && (
        <>
          <h3>To mind</h3>
          <ul className="notes">
            {[...rigEffects, ...remarks].map(({ text }) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

const COLUMNS: readonly (readonly [name: string, pick: (p: ReducedPoint) => Interval | null])[] = [
  ['V', (p) => p.voltage_V],
  ['A', (p) => p.current_A],
  ['W', (p) => p.electricalPower_W],
  ['thrust coefficient', (p) => p.ct],
  ['power coefficient', (p) => p.cp],
  ['figure of merit', (p) => p.figureOfMerit],
  ['g/W', (p) => p.gramsPerWatt],
];

function Coefficients({ reduced: { points } }: { readonly reduced: Reduced }) {
  const shown = COLUMNS.filter(([, pick]) => points.some((p) => pick(p) !== null));
  if (shown.length === 0) return null;
  return (
    <details className="more-rig">
      <summary>Coefficients, power and merit</summary>
      <div className="scroll" tabIndex={0} role="region" aria-label="Coefficients">
        <table className="figure-table">
          <thead>
            <tr>
              <th scope="col">Throttle</th>
              {shown.map(([name]) => (
                <th key={name} scope="col">
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {points.map((p, i) => (
              <tr key={i}>
                <th scope="row">{p.throttle === null ? '–' : formatPercent(p.throttle)}</th>
                {shown.map(([name, pick]) => (
                  <td key={name}>{name === 'figure of merit' ? ranged(pick(p)) : bare(pick(p))}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {points.some((p) => p.torqueFrom === 'motor') && (
        <p className="said">
          Power coefficient and merit follow from volts, amps and speed by the constants of the motor.
        </p>
      )}
    </details>
  );
}
