import { useEffect } from 'react';
import { redo, undo } from '../state/actions.ts';
import { saveFile } from '../state/files.ts';

/** Ctrl or Cmd with Z, Shift+Z or Y, and S. A field with something half typed keeps its own undo. */
export function useKeys(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const key = event.key.toLowerCase();
      if (key === 's') {
        event.preventDefault();
        saveFile();
        return;
      }
      if (key !== 'z' && key !== 'y') return;
      const target = event.target;
      if (target instanceof HTMLElement && target.closest('[data-typed="yes"]')) return;
      event.preventDefault();
      if (key === 'y' || event.shiftKey) redo();
      else undo();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);
}
