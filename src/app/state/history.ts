/** How many steps back are kept. Projects share what did not change, so a step is small. */
const DEPTH = 300;

interface Step<T> {
  readonly value: T;
  /** What was changed on leaving this value, in the reader's words. */
  readonly what: string;
}

/** A value with the way back and forward. `from` is set while a gesture (a drag) is under way. */
export interface History<T> {
  readonly past: readonly Step<T>[];
  readonly present: T;
  readonly future: readonly Step<T>[];
  readonly from: Step<T> | null;
}

export function startHistory<T>(present: T): History<T> {
  return { past: [], present, future: [], from: null };
}

/** One finished change. Inside a gesture it belongs to the gesture. */
export function change<T>(history: History<T>, next: T, what: string): History<T> {
  if (next === history.present) return history;
  if (history.from) return { ...history, present: next };
  const past = [...history.past, { value: history.present, what }].slice(-DEPTH);
  return { past, present: next, future: [], from: null };
}

/** Everything from here to `endGesture` becomes one step. */
export function beginGesture<T>(history: History<T>, what: string): History<T> {
  return history.from ? history : { ...history, from: { value: history.present, what } };
}

export function endGesture<T>(history: History<T>): History<T> {
  const { from, present } = history;
  if (!from) return history;
  if (from.value === present) return { ...history, from: null };
  return { past: [...history.past, from].slice(-DEPTH), present, future: [], from: null };
}

/** Gives up the gesture and returns to where it began. */
export function cancelGesture<T>(history: History<T>): History<T> {
  return history.from ? { ...history, present: history.from.value, from: null } : history;
}

export function undo<T>(history: History<T>): History<T> {
  const settled = endGesture(history);
  const last = settled.past.at(-1);
  if (!last) return settled;
  return {
    past: settled.past.slice(0, -1),
    present: last.value,
    future: [{ value: settled.present, what: last.what }, ...settled.future],
    from: null,
  };
}

export function redo<T>(history: History<T>): History<T> {
  const settled = endGesture(history);
  const [next, ...future] = settled.future;
  if (!next) return settled;
  return {
    past: [...settled.past, { value: settled.present, what: next.what }],
    present: next.value,
    future,
    from: null,
  };
}
