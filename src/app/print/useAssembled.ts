import { useEffect, useState } from 'react';
import type { FitCheck } from '../../make/interference.ts';
import type { Project } from '../../project/schema.ts';
import { latestOnly } from '../worker/latest.ts';
import type { ShownCraft, SolidsWorker } from '../view3d/solids.ts';
import { askSolids } from '../view3d/solidsClient.ts';

export interface Assembled {
  /** The project the craft was put together from; older than the one on the page while the worker is busy. */
  readonly of: Project | null;
  readonly craft: ShownCraft | null;
  readonly fit: FitCheck | null;
  readonly why: readonly string[];
}

const NONE: Assembled = { of: null, craft: null, fit: null, why: [] };
const FAILED = ['The craft could not be put together this time; change any value to try again.'];

/** The craft put together in the worker, then how closely it fits; of several changes only the newest is made. */
export function useAssembled(project: Project): Assembled {
  const [assembled, setAssembled] = useState<Assembled>(NONE);
  const [ask] = useState(() => {
    const askFit = latestOnly(
      (wanted: Project): ReturnType<SolidsWorker['fit']> => askSolids((worker) => worker.fit(wanted)),
      (answer, of) =>
        setAssembled((now) =>
          now.of !== of ? now : answer.ok ? { ...now, fit: answer.fit } : { ...now, why: answer.why },
        ),
      (_error, of) => setAssembled((now) => (now.of === of ? { ...now, why: FAILED } : now)),
    );
    return latestOnly(
      (wanted: Project): ReturnType<SolidsWorker['assembled']> =>
        askSolids((worker) => worker.assembled(wanted)),
      (answer, of) => {
        setAssembled(
          answer.ok ? { of, craft: answer.craft, fit: null, why: [] } : { ...NONE, of, why: answer.why },
        );
        if (answer.ok) askFit(of);
      },
      (_error, of) => setAssembled({ ...NONE, of, why: FAILED }),
    );
  });
  useEffect(() => ask(project), [ask, project]);
  return assembled;
}
