import { useId } from 'react';
import type { FieldFacts } from './describe.ts';
import { rangeInWords } from './entry.ts';

interface Props {
  readonly facts: FieldFacts;
  readonly typed: string;
  readonly wrong: string | undefined;
  readonly onType: (typed: string) => void;
}

/** A number of a question, which is no part of the project: read when the question is put. */
export function AskedField({ facts, typed, wrong, onType }: Props) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{facts.label}</label>
      <span className="entry">
        <input
          id={id}
          type="text"
          inputMode="decimal"
          autoComplete="off"
          value={typed}
          placeholder={facts.nullable ? 'free' : undefined}
          aria-invalid={wrong !== undefined}
          aria-describedby={`${id}-help${wrong ? ` ${id}-wrong` : ''}`}
          onChange={(e) => onType(e.target.value)}
        />
        <span className="unit">{facts.unit}</span>
      </span>
      <small id={`${id}-help`} className="help">
        {facts.help} {rangeInWords(facts)}.
      </small>
      {wrong && (
        <p id={`${id}-wrong`} className="wrong" role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}
