import { useState } from 'react';
import { designOf } from '../../project/builds.ts';
import { differences } from '../../project/differences.ts';
import { describePath } from '../../project/path.ts';
import type { Build } from '../../project/schema.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import { useApp } from '../state/store.ts';

const NOW = '';
const MOST = 200;

/** Two builds beside each other: only what differs. */
export function CompareBuilds({ builds }: { readonly builds: readonly Build[] }) {
  const project = useApp((s) => s.project);
  const [first, setFirst] = useState(builds[0].id);
  const [second, setSecond] = useState(builds.length > 1 ? builds[builds.length - 1].id : NOW);
  const design = (id: string) => builds.find((b) => b.id === id)?.design ?? designOf(project);
  const found = differences(design(first), design(second));
  const pick = (label: string, value: string, set: (id: string) => void) => (
    <label>
      <span>{label}</span>
      <select
        value={builds.some((b) => b.id === value) ? value : NOW}
        onChange={({ target }) => set(target.value)}
      >
        {builds.map((b) => (
          <option key={b.id} value={b.id}>
            {b.name || b.id}
          </option>
        ))}
        <option value={NOW}>the design as it stands now</option>
      </select>
    </label>
  );
  return (
    <section className="card" aria-labelledby="differ-title">
      <h2 id="differ-title">Two builds compared</h2>
      <div className="differ-pick">
        {pick('First', first, setFirst)}
        {pick('Second', second, setSecond)}
      </div>
      {found.length === 0 ? (
        <p className="said">They do not differ in anything.</p>
      ) : (
        <div className="scroll" tabIndex={0} role="region" aria-label="What differs">
          <table className="figure-table">
            <caption>{found.length === 1 ? 'One value differs' : `${found.length} values differ`}</caption>
            <thead>
              <tr>
                <th scope="col">What</th>
                <th scope="col">First</th>
                <th scope="col">Second</th>
              </tr>
            </thead>
            <tbody>
              {found.slice(0, MOST).map((d) => (
                <tr key={d.path}>
                  <th scope="row">
                    {d.path.replace(/_[^.]*$/, '').replaceAll('.', ', ')}
                    <small className="differ-help">{describePath(d.path)?.help}</small>
                  </th>
                  <td>{shown(d.first, d.path)}</td>
                  <td>{shown(d.second, d.path)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}

function shown(value: unknown, path: string): string {
  if (value === undefined) return 'not there';
  if (value === null) return 'none';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return `${n(value, 5)} ${describePath(path)?.unit ?? ''}`.trim();
  return typeof value === 'string' ? value.slice(0, 80) : JSON.stringify(value).slice(0, 80);
}
