import { useState } from 'react';
import type { ExpectedAir } from '../../bench/expected-air.ts';
import { airReadingSchema, type AirReading } from '../../project/bench.ts';
import { formatNumber as n, formatPercent } from '../../quantities/format.ts';
import type { Interval } from '../../quantities/interval.ts';
import { NumberField } from '../field/NumberField.tsx';
import { edit } from '../state/actions.ts';
import { askBench, type BenchQuestion, type Evaluated } from './ask.ts';
import type { RunPlace } from './place.ts';

const KINDS: readonly (readonly [kind: AirReading['kind'], add: string, unit: string])[] = [
  ['exit speed', 'Add an exit speed', 'm/s'],
  ['thread angle', 'Add a thread angle', '°'],
  ['lip flow', 'Add smoke at the lip', '0 to 1'],
];

const RANGES: Readonly<Record<AirReading['kind'], readonly [number, number]>> = {
  'exit speed': [0, 200],
  'thread angle': [-90, 90],
  'lip flow': [0, 1],
};

interface Props {
  readonly place: RunPlace;
  readonly question: BenchQuestion;
  readonly found: Evaluated | null;
}

/** Readings of the air, all optional, beside what was expected there; and the card to take along. */
export function AirCard({ place: { run, path }, question, found }: Props) {
  const [lip, setLip] = useState<readonly string[]>([]);
  const list = `${path}.airReadings`;
  const { airReadings: readings } = run;
  const place = found?.airCard.at(-1)?.places[2];
  const [adding, setAdding] = useState<AirReading['kind'] | null>(null);
  const [typed, setTyped] = useState('');
  const [wrong, setWrong] = useState<string | null>(null);
  const add = () => {
    const value = /^[-+]?(\d+([.,]\d*)?|[.,]\d+)$/.test(typed.trim())
      ? Number(typed.trim().replace(',', '.'))
      : Number.NaN;
    const [low, high] = RANGES[adding!];
    if (!(value >= low && value <= high))
      return setWrong(
        `${capital(adding!)} takes a number from ${low} to ${high}; "${typed.slice(0, 20)}" is none.`,
      );
    const reading = airReadingSchema.parse({
      kind: adding,
      value,
      radius_mm: adding === 'lip flow' || !place ? null : Number(place.radius_mm.toFixed(1)),
      throttle: found?.reduced.points.at(-1)?.throttle ?? null,
    });
    edit({ [list]: [...readings, reading] }, `added ${adding!}`);
    setAdding(null);
    setTyped('');
    setWrong(null);
  };
  return (
    <section className="card folded" id="bench-air" aria-labelledby="air-title">
      <details open={readings.length > 0 || undefined}>
        <summary>
          <h3 id="air-title">
            The air <em>exit speed, thread, smoke at the lip; all optional</em>
          </h3>
        </summary>
        <p className="caution">
          Probe and hand stay out of the plane of the rotor. Tape the thread to a stiff wire and hold the
          wire: what comes loose goes through the fan. Keep smoke sources away from the battery.
        </p>
        <ol className="air-readings">
          {readings.map((reading, i) => {
            const at = `${list}.${i}`;
            const told = found?.air[i];
            return (
              <li key={i} className={reading.leftOut ? 'left-out' : undefined}>
                <b>{reading.kind === 'lip flow' ? 'Smoke at the lip' : capital(reading.kind)}</b>
                <div className="air-fields">
                  <NumberField
                    path={`${at}.value`}
                    label={`${capital(reading.kind)} ${i + 1}, ${KINDS.find(([kind]) => kind === reading.kind)![2]}`}
                  />
                  {reading.kind !== 'lip flow' && (
                    <NumberField path={`${at}.radius_mm`} label={`Distance from the axis ${i + 1}`} />
                  )}
                  <NumberField path={`${at}.throttle`} label={`At throttle ${i + 1}, 0 to 1`} />
                  <NumberField path={`${at}.rpm`} label={`At speed ${i + 1}`} />
                </div>
                {told && <p className="said">{told.words}</p>}
                <button
                  aria-pressed={reading.leftOut}
                  onClick={() => edit({ [`${at}.leftOut`]: !reading.leftOut }, 'left out an air reading')}
                >
                  {reading.leftOut ? 'Use again' : 'Leave out'}
                </button>
              </li>
            );
          })}
        </ol>
        <div className="bench-buttons">
          {KINDS.map(([kind, words]) => (
            <button
              key={kind}
              aria-expanded={adding === kind}
              onClick={() => setAdding(adding === kind ? null : kind)}
            >
              {words}
            </button>
          ))}
          {question.project.fan.kind === 'ducted' && (
            <button
              onClick={() =>
                void askBench((at) => at.lip(question.project)).then(setLip, () =>
                  setLip(['The flow about the lip could not be worked out.']),
                )
              }
            >
              What the lip should do
            </button>
          )}
        </div>
        {adding && (
          <div className="air-new">
            <label>
              <span>
                {adding === 'lip flow'
                  ? 'Share of the lip the smoke leaves, 0 to 1'
                  : `${capital(adding)}, ${KINDS.find(([kind]) => kind === adding)![2]}`}
              </span>
              <input
                type="text"
                inputMode="decimal"
                autoComplete="off"
                value={typed}
                aria-invalid={wrong !== null}
                aria-describedby={wrong ? 'air-wrong' : undefined}
                onChange={({ target }) => {
                  setTyped(target.value);
                  setWrong(null);
                }}
                onKeyDown={({ key }) => {
                  if (key === 'Enter') add();
                }}
              />
            </label>
            <button className="chief" onClick={add}>
              Add it
            </button>
            {wrong && (
              <p id="air-wrong" className="wrong" role="alert">
                {wrong}
              </p>
            )}
          </div>
        )}
        {lip.map((text) => (
          <p key={text} className="said">
            {text}
          </p>
        ))}
        {found && found.airCard.length > 0 && (
          <ThreadCard name={question.project.name} rows={found.airCard} />
        )}
      </details>
    </section>
  );
}

const capital = (text: string): string => text[0].toUpperCase() + text.slice(1);
const ranged = ({ low, high }: Interval): string => `${n(low, 2)} to ${n(high, 2)}`;

/** Prints this card alone. */
function printCard(): void {
  document.body.classList.add('print-card');
  addEventListener('afterprint', () => document.body.classList.remove('print-card'), { once: true });
  print();
}

/** Where to hold the thread and what to expect, to be printed. */
function ThreadCard({ name, rows }: { readonly name: string; readonly rows: readonly ExpectedAir[] }) {
  const places = rows[0].places;
  return (
    <section className="thread-card printed-card" aria-labelledby="thread-card-title">
      <h4 id="thread-card-title">Thread and exit speed: where to hold them, what to expect</h4>
      <p>
        {name === '' ? 'This fan' : name}, one fan, battery half full. Hold thread or probe close behind the
        rotor (behind a duct: just behind its exit), at these distances from the axis. The thread leans the
        way the rotor turns, so many degrees from the axis. Nine of ten fans that are as drawn show values in
        these ranges. With vanes hold the thread before them.
      </p>
      <div className="scroll" tabIndex={0} role="region" aria-label="Expected thread angle and exit speed">
        <table className="figure-table">
          <thead>
            <tr>
              <th scope="col">Throttle</th>
              <th scope="col">rpm</th>
              {places.map((p) => (
                <th key={p.radius_mm} scope="col">
                  {n(p.radius_mm)} mm <small>thread, exit</small>
                </th>
              ))}
              <th scope="col">you read</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.throttle}>
                <th scope="row">{row.throttle === null ? '–' : formatPercent(row.throttle)}</th>
                <td>{n(row.rpm, 3)}</td>
                {row.places.map((p) => (
                  <td key={p.radius_mm}>
                    {ranged(p.thread_deg)}°
                    <br />
                    {ranged(p.exit_mps)} m/s
                  </td>
                ))}
                <td>………</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="caution">
        Tied down, shield, eye protection, fingers and loose things clear, out of the plane of the rotor.
        Local rules come first.
      </p>
      <button className="no-print" onClick={printCard}>
        Print this card
      </button>
    </section>
  );
}
