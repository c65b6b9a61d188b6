import { useEffect, useState } from 'react';
import { openFile } from '../state/files.ts';

/** A file dropped anywhere on the page is opened. Says whether one is held over it. */
export function useDrop(): boolean {
  const [over, setOver] = useState(false);
  useEffect(() => {
    const carriesFile = (event: DragEvent) => event.dataTransfer?.types.includes('Files') ?? false;
    // A place that takes files of its own kind says so.
    const elsewhere = ({ target }: DragEvent) =>
      target instanceof Element && target.closest('[data-takes-files]') !== null;
    const onOver = (event: DragEvent) => {
      if (!carriesFile(event)) return;
      if (elsewhere(event)) return setOver(false);
      event.preventDefault();
      setOver(true);
    };
    const onLeave = (event: DragEvent) => {
      if (!event.relatedTarget) setOver(false);
    };
    const onDrop = (event: DragEvent) => {
      if (!carriesFile(event)) return;
      setOver(false);
      if (elsewhere(event)) return;
      event.preventDefault();
      const file = event.dataTransfer?.files[0];
      if (file) void openFile(file);
    };
    addEventListener('dragover', onOver);
    addEventListener('dragleave', onLeave);
    addEventListener('drop', onDrop);
    return () => {
      removeEventListener('dragover', onOver);
      removeEventListener('dragleave', onLeave);
      removeEventListener('drop', onDrop);
    };
  }, []);
  return over;
}
