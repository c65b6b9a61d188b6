import { useEffect, useState } from 'react';
import { inheritedDesign } from '../../bench/calibrate.ts';
import type { BuildRecord } from '../../bench/history.ts';
import { frozenBuild } from '../../project/builds.ts';
import type { Build, Project } from '../../project/schema.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import type { Interval } from '../../quantities/interval.ts';
import { askBench } from '../bench/ask.ts';
import { choose } from '../bench/place.ts';
import { today } from '../bench/runs.ts';
import { TextField } from '../field/TextField.tsx';
import { goTo, edit, replaceProject } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import { useAsked } from '../worker/useAsked.ts';
import { BuildsChart } from './BuildsChart.tsx';
import { CompareBuilds } from './CompareBuilds.tsx';

const MOST_BUILDS = 200;
const records = (project: Project) => askBench((at) => at.records(project));

/** The builds so far: what changed, what was foretold, what the bench found, what was learned. */
export function BuildsStage() {
  const project = useApp((s) => s.project);
  const { builds } = project;
  const [why, setWhy] = useState('');
  const [asked, ask] = useAsked(records);
  useEffect(() => {
    if (builds.length > 0) ask(useApp.getState().project);
  }, [builds, ask]);
  const known = asked.answer?.output ?? [];
  const freeze = () => {
    const now = useApp.getState().project;
    const build = frozenBuild(now, { date: today(), why: why.trim() });
    replaceProject({ ...now, builds: [...now.builds, build] }, `wrote down ${build.name}`);
    setWhy('');
  };
  return (
    <>
      <section className="card" aria-labelledby="builds-title">
        <h2 id="builds-title">Builds so far</h2>
        <p className="said">
          A build is the design as it was, or will be, made. It does not change with the design; the bench
          writes into it what it taught.
        </p>
        <div className="freeze">
          <label>
            <span>What changed, and why</span>
            <input
              type="text"
              maxLength={2000}
              value={why}
              placeholder="a narrower gap, a stiffer hub …"
              onChange={({ target }) => setWhy(target.value)}
            />
          </label>
          <button className="chief" disabled={builds.length >= MOST_BUILDS} onClick={freeze}>
            Write the design down as a build
          </button>
        </div>
        {builds.length > 0 && known.length > 0 && <BuildsChart builds={builds} records={known} />}
        {asked.failed && <p role="alert">The builds could not be worked out.</p>}
      </section>
      {builds.map((build, i) => (
        <BuildCard
          key={build.id}
          build={build}
          place={i}
          record={known.find((r) => r.id === build.id) ?? null}
        />
      ))}
      {builds.length > 0 && <CompareBuilds builds={builds} />}
    </>
  );
}

const times = ({ value, low, high }: Interval): string =>
  `${n(value, 2)} times its weight (${n(low, 2)} to ${n(high, 2)})`;

interface CardProps {
  readonly build: Build;
  readonly place: number;
  readonly record: BuildRecord | null;
}

function BuildCard({ build, place, record }: CardProps) {
  const path = `builds.${place}`;
  const name = build.name === '' ? build.id : build.name;
  const duplicate = () => {
    const { project } = useApp.getState();
    const copy: Build = {
      ...frozenBuild(project, { date: today() }),
      name: `${name}, again`.slice(0, 200),
      why: build.why,
      design: inheritedDesign(build.design),
    };
    replaceProject({ ...project, builds: [...project.builds, copy] }, `duplicated ${name}`);
  };
  const takeUp = () => {
    const { project } = useApp.getState();
    replaceProject({ ...project, ...inheritedDesign(build.design) }, `took up ${name}`);
  };
  const remove = () => {
    const { project } = useApp.getState();
    replaceProject(
      { ...project, builds: project.builds.filter(({ id }) => id !== build.id) },
      `removed ${name}`,
    );
  };
  const learned = record && record.asLearned.value !== record.asDrawn.value;
  return (
    <section className="card build" aria-label={name}>
      <div className="build-head">
        <TextField path={`${path}.name`} label={`Name of ${build.id}`} bare />
        <span className="soft-words">
          {build.state}
          {build.date && `, ${build.date}`}
        </span>
      </div>
      <TextField path={`${path}.why`} label="What changed, and why" long />
      <dl className="build-facts">
        <dt>Predicted as drawn</dt>
        <dd>{record ? times(record.asDrawn) : '…'}</dd>
        {learned && (
          <>
            <dt>With what the bench taught</dt>
            <dd>{times(record.asLearned)}</dd>
          </>
        )}
        <dt>Measured</dt>
        <dd>
          {record?.measured
            ? `${times(record.measured.thrustToWeight)}, ${record.measured.run}${record.measured.extrapolated ? ', carried on to full throttle' : ''}`
            : build.bench.length > 0
              ? 'no reading that says something of full throttle'
              : 'not yet at the bench'}
        </dd>
        <dt>Learned</dt>
        <dd>
          {build.learned.length === 0 ? 'nothing yet' : build.learned.map((text, i) => <p key={i}>{text}</p>)}
        </dd>
      </dl>
      <div className="bench-buttons">
        <button
          onClick={() => {
            choose(build.id, build.bench.at(-1)?.id ?? null);
            goTo('bench');
          }}
        >
          To the bench
        </button>
        <button
          onClick={() =>
            edit({ [`${path}.state`]: build.state === 'made' ? 'planned' : 'made' }, `marked ${name}`)
          }
        >
          {build.state === 'made' ? 'Mark as planned' : 'Mark as made'}
        </button>
        <button
          onClick={takeUp}
          title="Faults of this build stay behind; truths of printer, motor and pack come along"
        >
          Take this design up again
        </button>
        <button onClick={duplicate}>Duplicate</button>
        <button onClick={remove}>Remove</button>
      </div>
    </section>
  );
}
