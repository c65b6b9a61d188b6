import { proxy } from 'comlink';
import { useRef, useState } from 'react';
import type { MapWish } from '../../bench/import-take.ts';
import type { Imported } from '../../bench/import.ts';
import { KEPT_UNIT, QUANTITIES, unitsOf, type Quantity } from '../../bench/import-units.ts';
import { formatNumber as n, formatPercent } from '../../quantities/format.ts';
import { edit, replaceProject } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import { askLog } from './log.ts';
import { choose, type RunPlace } from './place.ts';
import { today, withRun } from './runs.ts';

type Taken = Extract<Imported, { ok: true }>;

/** A log from a file, dropped or pasted: how it was read is shown and put right before it is taken. */
export function useLog() {
  const [state, set] = useState<{
    readonly done: number | null;
    readonly taken: Taken | null;
    readonly trouble: string | null;
    readonly map: readonly MapWish[];
    readonly thin: boolean | null;
  }>({ done: null, taken: null, trouble: null, map: [], thin: null });
  async function take(map: readonly MapWish[], thin: boolean | null): Promise<void> {
    set((old) => ({ ...old, done: 0, trouble: null }));
    try {
      const moved = proxy((done: number) => set((old) => (old.done === null ? old : { ...old, done })));
      const read = await askLog((at) => at.take(map, thin, moved));
      set((old) =>
        read.ok
          ? { done: null, taken: read, trouble: null, map, thin }
          : { ...old, done: null, trouble: read.message },
      );
    } catch (error) {
      console.error(error);
      set((old) => ({ ...old, done: null, trouble: 'The log could not be read; give it once more.' }));
    }
  }
  async function give(bytes: Uint8Array, name: string): Promise<void> {
    set({ done: 0, taken: null, trouble: null, map: [], thin: null });
    try {
      const why = await askLog((at) => at.give(bytes, name));
      if (why !== null) return set((old) => ({ ...old, done: null, trouble: why }));
      await take([], null);
    } catch (error) {
      console.error(error);
      set((old) => ({ ...old, done: null, trouble: 'The log could not be read; give it once more.' }));
    }
  }
  async function open(file: File): Promise<void> {
    try {
      await give(new Uint8Array(await file.arrayBuffer()), file.name);
    } catch {
      set((old) => ({ ...old, trouble: `"${file.name}" could not be read from the disk.` }));
    }
  }
  const stop = () => void askLog((at) => at.stop());
  const forget = () => set({ done: null, taken: null, trouble: null, map: [], thin: null });
  return { ...state, give, open, take, stop, forget };
}

export type Log = ReturnType<typeof useLog>;

const FROM = {
  said: 'as you said',
  name: 'by its name',
  'line of units': 'by the line of units',
  cells: 'by its cells',
  values: 'by its range',
  usual: 'the usual unit: please check',
} as const;

export function ImportCard({ place, log }: { readonly place: RunPlace; readonly log: Log }) {
  const [pasted, paste] = useState('');
  const picker = useRef<HTMLInputElement>(null);
  return (
    <section className="card folded" aria-labelledby="import-title">
      <details open={log.done !== null || log.taken !== null || log.trouble !== null || undefined}>
        <summary>
          <h3 id="import-title">
            A table of readings <em>file, dropped or pasted: CSV, tabs, semicolons, decimal commas</em>
          </h3>
        </summary>
        <div className="bench-buttons">
          <button onClick={() => picker.current?.click()}>Open a log</button>
          <input
            ref={picker}
            className="unseen"
            type="file"
            tabIndex={-1}
            aria-label="Log of readings"
            accept=".csv,.txt,.tsv,.log,text/*"
            onChange={({ currentTarget }) => {
              const file = currentTarget.files?.[0];
              if (file) void log.open(file);
              currentTarget.value = '';
            }}
          />
          <span className="soft-words">or drop it anywhere on this stage, or paste it here:</span>
        </div>
        <label className="paste">
          <span className="unseen">Pasted table</span>
          <textarea
            rows={4}
            value={pasted}
            placeholder={'Throttle (%)\tThrust (g)\tVoltage (V)\n0\t0\t12,4\n50\t120,5\t11,9'}
            onChange={({ target }) => paste(target.value)}
          />
        </label>
        <div className="bench-buttons">
          <button
            disabled={pasted.trim() === ''}
            onClick={() => void log.give(new TextEncoder().encode(pasted), 'pasted')}
          >
            Read the pasted table
          </button>
        </div>
        {log.done !== null && (
          <p className="log-progress">
            <progress aria-label="Reading the log" max={1} value={log.done} />
            <button onClick={log.stop}>Stop</button>
          </p>
        )}
        {log.trouble && (
          <p className="caution" role="alert">
            {log.trouble}
          </p>
        )}
        {log.taken && <Confirm place={place} log={log} taken={log.taken} />}
      </details>
    </section>
  );
}

/** How every column was taken, to be confirmed or put right. */
function Confirm({
  place: { build, run, path },
  log,
  taken,
}: {
  readonly place: RunPlace;
  readonly log: Log;
  readonly taken: Taken;
}) {
  const full = run.rows.length > 0;
  const remap = (index: number, as: Quantity | 'nothing', unit?: string) => {
    const column = String(index + 1);
    void log.take(
      [...log.map.filter((wish) => wish.column !== column), { column, as, ...(unit ? { unit } : {}) }],
      log.thin,
    );
  };
  const use = () => {
    const given = { rows: taken.rows, source: taken.source };
    if (full) {
      const made = withRun(useApp.getState().project, build.id, today(), given);
      replaceProject(made.project, 'took a table as a run');
      choose(made.build, made.run);
    } else
      edit(
        { [`${path}.rows`]: taken.rows, [`${path}.source`]: taken.source },
        `took ${taken.rows.length} readings`,
      );
    log.forget();
  };
  return (
    <div className="log-taken" aria-live="polite">
      <div className="scroll" tabIndex={0} role="region" aria-label="How the columns were taken">
        <table className="figure-table log-columns">
          <caption>How the columns were taken</caption>
          <thead>
            <tr>
              <th scope="col">Column</th>
              <th scope="col">is</th>
              <th scope="col">in</th>
              <th scope="col">first cell</th>
              <th scope="col">read as</th>
            </tr>
          </thead>
          <tbody>
            {taken.columns.slice(0, 40).map(({ index, name, as, unit, unitFrom, cell, reads }) => (
              <tr key={index}>
                <th scope="row">{name.slice(0, 40)}</th>
                <td>
                  <select
                    aria-label={`What ${name} is`}
                    value={as ?? 'nothing'}
                    onChange={({ target }) => remap(index, target.value as Quantity | 'nothing')}
                  >
                    <option value="nothing">not taken</option>
                    {QUANTITIES.map((quantity) => (
                      <option key={quantity}>{quantity}</option>
                    ))}
                  </select>
                </td>
                <td>
                  {as !== null && as !== 'note' && (
                    <>
                      <select
                        aria-label={`Unit of ${name}`}
                        value={unit}
                        onChange={({ target }) => remap(index, as, target.value)}
                      >
                        {[...new Set([unit, ...unitsOf(as).split(', ')])].map((one) => (
                          <option key={one}>{one}</option>
                        ))}
                      </select>
                      <small>{FROM[unitFrom]}</small>
                    </>
                  )}
                </td>
                <td>{cell.slice(0, 20)}</td>
                <td>
                  {reads === null || as === null || as === 'note'
                    ? ''
                    : as === 'throttle'
                      ? formatPercent(reads)
                      : `${n(reads, 4)} ${KEPT_UNIT[as]}`}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {taken.notes.length > 0 && (
        <ul className="notes">
          {taken.notes.map((text) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      )}
      <p className="said">
        {taken.readings} readings in the table
        {taken.thinned ? `, thinned to ${taken.rows.length} steady stretches` : ''}. The table itself is kept
        as it was read.
        {full && ' This run has readings already; the table goes into a new run with the same rig.'}
      </p>
      <div className="bench-buttons">
        <button className="chief" onClick={use}>
          Take {taken.rows.length} {taken.rows.length === 1 ? 'reading' : 'readings'}
        </button>
        <button onClick={() => void log.take(log.map, !taken.thinned)}>
          {taken.thinned ? 'Keep every reading instead' : 'Thin to steady stretches'}
        </button>
        <button onClick={log.forget}>Leave it</button>
      </div>
    </div>
  );
}
