import type { Project } from '../project/schema.ts';
import { writeProject } from '../project/write.ts';
import { formatMinutes, formatNumber as n } from '../quantities/format.ts';
import type { RobustFigures } from '../study/best.ts';
import { bestAnswer, bestFrom, bestRounds, type BestAnswer, type BestProposal } from '../study/best-run.ts';
import type { SearchState } from '../study/optimise.ts';
import { BadInput } from './fault.ts';
import { isThere, plainText, readBytes, refuseToReplace, writeWhole } from './files.ts';
import { asJson, type Io } from './io.ts';
import { threadPool } from './pool.ts';
import { bullet, columns, wrap } from './text.ts';

export interface BestRequest {
  readonly evaluations?: number;
  readonly seed?: number;
  readonly jobs: number;
  readonly resume?: string;
  readonly take?: number;
  readonly out?: string;
  readonly force?: boolean;
  readonly json?: boolean;
  readonly inputs: readonly string[];
}

/** Designs tried where nobody says otherwise: some 10 s on two cores. */
const USUAL_EVALUATIONS = 1200;

/** What stands in the file of --resume. */
interface Kept {
  readonly kind: 'fanwright study --best';
  readonly project: Project;
  readonly state: SearchState;
}

/** Searches on threads, keeping its state as it goes, and tells what it found. */
export async function runBest(io: Io, project: Project, request: BestRequest): Promise<void> {
  const { resume, take, out, jobs, seed, evaluations = USUAL_EVALUATIONS } = request;
  if ((take === undefined) !== (out === undefined))
    throw new BadInput('--take N and --out FILE go together: which proposal, and where to write it.');
  if (out !== undefined) refuseToReplace(out, request.force, request.inputs);
  let state = bestFrom(seed);
  if (resume !== undefined && isThere(resume)) state = keptState(resume, project, seed);
  const pool = threadPool(jobs);
  try {
    for await (const next of bestRounds(project, pool, state, evaluations)) {
      state = next;
      if (resume !== undefined)
        writeWhole(resume, asJson({ kind: 'fanwright study --best', project, state } satisfies Kept));
      if (process.stderr.isTTY) process.stderr.write(`\r${state.evaluations} of ${evaluations} designs`);
    }
    if (process.stderr.isTTY) process.stderr.write('\r\u001b[K');
  } finally {
    pool.dispose();
  }
  const answer = bestAnswer(project, state);
  if (take !== undefined && out !== undefined) {
    const proposal = answer.proposals[take - 1];
    if (!proposal)
      throw new BadInput(
        `--take is ${take}; there ${answer.proposals.length === 1 ? 'is 1 proposal' : `are ${answer.proposals.length} proposals`}.`,
      );
    writeWhole(out, writeProject(proposal.project));
  }
  io.out(
    request.json
      ? asJson(answer)
      : bestText(project, answer) + (out === undefined ? '' : `\nWrote ${out}: proposal ${take}.\n`),
  );
}

/** The state of a search that was kept, which must be of this very project. */
function keptState(file: string, project: Project, seed: number | undefined): SearchState {
  const refuse = (why: string) => new BadInput(`${file} cannot be carried on: ${why}.`);
  let kept: Partial<Kept>;
  try {
    kept = JSON.parse(plainText(readBytes(file), file, 'a kept search')) as Partial<Kept>;
  } catch (error) {
    if (error instanceof BadInput) throw error;
    throw refuse('it is no JSON');
  }
  const { kind, state } = kept;
  if (kind !== 'fanwright study --best' || !state || !Array.isArray(state.members))
    throw refuse('it does not hold a search');
  if (JSON.stringify(kept.project) !== JSON.stringify(project))
    throw refuse('its search is about another design; name a new file');
  if (seed !== undefined && seed !== state.seed)
    throw refuse(`its search has seed ${state.seed}; leave --seed out or name a new file`);
  return state;
}

const row = (name: string, f: RobustFigures): string[] => [
  name,
  `${formatMinutes(f.hover_min.value)} (${formatMinutes(f.hover_min.low)})`,
  `${n(f.thrustToWeight.value)} (${n(f.thrustToWeight.low)})`,
  `${n(f.mass_g)} g`,
  `${n(f.outerWidth_mm)} mm`,
  n(f.speedMargin),
  f.level_dBA === null ? '-' : `${f.level_dBA.toFixed(0)} dB`,
];

function bestText(project: Project, answer: BestAnswer): string {
  const head = `${project.name}: ${answer.evaluations} designs tried\n\n`;
  const { nearest, proposals, broken } = answer;
  const now = broken.length > 0 ? `The present design does not keep: ${broken.join(', ')}.\n` : '';
  const shown = nearest ? [nearest.proposal] : proposals;
  const table = columns([
    ['', 'hover (low end)', 'lifts (low end)', 'mass', 'width', 'strength', 'sound'],
    row('now', answer.present),
    ...shown.map((p, i) => row(nearest ? 'nearest' : `proposal ${i + 1}`, p.figures)),
  ]);
  const none = nearest
    ? wrap(
        `No design tried keeps every limit of the brief. The nearest still breaks: ${nearest.broken.join(', ')}. More --evaluations may find one, or the brief asks too much.`,
      ) + '\n'
    : '';
  return (
    head +
    now +
    table +
    '\n' +
    none +
    shown.map((p, i) => changesText(nearest ? 'Nearest' : `Proposal ${i + 1}`, p)).join('\n') +
    '\n' +
    wrap(
      'In brackets the low end of the interval, which the search goes by.' +
        (nearest
          ? ''
          : ' No proposal beats another in both minutes and thrust. They keep width, minutes, strength, currents, sound and what can be printed, as the brief, the parts, the printer and the safety factor say; look at each with `fanwright assess` before printing.'),
    )
  );
}

const changesText = (name: string, { changes }: BestProposal): string =>
  `${name}, against the present design\n` +
  (changes.length === 0 ? '  - nothing changes\n' : changes.map((c) => bullet(c.words)).join(''));
