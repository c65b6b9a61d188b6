import { useEffect, useMemo } from 'react';
import { openFile } from '../state/files.ts';
import { useApp } from '../state/store.ts';
import { TachCard } from '../tach/TachCard.tsx';
import { useAsked } from '../worker/useAsked.ts';
import { AirCard } from './AirCard.tsx';
import { askBench, type BenchQuestion } from './ask.ts';
import { CausesCard } from './CausesCard.tsx';
import { CautionCard } from './CautionCard.tsx';
import { EntryCard } from './EntryCard.tsx';
import { ImportCard, useLog } from './ImportCard.tsx';
import { LookedCard } from './LookedCard.tsx';
import { placeOf, type, useChosen, type RunPlace } from './place.ts';
import { ResultsCard } from './ResultsCard.tsx';
import { RigCard } from './RigCard.tsx';
import { RowsCard } from './RowsCard.tsx';
import { RunCard } from './RunCard.tsx';

/** The bench: what was built, measured; why it does what it does, and what to change. */
export function BenchStage() {
  const project = useApp((s) => s.project);
  const chosen = useChosen();
  const place = placeOf(project, chosen);
  return (
    <>
      <RunCard place={place} />
      {place ? <RunView key={place.key} place={place} minded={chosen.minded.has(place.key)} /> : <TachCard />}
    </>
  );
}

const evaluate = (question: BenchQuestion) => askBench((at) => at.evaluate(question));
const diagnose = (question: BenchQuestion) => askBench((at) => at.diagnose(question));
/** Stillness after a reading before its causes are weighed [ms]. */
const IDLE_MS = 350;

function RunView({ place, minded }: { readonly place: RunPlace; readonly minded: boolean }) {
  const { build, run } = place;
  const { design } = build;
  const brief = useApp((s) => s.project.brief);
  const question = useMemo<BenchQuestion>(
    () => ({
      project: { ...useApp.getState().project, brief, ...design, builds: [] },
      run: { ...run, source: { ...run.source, text: '' } },
    }),
    [brief, design, run],
  );
  const [told, ask] = useAsked(evaluate);
  const [why, askWhy] = useAsked(diagnose);
  useEffect(() => {
    ask(question);
    const timer = setTimeout(() => askWhy(question), IDLE_MS);
    return () => clearTimeout(timer);
  }, [question, ask, askWhy]);
  const log = useLog();
  const found = told.answer?.output ?? null;
  return (
    <div
      className="bench"
      data-takes-files=""
      onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => {
        event.preventDefault();
        const [file] = event.dataTransfer.files;
        if (!file) return;
        if (file.name.endsWith('.json')) void openFile(file);
        else void log.open(file);
      }}
    >
      <RigCard place={place} />
      <CautionCard runKey={place.key} minded={minded} />
      {minded && (
        <>
          <EntryCard place={place} found={found} />
          <TachCard onUse={(rpm) => type({ rpm: String(rpm) })} />
        </>
      )}
      <ImportCard place={place} log={log} />
      <RowsCard place={place} />
      {told.failed && <p role="alert">These readings could not be worked out.</p>}
      {found && run.rows.length > 0 && (
        <>
          <ResultsCard found={found} />
          <CausesCard
            place={place}
            diagnosis={why.answer?.output ?? null}
            working={why.working || why.answer?.input !== question}
            failed={why.failed}
          />
        </>
      )}
      <LookedCard place={place} />
      <AirCard place={place} question={question} found={found} />
    </div>
  );
}
