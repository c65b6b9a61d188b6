import { useEffect, useState } from 'react';
import type { Project } from '../../project/schema.ts';
import { latestOnly } from '../worker/latest.ts';
import type { PartFacts, SolidsWorker } from '../view3d/solids.ts';
import { askSolids } from '../view3d/solidsClient.ts';

export interface Parts {
  /** The project these parts were made from; older than the one on the page while the worker is busy. */
  readonly of: Project | null;
  readonly parts: readonly PartFacts[];
  readonly why: readonly string[];
}

const NONE: Parts = { of: null, parts: [], why: [] };

/** The printable parts of the project, made in the worker; of several changes only the newest is made. */
export function useParts(project: Project): Parts {
  const [parts, setParts] = useState<Parts>(NONE);
  const [ask] = useState(() =>
    latestOnly(
      (wanted: Project): ReturnType<SolidsWorker['parts']> => askSolids((worker) => worker.parts(wanted)),
      (answer, of) =>
        setParts(answer.ok ? { of, parts: answer.parts, why: [] } : { of, parts: [], why: answer.why }),
      (_error, of) =>
        setParts({
          of,
          parts: [],
          why: ['The parts could not be made this time; change any value to try again.'],
        }),
    ),
  );
  useEffect(() => ask(project), [ask, project]);
  return parts;
}
