import { useId } from 'react';
import { describePath, getPath } from '../../project/path.ts';
import { edit } from '../state/actions.ts';
import { useApp } from '../state/store.ts';

interface Props {
  readonly path: string;
  readonly label: string;
  /** What a choice is called, where its own name does not read well. */
  readonly names?: Readonly<Record<string, string>>;
}

/** One of a few values. */
export function ChoiceField({ path, label, names = {} }: Props) {
  const id = useId();
  const value = useApp((s) => getPath(s.project, path)) as string;
  const field = describePath(path);
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <span className="entry">
        <select
          id={id}
          value={value}
          aria-describedby={`${id}-help`}
          onChange={(e) => edit({ [path]: e.target.value }, label)}
        >
          {field?.options?.map((option) => (
            <option key={option} value={option}>
              {names[option] ?? option}
            </option>
          ))}
        </select>
      </span>
      <small id={`${id}-help`} className="help">
        {field?.help}
      </small>
    </div>
  );
}

/** A yes or no. */
export function SwitchField({ path, label }: Omit<Props, 'names'>) {
  const id = useId();
  const value = useApp((s) => getPath(s.project, path)) as boolean;
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <span className="entry">
        <input
          id={id}
          type="checkbox"
          checked={value}
          aria-describedby={`${id}-help`}
          onChange={(e) => edit({ [path]: e.target.checked }, label)}
        />
      </span>
      <small id={`${id}-help`} className="help">
        {describePath(path)?.help}
      </small>
    </div>
  );
}
