import { openDB, type IDBPDatabase } from 'idb';
import { readProject } from '../../project/read.ts';
import { writeProject } from '../../project/write.ts';
import { startHistory } from './history.ts';
import { tryAssess } from './assessor.ts';
import { useApp } from './store.ts';
import { tell } from './actions.ts';

const STORE = 'work';
const CURRENT = 'current';
/** Changes closer together than this are written once [ms]. */
const PAUSE_MS = 200;
/** A storage that does not answer must not hold up the page [ms]. */
const PATIENCE_MS = 1500;

interface Kept {
  readonly text: string;
  readonly at: Date;
}

let database: Promise<IDBPDatabase> | null = null;

function open(): Promise<IDBPDatabase> {
  database ??= openDB('fanwright', 1, {
    upgrade(db) {
      db.createObjectStore(STORE);
    },
  });
  return database;
}

function patient<T>(work: Promise<T>): Promise<T> {
  const late = new Promise<never>((_, fail) => setTimeout(() => fail(new Error('no answer')), PATIENCE_MS));
  return Promise.race([work, late]);
}

const CLOSED =
  'This browser does not keep your work (its storage is closed or full). Nothing is lost while the page is open: save to a file before you close it.';

/** What is kept beside the work under another key. Rejects where the storage is closed. */
export const fetchKept = async (key: string): Promise<unknown> =>
  patient((await patient(open())).get(STORE, key));

export async function keepBeside(key: string, value: unknown): Promise<void> {
  await patient((await patient(open())).put(STORE, value, key));
}

/** Brings back what was kept, or leaves the demo that is already there. */
export async function restoreWork(): Promise<void> {
  try {
    const db = await patient(open());
    const kept = (await patient(db.get(STORE, CURRENT))) as Kept | undefined;
    if (!kept) return;
    const read = readProject(kept.text);
    if (!read.ok) {
      tell(
        'The work kept in this browser could not be read and stays stored as it is; here is the demo.',
        read.errors.map((e) => e.message),
      );
      await patient(db.put(STORE, kept, `unread ${kept.at.toISOString()}`));
      return;
    }
    useApp.setState({
      project: read.project,
      history: startHistory(read.project),
      assessment: tryAssess(read.project),
      saved: { state: 'saved', at: kept.at },
    });
  } catch {
    useApp.setState({ saved: { state: 'failed', why: CLOSED } });
  }
}

let timer: ReturnType<typeof setTimeout> | undefined;
let dirty = false;

async function write(): Promise<void> {
  dirty = false;
  const { project } = useApp.getState();
  const kept: Kept = { text: writeProject(project), at: new Date() };
  try {
    const db = await patient(open());
    await patient(db.put(STORE, kept, CURRENT));
    if (!dirty) useApp.setState({ saved: { state: 'saved', at: kept.at } });
  } catch {
    database = null;
    useApp.setState({ saved: { state: 'failed', why: CLOSED } });
  }
}

/** From now on every change of the project is written to the browser's storage, shortly after it is made. */
export function startAutosave(): void {
  useApp.subscribe((now, before) => {
    if (now.project === before.project) return;
    dirty = true;
    if (now.saved.state !== 'failed') useApp.setState({ saved: { state: 'saving' } });
    clearTimeout(timer);
    timer = setTimeout(() => void write(), PAUSE_MS);
  });
  const hurry = () => {
    if (!dirty) return;
    clearTimeout(timer);
    void write();
  };
  addEventListener('pagehide', hurry);
  addEventListener('beforeunload', (event) => {
    // Only where leaving would lose work: the browser then asks.
    const { saved, history } = useApp.getState();
    if (saved.state === 'failed' && history.past.length > 0) event.preventDefault();
  });
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') hurry();
  });
}
