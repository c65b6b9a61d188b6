import { useApp } from '../state/store.ts';

/** Whether the browser has kept the work, and since when. */
export function SavedNote() {
  const saved = useApp((s) => s.saved);
  const time = new Intl.DateTimeFormat(undefined, { hour: '2-digit', minute: '2-digit' });
  const words = {
    'nothing yet': 'Demo',
    saving: 'Keeping …',
    saved: saved.state === 'saved' ? `Kept ${time.format(saved.at)}` : '',
    failed: 'Not kept',
  }[saved.state];
  return (
    <span
      className={`saved ${saved.state === 'failed' ? 'failed' : ''}`}
      data-saved={saved.state}
      title="Where the browser keeps your work"
    >
      {words}
    </span>
  );
}
