import { useState } from 'react';
import { formatPercent } from '../../quantities/format.ts';
import { NumberField } from '../field/NumberField.tsx';
import { TextField } from '../field/TextField.tsx';
import { edit } from '../state/actions.ts';
import type { RunPlace } from './place.ts';
import { READ } from './runs.ts';

const FEW = 40;

/** All readings, newest first: any may be put right, or left out without losing it. */
export function RowsCard({ place: { run, path } }: { readonly place: RunPlace }) {
  const [all, showAll] = useState(false);
  const [open, setOpen] = useState<number | null>(null);
  const { rows } = run;
  if (rows.length === 0) return null;
  const columns = READ.filter(({ key }) => rows.some((row) => row[key] !== null));
  const places = rows.map((_, i) => rows.length - 1 - i).slice(0, all ? undefined : FEW);
  return (
    <section className="card" aria-labelledby="rows-title">
      <h3 id="rows-title">
        Readings <em>newest first; the number opens one to be put right</em>
      </h3>
      <div className="scroll" tabIndex={0} role="region" aria-label="Readings">
        <table className="stations bench-rows">
          <thead>
            <tr>
              <th scope="col">No.</th>
              {columns.map(({ key, label, unit }) => (
                <th key={key} scope="col">
                  {label} <small>{unit}</small>
                </th>
              ))}
              <th scope="col">
                <span className="unseen">Leave out</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {places.map((i) => (
              <tr key={i} className={rows[i].leftOut ? 'left-out' : undefined}>
                <th scope="row">
                  <button
                    aria-expanded={open === i}
                    aria-label={`Change reading ${i + 1}`}
                    onClick={() => setOpen(open === i ? null : i)}
                  >
                    {i + 1}
                  </button>
                </th>
                {columns.map(({ key }) => {
                  const value = rows[i][key];
                  return (
                    <td key={key}>
                      {value === null ? '–' : key === 'throttle' ? formatPercent(value) : plain(value)}
                    </td>
                  );
                })}
                <td>
                  <button
                    aria-pressed={rows[i].leftOut}
                    onClick={() =>
                      edit(
                        { [`${path}.rows.${i}.leftOut`]: !rows[i].leftOut },
                        `${rows[i].leftOut ? 'used' : 'left out'} reading ${i + 1}`,
                      )
                    }
                  >
                    {rows[i].leftOut ? 'Use again' : 'Leave out'}
                  </button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {open !== null && open < rows.length && (
        <div className="form" role="group" aria-label={`Change reading ${open + 1}`}>
          {READ.map(({ key, label }) => (
            <NumberField
              key={`${open} ${key}`}
              path={`${path}.rows.${open}.${key}`}
              label={
                key === 'throttle' ? `Throttle, 0 to 1, reading ${open + 1}` : `${label}, reading ${open + 1}`
              }
            />
          ))}
          <TextField path={`${path}.rows.${open}.note`} label={`Note, reading ${open + 1}`} most={2000} />
        </div>
      )}
      {rows.length > FEW && !all && <button onClick={() => showAll(true)}>Show all {rows.length}</button>}
    </section>
  );
}

/** As it was read: no digit more, no digit less. */
const plain = (value: number): string => String(Number(value.toPrecision(7))).replace('-', '−');
