import { memo, useId, useRef, useState, type KeyboardEvent } from 'react';
import { getPath } from '../../project/path.ts';
import { edit } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import { describeField } from './describe.ts';
import { rangeInWords, readEntry, stepFor, stepped, writeEntry } from './entry.ts';

interface Props {
  readonly path: string;
  readonly label?: string;
  /** Only the input with its unit; help and range go to the tooltip (for tables). */
  readonly bare?: boolean;
  readonly focusFirst?: boolean;
  /** Called after a good entry or a given-up one. */
  readonly onDone?: () => void;
}

/**
 * A number of the project, edited where it stands. Enter or leaving commits; Escape restores. What cannot be taken
 * stays in the field with one sentence beside it.
 */
export const NumberField = memo(function NumberField({
  path,
  label,
  bare = false,
  focusFirst = false,
  onDone,
}: Props) {
  const facts = describeField(path);
  const value = useApp((s) => getPath(s.project, path)) as number | null;
  const [typed, show] = useState<string | null>(null);
  // Escape may take the field away, which blurs it before the next render: commit reads what is pending, not what is shown.
  const pending = useRef<string | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const id = useId();
  const name = label ?? facts.label;

  const setTyped = (text: string | null) => {
    pending.current = text;
    show(text);
  };
  const restore = () => {
    setTyped(null);
    setWrong(null);
  };
  const commit = (): boolean => {
    if (pending.current === null) return true;
    const entry = readEntry(pending.current, facts);
    if (!entry.ok) {
      setWrong(entry.why);
      return false;
    }
    restore();
    edit({ [path]: entry.value }, name);
    return true;
  };
  const onKey = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === 'Enter') {
      event.preventDefault();
      if (commit()) onDone?.();
    } else if (event.key === 'Escape') {
      event.stopPropagation();
      restore();
      onDone?.();
    } else if ((event.key === 'ArrowUp' || event.key === 'ArrowDown') && value !== null && typed === null) {
      event.preventDefault();
      const step = stepFor(value, facts) * (event.shiftKey && !facts.whole ? 10 : 1);
      edit({ [path]: stepped(value, event.key === 'ArrowUp' ? step : -step, facts) }, name);
    }
  };
  const range = `${rangeInWords(facts)}${facts.typical ? `, often ${facts.typical}` : ''}`;
  return (
    <div className={bare ? 'field bare' : 'field'}>
      <label className={bare ? 'unseen' : undefined} htmlFor={id}>
        {name}
      </label>
      <span className="entry">
        <input
          id={id}
          type="text"
          inputMode="decimal"
          autoComplete="off"
          ref={focusFirst ? focusAndSelect : undefined}
          value={typed ?? writeEntry(value)}
          placeholder={facts.nullable ? 'not given' : undefined}
          aria-invalid={wrong !== null}
          aria-describedby={`${id}-help${wrong ? ` ${id}-wrong` : ''}`}
          title={bare ? `${facts.help} ${range}` : undefined}
          data-path={path}
          data-typed={typed === null ? undefined : 'yes'}
          onChange={(e) => {
            setTyped(e.target.value);
            setWrong(null);
          }}
          onBlur={commit}
          onKeyDown={onKey}
        />
        {(facts.unit || !bare) && <span className="unit">{facts.unit}</span>}
      </span>
      <small id={`${id}-help`} className={bare ? 'unseen' : 'help'}>
        {facts.help} <span className="range">{range}.</span>
      </small>
      {wrong && (
        <p id={`${id}-wrong`} className="wrong" role="alert">
          {wrong} <button onClick={restore}>Put {writeEntry(value) || 'nothing'} back</button>
        </p>
      )}
    </div>
  );
});

function focusAndSelect(input: HTMLInputElement | null): void {
  if (!input || input.dataset.met) return;
  input.dataset.met = 'yes';
  input.focus({ preventScroll: true });
  input.select();
}
