import { dismiss } from '../state/actions.ts';
import { useApp } from '../state/store.ts';

/** What the page has to say beside the design: storage that is closed, a file that could not be taken. */
export function NoticeBar() {
  const notice = useApp((s) => s.notice);
  const saved = useApp((s) => s.saved);
  return (
    <div className="notices" role="status">
      {saved.state === 'failed' && <p className="notice">{saved.why}</p>}
      {notice && (
        <div className="notice">
          <p>{notice.text}</p>
          {notice.lines.length > 0 && (
            <ul>
              {notice.lines.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          )}
          <button onClick={dismiss}>Close</button>
        </div>
      )}
    </div>
  );
}
