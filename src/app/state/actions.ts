import { getPath, setPath } from '../../project/path.ts';
import type { Project } from '../../project/schema.ts';
import { tryAssess } from './assessor.ts';
import * as history from './history.ts';
import type { History } from './history.ts';
import { useApp, type Notice, type Stage } from './store.ts';

type Changes = Readonly<Record<string, unknown>>;

let waiting: Changes = {};
let frame = 0;

function show(next: History<Project>): void {
  const { history: now, project, assessment } = useApp.getState();
  if (next === now) return;
  const fresh = next.present === project ? assessment : tryAssess(next.present);
  useApp.setState({ history: next, project: next.present, assessment: fresh ?? assessment });
  if (!fresh)
    tell(
      'The numbers beside the drawing could not be computed for this change; they still show the last one.',
    );
}

function apply(changes: Changes, what: string): void {
  const { history: now } = useApp.getState();
  let next = now.present;
  for (const [path, value] of Object.entries(changes))
    if (!Object.is(getPath(next, path), value)) next = setPath(next, path, value);
  show(history.change(now, next, what));
}

function flush(): void {
  cancelAnimationFrame(frame);
  frame = 0;
  const changes = waiting;
  waiting = {};
  apply(changes, '');
}

/** Sets one or more values by path: one step for undo. */
export function edit(changes: Changes, what: string): void {
  if (frame) flush();
  apply(changes, what);
}

/** Puts another project in its place: one step for undo. */
export function replaceProject(next: Project, what: string): void {
  if (frame) flush();
  const settled = history.endGesture(useApp.getState().history);
  show(history.change(settled, next, what));
}

export function beginDrag(path: string, what: string): void {
  useApp.setState((s) => ({ dragging: path, history: history.beginGesture(s.history, what) }));
}

/** Takes the newest value of a drag; project and numbers change together in the next frame. */
export function drag(changes: Changes): void {
  waiting = { ...waiting, ...changes };
  if (!frame) frame = requestAnimationFrame(flush);
}

export function endDrag(keep = true): void {
  if (frame) flush();
  const { history: now } = useApp.getState();
  useApp.setState({ dragging: null });
  show(keep ? history.endGesture(now) : history.cancelGesture(now));
}

export function undo(): void {
  if (frame) flush();
  useApp.setState({ dragging: null });
  show(history.undo(useApp.getState().history));
}

export function redo(): void {
  if (frame) flush();
  show(history.redo(useApp.getState().history));
}

export function goTo(stage: Stage): void {
  useApp.setState({ stage });
}

export function tell(text: string, lines: readonly string[] = []): void {
  const notice: Notice = { text, lines };
  useApp.setState({ notice });
}

export function dismiss(): void {
  useApp.setState({ notice: null });
}

export function setStarting(starting: boolean): void {
  useApp.setState({ starting });
}
