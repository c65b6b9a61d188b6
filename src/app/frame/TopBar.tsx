import { useRef } from 'react';
import { TextField } from '../field/TextField.tsx';
import { redo, setStarting, undo } from '../state/actions.ts';
import { openFile, saveFile } from '../state/files.ts';
import { useApp } from '../state/store.ts';
import { SavedNote } from './SavedNote.tsx';
import { ThemeSwitch } from './ThemeSwitch.tsx';

/** Name, way back and forward, where the work is kept, files. */
export function TopBar() {
  const picker = useRef<HTMLInputElement>(null);
  const last = useApp((s) => s.history.past.at(-1)?.what);
  const next = useApp((s) => s.history.future.at(0)?.what);
  const canUndo = useApp((s) => s.history.past.length > 0);
  const canRedo = useApp((s) => s.history.future.length > 0);
  return (
    <header className="top-bar">
      <h1>Fanwright</h1>
      <div className="project-name">
        <TextField bare path="name" label="Name of the project" />
      </div>
      <div className="actions">
        <button
          onClick={undo}
          disabled={!canUndo}
          title={last ? `Undo: ${last} (Ctrl+Z)` : 'Nothing to undo'}
        >
          Undo
        </button>
        <button
          onClick={redo}
          disabled={!canRedo}
          title={next ? `Redo: ${next} (Ctrl+Y)` : 'Nothing to redo'}
        >
          Redo
        </button>
        <SavedNote />
        <button onClick={() => setStarting(true)}>New</button>
        <button onClick={() => picker.current?.click()}>Open file</button>
        <button onClick={saveFile}>Save file</button>
        <ThemeSwitch />
      </div>
      <input
        ref={picker}
        type="file"
        accept=".json,application/json"
        aria-label="Project file to open"
        hidden
        onChange={(e) => {
          const file = e.target.files?.[0];
          e.target.value = '';
          if (file) void openFile(file);
        }}
      />
    </header>
  );
}
