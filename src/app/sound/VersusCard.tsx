import { useEffect, useRef, useState } from 'react';
import { withBuild } from '../../project/builds.ts';
import { readProject } from '../../project/read.ts';
import type { Project } from '../../project/schema.ts';
import { SYNTHESIS_NOTE } from '../../sound/synthesis.ts';
import { levelWords } from '../../sound/words.ts';
import { openedProject, type SoundSide } from '../../study/sound-compare.ts';
import { Said } from '../craft/Said.tsx';
import { tell } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import { askStudy } from '../worker/study.ts';
import { useAsked } from '../worker/useAsked.ts';
import { hush, play } from './player.ts';
import { SpectrumChart, topOf } from './SpectrumChart.tsx';

interface Question {
  readonly first: Project;
  readonly second: Project;
  readonly names: readonly [string, string];
}

const look = ({ first, second, names }: Question) => askStudy((at) => at.compareSound(first, second, names));

/** Length of a rendering [s]. */
const SECONDS = 4;

/** Two designs at equal thrust: in dB, as spectra, and to listen to at equal level. */
export function VersusCard() {
  const project = useApp((s) => s.project);
  const [other, setOther] = useState<Project | null>(null);
  const [chosen, setChosen] = useState(project.fan.kind === 'ducted' ? 'open' : '');
  const picker = useRef<HTMLInputElement>(null);
  const [{ answer, working, failed }, ask] = useAsked(look);
  const choices = [
    ...(project.fan.kind === 'ducted' ? [['open', 'the same rotor without its duct'] as const] : []),
    ...project.builds.map((b) => [`build:${b.id}`, `build ${b.id}`] as const),
    ...(other ? [['file', other.name || 'the opened file'] as const] : []),
  ];
  const value = choices.some(([id]) => id === chosen) ? chosen : (choices[0]?.[0] ?? '');
  const stale = answer !== null && answer.input.first !== project;
  const start = () => {
    const second =
      value === 'open' ? openedProject(project) : value === 'file' ? other : builtOf(project, value.slice(6));
    if (!second) return;
    const open = value === 'open';
    const name = choices.find(([id]) => id === value)![1];
    ask({ first: project, second, names: open ? ['the ducted fan', 'the open rotor'] : ['this one', name] });
  };
  const c = answer?.output;
  const topBoth = Math.max(30, ...[c?.a.at, c?.b.at].map((at) => (at ? topOf(at) : 0)));
  return (
    <section className="card" aria-labelledby="versus-title" aria-busy={working}>
      <h3 id="versus-title">
        Side by side <em>at the same thrust, not the same speed</em>
      </h3>
      <p className="parts-foot">
        {choices.length > 0 && (
          <>
            <label htmlFor="versus-other">Against</label>
            <select id="versus-other" value={value} onChange={(e) => setChosen(e.target.value)}>
              {choices.map(([id, text]) => (
                <option key={id} value={id}>
                  {text}
                </option>
              ))}
            </select>
            <button className="chief" onClick={start} disabled={working}>
              {working ? 'Comparing…' : 'Compare'}
            </button>
          </>
        )}
        <button onClick={() => picker.current?.click()}>Take another project file…</button>
        <input
          ref={picker}
          type="file"
          accept=".json"
          aria-label="Project file to compare with"
          hidden
          onChange={(e) => {
            const file = e.target.files?.[0];
            e.target.value = '';
            if (file)
              void readOther(file).then((found) => {
                if (!found) return;
                setOther(found);
                setChosen('file');
              });
          }}
        />
        {stale && <span>The project has changed since.</span>}
        {failed && <span role="status">The two could not be compared.</span>}
      </p>
      {c && (
        <div className={stale ? 'stale' : undefined}>
          <Said texts={c.words} />
          <div className="versus">
            <Side side={c.a} top={topBoth} />
            <Side side={c.b} top={topBoth} />
          </div>
          <p className="caution">
            {SYNTHESIS_NOTE} Both are played at one set level. Turn the volume low before you start;
            headphones and small speakers can be unkind at these pitches.
          </p>
        </div>
      )}
    </section>
  );
}

function Side({ side, top }: { readonly side: SoundSide; readonly top: number }) {
  const [state, setState] = useState<'quiet' | 'making' | 'playing'>('quiet');
  useEffect(() => hush, []);
  const { at, fans, name } = side;
  if (!at) return <p>{name} can’t give this thrust.</p>;
  const listen = async () => {
    if (state === 'playing') return hush();
    setState('making');
    try {
      const samples = await askStudy((w) => w.render(at, fans, SECONDS));
      setState('playing');
      play(samples, () => setState('quiet'));
    } catch (error) {
      console.error(error);
      setState('quiet');
      tell('This browser could not play the synthesis.');
    }
  };
  return (
    <div>
      <h4 className="said-label">
        {name}: {levelWords(at.overall_dBA)}
      </h4>
      <SpectrumChart at={at} place={`of ${name} at equal thrust`} top={top} />
      <button onClick={() => void listen()} disabled={state === 'making'}>
        {state === 'playing'
          ? 'Stop'
          : state === 'making'
            ? 'Making it…'
            : `Listen to a synthesis of ${name}`}
      </button>
    </div>
  );
}

function builtOf(project: Project, id: string): Project | null {
  const built = withBuild(project, id);
  if (built.ok) return built.project;
  tell(built.error.message);
  return null;
}

async function readOther(file: File): Promise<Project | null> {
  const read = readProject(new Uint8Array(await file.arrayBuffer()));
  if (read.ok) return read.project;
  tell(
    `${file.name} could not be read as a project.`,
    read.errors.map(({ message }) => message),
  );
  return null;
}
