import { loadKernel, type Kernel } from '../../make/kernel.ts';
import { divisionSteps } from '../../make/layers/divisions.ts';
import { layerPicture } from '../../make/layers/check.ts';
import { setSteps, type PrintSet } from '../../make/layers/set.ts';
import { rulesOf } from '../../make/layers/slice.ts';
import { make, type Made } from '../../make/make.ts';
import { isGeometryFaultError } from '../../make/part.ts';
import type { Project } from '../../project/schema.ts';
import type { LayersAnswer, LayersQuestion } from './layers.ts';

/** Between two breaths, in which a word to stop is heard [ms]. */
const BREATH_MS = 60;

let kernel: Promise<Kernel> | null = null;
let last: { readonly project: Project; readonly made: Made; readonly set: PrintSet } | null = null;
let stop = false;
const say = (answer: LayersAnswer) => postMessage(answer);

function ready(): Promise<Kernel> {
  kernel ??= loadKernel();
  return kernel;
}

async function readSet(project: Project): Promise<void> {
  const at = await ready();
  say({ kind: 'progress', done: 0, part: 'solids' });
  const made = await make(project, { kernel: at });
  const steps = setSteps(at, project, made);
  let heard = performance.now();
  let next = steps.next();
  while (!next.done) {
    if (performance.now() - heard > BREATH_MS) {
      say({ kind: 'progress', ...next.value });
      await new Promise((resume) => setTimeout(resume));
      heard = performance.now();
    }
    if (stop) {
      steps.return(undefined as never);
      return say({ kind: 'stopped' });
    }
    next = steps.next();
  }
  last = { project, made, set: next.value };
  const boxes = Object.fromEntries(made.parts.map(({ id, boundingBox_mm }) => [id, boundingBox_mm]));
  say({ kind: 'set', set: next.value, boxes });
}

async function compareWays(project: Project): Promise<void> {
  const steps = divisionSteps(await ready(), project);
  let next = await steps.next();
  while (!next.done) {
    say({ kind: 'progress', ...next.value });
    await new Promise((resume) => setTimeout(resume));
    if (stop) {
      await steps.return(undefined as never);
      return say({ kind: 'stopped' });
    }
    next = await steps.next();
  }
  say({ kind: 'divisions', divisions: next.value });
}

async function picture(id: string, layer: number): Promise<void> {
  const part = last?.made.parts.find((p) => p.id === id);
  const read = last?.set.parts.find((p) => p.id === id);
  const facts = read?.check.layers[layer];
  const drawn =
    last && part && read && facts
      ? layerPicture(
          await ready(),
          part,
          { ...rulesOf(last.project.printer), layer: read.check.layer_mm },
          facts.z_mm,
        )
      : null;
  say({ kind: 'picture', part: id, layer, picture: drawn });
}

async function answer(question: Exclude<LayersQuestion, { kind: 'stop' }>): Promise<void> {
  try {
    if (question.kind === 'picture') return await picture(question.part, question.layer);
    stop = false;
    if (question.kind === 'set') return await readSet(question.project);
    await compareWays(question.project);
  } catch (error) {
    if (isGeometryFaultError(error)) return say({ kind: 'refused', why: error.faults.map((f) => f.text) });
    console.error(error);
    say({ kind: 'failed' });
  }
}

addEventListener('message', ({ data }: MessageEvent<LayersQuestion>) => {
  if (data.kind === 'stop') stop = true;
  else void answer(data);
});
