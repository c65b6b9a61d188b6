import { useId } from 'react';
import { describePath, getPath } from '../../project/path.ts';
import { edit } from '../state/actions.ts';
import { useApp } from '../state/store.ts';

interface Props {
  readonly path: string;
  readonly label: string;
  /** What may be chosen beside nothing: value and its words. */
  readonly choices: readonly (readonly [value: string | boolean, words: string])[];
  readonly none: string;
}

/** One of a few answers, or none yet. */
export function Answer({ path, label, choices, none }: Props) {
  const id = useId();
  const value = useApp((s) => getPath(s.project, path));
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <span className="entry">
        <select
          id={id}
          value={choices.findIndex(([one]) => one === value)}
          aria-describedby={`${id}-help`}
          onChange={({ target }) => edit({ [path]: choices[Number(target.value)]?.[0] ?? null }, label)}
        >
          <option value={-1}>{none}</option>
          {choices.map(([one, words], i) => (
            <option key={String(one)} value={i}>
              {words}
            </option>
          ))}
        </select>
      </span>
      <small id={`${id}-help`} className="help">
        {describePath(path)?.help}
      </small>
    </div>
  );
}
