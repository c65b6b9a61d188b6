import { create } from 'zustand';
import type { Divisions } from '../../make/layers/divisions.ts';
import type { PartPrint, PrintSet } from '../../make/layers/set.ts';
import type { LayerPicture } from '../../make/layers/types.ts';
import type { Box } from '../../make/mesh.ts';
import type { Project } from '../../project/schema.ts';
import { withLie, chosenDown, type FanDirection } from '../../shape/lies.ts';
import { edit } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import type { LayersAnswer, LayersQuestion } from './layers.ts';

interface Reading {
  readonly state: 'none' | 'working' | 'stopped' | 'failed' | 'done';
  /** What is worked at. */
  readonly at: 'set' | 'divisions';
  readonly done: number;
  readonly doing: string;
  readonly why: readonly string[];
  /** What the set was read from. */
  readonly asked: Project | null;
  readonly set: PrintSet | null;
  readonly boxes: Readonly<Record<string, Box>>;
  readonly part: string | null;
  readonly layer: number;
  readonly picture: {
    readonly part: string;
    readonly layer: number;
    readonly picture: LayerPicture;
  } | null;
  readonly divisions: { readonly asked: Project; readonly answer: Divisions } | null;
}

/** Outside the card, so that a look at another stage does not lose what was read. */
export const useLayers = create<Reading>()(() => ({
  state: 'none',
  at: 'set',
  done: 0,
  doing: '',
  why: [],
  asked: null,
  set: null,
  boxes: {},
  part: null,
  layer: 0,
  picture: null,
  divisions: null,
}));

let worker: Worker | null = null;
let pictureAsked: string | null = null;

function ask(question: LayersQuestion): void {
  if (!worker) {
    worker = new Worker(new URL('./layers.worker.ts', import.meta.url), { type: 'module' });
    worker.onmessage = ({ data }: MessageEvent<LayersAnswer>) => hear(data);
    worker.onerror = (event) => {
      event.preventDefault();
      worker?.terminate();
      worker = null;
      pictureAsked = null;
      useLayers.setState({ state: 'failed' });
    };
  }
  worker.postMessage(question);
}

let asking: Project | null = null;

function hear(answer: LayersAnswer): void {
  const now = useLayers.getState();
  switch (answer.kind) {
    case 'progress':
      return useLayers.setState({ done: answer.done, doing: answer.part });
    case 'set': {
      const { parts } = answer.set;
      const part = parts.find(({ id }) => id === now.part) ?? parts.at(0);
      const layer = Math.min(now.layer, (part?.check.layers.length ?? 1) - 1);
      useLayers.setState({
        state: 'done',
        asked: asking,
        set: answer.set,
        boxes: answer.boxes,
        part: part?.id ?? null,
        layer,
        picture: null,
      });
      return askPicture();
    }
    case 'divisions':
      useLayers.setState({
        state: now.set ? 'done' : 'none',
        divisions: asking && { asked: asking, answer: answer.divisions },
      });
      return askPicture();
    case 'picture': {
      pictureAsked = null;
      const { part, layer, picture } = answer;
      if (picture) useLayers.setState({ picture: { part, layer, picture } });
      const after = useLayers.getState();
      if (after.part !== part || after.layer !== layer) askPicture();
      return;
    }
    case 'stopped':
      useLayers.setState({ state: 'stopped' });
      return askPicture();
    case 'refused':
      return useLayers.setState({ state: 'failed', why: answer.why });
    case 'failed':
      return useLayers.setState({ state: 'failed' });
  }
}

/** Asks for the layer in view; while one is drawn the newest waits. */
function askPicture(): void {
  const { part, layer, state, picture } = useLayers.getState();
  if (part === null || pictureAsked !== null || state === 'working') return;
  if (picture?.part === part && picture.layer === layer) return;
  pictureAsked = `${part} ${layer}`;
  ask({ kind: 'picture', part, layer });
}

export function readLayers(): void {
  asking = useApp.getState().project;
  useLayers.setState({ state: 'working', at: 'set', done: 0, doing: '', why: [] });
  ask({ kind: 'set', project: asking });
}

export function compareWays(): void {
  asking = useApp.getState().project;
  useLayers.setState({ state: 'working', at: 'divisions', done: 0, doing: '', why: [] });
  ask({ kind: 'divisions', project: asking });
}

export const stopReading = (): void => ask({ kind: 'stop' });

export function choosePart(part: string): void {
  useLayers.setState({ part, layer: 0 });
  askPicture();
}

export function chooseLayer(layer: number): void {
  useLayers.setState({ layer });
  askPicture();
}

/** Whether what was read still answers for the project. */
export const stillReads = (asked: Project, now: Project): boolean =>
  asked.fan === now.fan &&
  asked.motor === now.motor &&
  asked.craft === now.craft &&
  asked.printer === now.printer &&
  asked.material === now.material &&
  asked.battery === now.battery;

/** Lays a kind of part so, as one step; null: as usual. */
export function layPart({ kind, name, now }: PartPrint, down: FanDirection | null): void {
  const { project } = useApp.getState();
  const usual = chosenDown(project.fan, kind) ? undefined : now.inFan;
  edit({ fan: withLie(project.fan, kind, down, usual) }, `how the ${name} lies`);
}
