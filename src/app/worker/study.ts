import type { DuctFlowResult } from '../../assess/lip-flow.ts';
import type { Assessment } from '../../assess/types.ts';
import type { Fan, Project } from '../../project/schema.ts';
import type { DesignWish } from '../../study/design.ts';
import type { Proposal, SixAnswers } from '../../study/propose.ts';
import type { SoundAt } from '../../sound/types.ts';
import type { PrinterLimits } from '../../study/printer-limits.ts';
import type { CountStudy } from '../../study/blade-vane-count.ts';
import type { SoundComparison } from '../../study/sound-compare.ts';
import type { CraftAnswer, DriveAnswer } from './craft.ts';
import type { Recorded } from './recorded.ts';
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
  counts(project: Project): Promise<CountStudy>;
  printerLimits(project: Project): Promise<PrinterLimits>;
  compareSound(first: Project, second: Project, names: readonly [string, string]): Promise<SoundComparison>;
  render(at: SoundAt, fans: number, seconds: number): Promise<Float32Array<ArrayBuffer>>;
  hearTones(
    samples: Float32Array,
    sampleRate: number,
    blades: number,
    full_rpm: number | null,
  ): Promise<Recorded>;
}

/** Asks the worker of studies. */
export const askStudy = askedWorker<StudyWorker>(
  () => new Worker(new URL('./study.worker.ts', import.meta.url), { type: 'module' }),
);
