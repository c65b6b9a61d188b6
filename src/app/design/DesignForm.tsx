import { useId, useState, type FormEvent, type ReactNode } from 'react';
import type { DesignWish } from '../../study/design.ts';
import { AskedField } from '../field/AskedField.tsx';
import { checkWish, firstWish, LOADINGS, wishFacts, type Loading, type WishNumber } from './wish.ts';

interface Props {
  readonly blades: number;
  readonly onAsk: (wish: DesignWish) => void;
  /** What is said beside the button. */
  readonly children: ReactNode;
}

/** What the blade is to be drawn for. */
export function DesignForm({ blades, onAsk, children }: Props) {
  const [typed, setTyped] = useState(firstWish);
  const [wrong, setWrong] = useState<Partial<Record<WishNumber, string>>>({});
  const id = useId();
  const number = (key: WishNumber) => (
    <AskedField
      facts={wishFacts[key]}
      typed={key === 'blades' ? (typed.blades ?? String(blades)) : typed[key]}
      wrong={wrong[key]}
      onType={(value) => {
        setTyped({ ...typed, [key]: value });
        setWrong({ ...wrong, [key]: undefined });
      }}
    />
  );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const checked = checkWish(typed, blades);
    setWrong(checked.ok ? {} : checked.wrong);
    if (checked.ok) onAsk(checked.wish);
  };
  return (
    <form className="design" onSubmit={submit} noValidate>
      <div className="form">
        <div className="field">
          <label htmlFor={`${id}-loading`}>Loading</label>
          <span className="entry">
            <select
              id={`${id}-loading`}
              value={typed.loading}
              aria-describedby={`${id}-loading-help`}
              onChange={(e) => setTyped({ ...typed, loading: e.target.value as Loading })}
            >
              {Object.entries(LOADINGS).map(([key, { name }]) => (
                <option key={key} value={key}>
                  {name}
                </option>
              ))}
            </select>
          </span>
          <small id={`${id}-loading-help`} className="help">
            {LOADINGS[typed.loading].help}
          </small>
        </div>
        <div className="field">
          <label htmlFor={`${id}-speed`}>Speed given by</label>
          <span className="entry">
            <select
              id={`${id}-speed`}
              value={typed.speedBy}
              onChange={(e) => setTyped({ ...typed, speedBy: e.target.value as 'throttle' | 'rpm' })}
            >
              <option value="throttle">throttle</option>
              <option value="rpm">rpm</option>
            </select>
          </span>
        </div>
        {number(typed.speedBy)}
        {number('blades')}
        {number('lift')}
      </div>
      <p className="parts-foot">
        <button type="submit" className="chief">
          Draw a blade
        </button>
        <span role="status">{children}</span>
      </p>
    </form>
  );
}
