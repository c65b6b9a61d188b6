import { useRef, useState, type KeyboardEvent } from 'react';
import { MOST_BENCH_ROWS } from '../../project/bench.ts';
import { edit, undo } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import type { Evaluated } from './ask.ts';
import { BenchChart } from './BenchChart.tsx';
import { emptyDraft, type, useChosen, type RunPlace } from './place.ts';
import { nextThrottle, READ, rowFrom, type ReadKey } from './runs.ts';

const ALWAYS: readonly ReadKey[] = ['throttle', 'scale_g'];

/** Readings by hand, one thumb: Enter goes on, the last field takes the reading. */
export function EntryCard({ place, found }: { readonly place: RunPlace; readonly found: Evaluated | null }) {
  const { run, path } = place;
  const draft = useChosen((s) => s.draft);
  const last = useApp((s) => s.history.past.at(-1)?.what);
  const [also, setAlso] = useState<ReadonlySet<ReadKey>>(
    () =>
      new Set(
        READ.flatMap(({ key }) =>
          run.rows.some((row) => row[key] !== null) || draft[key] !== undefined ? [key] : [],
        ),
      ),
  );
  const [wrong, setWrong] = useState<{ readonly key: ReadKey; readonly why: string } | null>(null);
  const fields = useRef(new Map<ReadKey, HTMLInputElement>());
  const shown = READ.filter(({ key }) => ALWAYS.includes(key) || also.has(key) || draft[key] !== undefined);
  const typed = { throttle: nextThrottle(run.rows), ...draft };
  const goTo = (key: ReadKey) => {
    const field = fields.current.get(key);
    field?.focus();
    field?.select();
  };
  const take = () => {
    if (run.rows.length >= MOST_BENCH_ROWS)
      return setWrong({ key: 'scale_g', why: `A run keeps ${MOST_BENCH_ROWS} readings; start another run.` });
    const read = rowFrom(typed);
    if (!read.ok) {
      setWrong(read);
      return goTo(read.key);
    }
    setWrong(null);
    emptyDraft();
    edit({ [`${path}.rows`]: [...run.rows, read.row] }, `reading ${run.rows.length + 1}`);
    // The proposed throttle stands in its field with the next render.
    setTimeout(() => goTo('throttle'));
  };
  const onKey = (key: ReadKey) => (event: KeyboardEvent) => {
    if (event.key !== 'Enter') return;
    event.preventDefault();
    const at = shown.findIndex((f) => f.key === key);
    if (at === shown.length - 1) take();
    else goTo(shown[at + 1].key);
  };
  return (
    <section className="card bench-entry" aria-labelledby="entry-title">
      <h2 id="entry-title">Readings by hand</h2>
      <p className="said">
        Begin and end with 0 % for the zero of the scale. Enter goes to the next field, at the last one it
        takes the reading.
      </p>
      <div className="entry-fields">
        {shown.map(({ key, label, unit }, i) => (
          <label key={key} className="entry-field">
            <span>
              {label}, {unit}
            </span>
            <input
              ref={(element) => {
                if (element) fields.current.set(key, element);
                else fields.current.delete(key);
              }}
              type="text"
              inputMode="decimal"
              enterKeyHint={i === shown.length - 1 ? 'done' : 'next'}
              autoComplete="off"
              value={typed[key] ?? ''}
              aria-invalid={wrong?.key === key}
              aria-describedby={wrong?.key === key ? 'entry-wrong' : undefined}
              onFocus={({ target }) => target.select()}
              onChange={({ target }) => {
                type({ [key]: target.value });
                setWrong(null);
              }}
              onKeyDown={onKey(key)}
            />
          </label>
        ))}
      </div>
      {wrong && (
        <p id="entry-wrong" className="wrong" role="alert">
          {wrong.why}
        </p>
      )}
      <div className="bench-buttons big">
        <button className="chief" onClick={take}>
          Take reading {run.rows.length + 1}
        </button>
        <button onClick={undo} disabled={last === undefined}>
          Undo{last ? `: ${last}` : ''}
        </button>
      </div>
      <div className="also" role="group" aria-label="What you read beside the scale">
        {READ.filter(({ key }) => !ALWAYS.includes(key)).map(({ key, label }) => (
          <label key={key}>
            <input
              type="checkbox"
              checked={shown.some((f) => f.key === key)}
              onChange={() => {
                const next = new Set(also);
                if (!next.delete(key)) next.add(key);
                if (draft[key] !== undefined) type({ [key]: undefined });
                setAlso(next);
              }}
            />
            {label}
          </label>
        ))}
      </div>
      {found && (
        <BenchChart
          along="throttle"
          reduced={found.reduced}
          expected={found.expected}
          caption="Thrust of one fan along the throttle: readings, and the prediction with its interval"
        />
      )}
    </section>
  );
}
