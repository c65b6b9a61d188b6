import type { DuctFlowResult } from '../../assess/lip-flow.ts';
import type { Assessment } from '../../assess/types.ts';
import type { Fan, Project } from '../../project/schema.ts';
import type { DesignWish } from '../../study/design.ts';
import type { Proposal, SixAnswers } from '../../study/propose.ts';
import type { CraftAnswer, DriveAnswer } from './craft.ts';
import { askedWorker } from './asked.ts';

/** A drawn blade as the page shows it: plain data that crosses from the worker. */
export type DrawnBlade =
  | {
      readonly ok: true;
      /** The project's fan with the drawn blade. */
      readonly fan: Fan;
      readonly thrust_N: number;
      readonly rpm: number;
      readonly throttle: number | null;
      readonly before: Assessment;
      readonly after: Assessment;
      /** What held the blade, which limits it passes, what to mind: in sentences. */
      readonly notes: readonly string[];
    }
  | { readonly ok: false; readonly reasons: readonly string[] };

/** What takes too long for the page itself. */
export interface StudyWorker {
  propose(answers: SixAnswers): Promise<Proposal>;
  design(project: Project, wish: DesignWish): Promise<DrawnBlade>;
  ductFlow(project: Project): Promise<DuctFlowResult>;
  drive(project: Project): Promise<DriveAnswer>;
  craft(project: Project): Promise<CraftAnswer>;
  shortfall(project: Project): Promise<readonly string[]>;
}

/** Asks the worker of studies. */
export const askStudy = askedWorker<StudyWorker>(
  () => new Worker(new URL('./study.worker.ts', import.meta.url), { type: 'module' }),
);
