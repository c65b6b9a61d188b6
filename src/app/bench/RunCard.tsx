import { useId } from 'react';
import type { Build } from '../../project/schema.ts';
import { TextField } from '../field/TextField.tsx';
import { replaceProject } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import { choose, useChosen, type RunPlace } from './place.ts';
import { today, withRun } from './runs.ts';

/** Starts a run on a build, or on the design as it stands. */
export function startRun(build: string | null): void {
  const made = withRun(useApp.getState().project, build, today());
  replaceProject(made.project, 'started a bench run');
  choose(made.build, made.run);
}

const buildName = (build: Build): string => (build.name === '' ? build.id : build.name);

/** Which run is on the bench, and how another begins. */
export function RunCard({ place }: { readonly place: RunPlace | null }) {
  const builds = useApp((s) => s.project.builds);
  const id = useId();
  const preferred = useChosen((s) => s.build);
  if (!place) {
    const build = builds.find((b) => b.id === preferred) ?? builds.at(-1);
    return (
      <section className="card" aria-labelledby="run-title">
        <h2 id="run-title">At the bench</h2>
        <p className="said">
          From a kitchen scale and a phone to the cause and the next change. Readings belong to the build they
          were taken on; without one, the design as it stands now is written down as a build first.
        </p>
        <div className="bench-buttons">
          <button className="chief" onClick={() => startRun(build?.id ?? null)}>
            {build ? `Start a run on ${buildName(build)}` : 'Start a run'}
          </button>
          {build && <button onClick={() => startRun(null)}>Start on the design as it stands now</button>}
        </div>
      </section>
    );
  }
  const { build, run, path } = place;
  const remove = () => {
    const { project } = useApp.getState();
    const left = project.builds.map((b) =>
      b.id === build.id ? { ...b, bench: b.bench.filter((r) => r.id !== run.id) } : b,
    );
    replaceProject({ ...project, builds: left }, `removed ${run.name}`);
  };
  return (
    <section className="card" aria-labelledby="run-title">
      <h2 id="run-title">At the bench</h2>
      <div className="run-pick">
        <label htmlFor={id}>Run</label>
        <select
          id={id}
          value={`${build.id}\n${run.id}`}
          onChange={({ target }) => {
            const [b, r] = target.value.split('\n');
            choose(b, r);
          }}
        >
          {builds
            .filter((b) => b.bench.length > 0)
            .map((b) => (
              <optgroup key={b.id} label={buildName(b)}>
                {b.bench.map((r) => (
                  <option key={r.id} value={`${b.id}\n${r.id}`}>
                    {r.name === '' ? r.id : r.name} · {r.date} · {r.rows.length} readings
                  </option>
                ))}
              </optgroup>
            ))}
        </select>
        <div className="run-name">
          <TextField path={`${path}.name`} label="Name of the run" bare />
        </div>
      </div>
      <div className="bench-buttons">
        <button onClick={() => startRun(build.id)}>New run on {buildName(build)}</button>
        <button onClick={() => startRun(null)}>New build from the design now, and a run</button>
        <button onClick={remove}>Remove this run</button>
      </div>
    </section>
  );
}
