import { useId, useState } from 'react';
import { getPath } from '../../project/path.ts';
import { edit } from '../state/actions.ts';
import { useApp } from '../state/store.ts';

interface Props {
  readonly path: string;
  readonly label: string;
  readonly bare?: boolean;
  readonly long?: boolean;
  /** Most letters; left out: what a name or a note may have. */
  readonly most?: number;
}

/** A name or a note. One visit to the field is one step for undo. */
export function TextField({ path, label, bare = false, long = false, most }: Props) {
  const id = useId();
  const value = useApp((s) => getPath(s.project, path)) as string;
  const [typed, setTyped] = useState<string | null>(null);
  const common = {
    id,
    value: typed ?? value,
    'data-typed': typed === null ? undefined : 'yes',
    maxLength: most ?? (long ? 20_000 : 200),
    onChange: (e: { target: { value: string } }) => setTyped(e.target.value),
    onBlur: () => {
      if (typed !== null) edit({ [path]: typed }, label);
      setTyped(null);
    },
  };
  return (
    <div className={bare ? 'field bare' : 'field wide'}>
      <label className={bare ? 'unseen' : undefined} htmlFor={id}>
        {label}
      </label>
      <span className="entry text">
        {long ? (
          <textarea {...common} rows={3} />
        ) : (
          <input
            {...common}
            type="text"
            autoComplete="off"
            onKeyDown={(e) => {
              if (e.key === 'Enter') e.currentTarget.blur();
              if (e.key === 'Escape') setTyped(null);
            }}
          />
        )}
      </span>
    </div>
  );
}
