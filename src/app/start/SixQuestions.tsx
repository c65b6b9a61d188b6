import { useId, useState, type FormEvent } from 'react';
import { batteries, motors, printers } from '../../project/catalogue.ts';
import type { Proposal } from '../../study/propose.ts';
import { AskedField } from '../field/AskedField.tsx';
import { askStudy } from '../worker/study.ts';
import { ProposalView } from './ProposalView.tsx';
import { checkTyped, firstTyped, numberFacts, type NumberQuestion, type Typed } from './questions.ts';

type State =
  | { readonly is: 'asking' }
  | { readonly is: 'searching' }
  | { readonly is: 'failed' }
  | { readonly is: 'found'; readonly proposal: Proposal };

/** The six questions of an empty start, and the fan proposed for the answers. */
export function SixQuestions() {
  const [typed, setTyped] = useState<Typed>(firstTyped);
  const [wrong, setWrong] = useState<Partial<Record<NumberQuestion, string>>>({});
  const [state, setState] = useState<State>({ is: 'asking' });
  const set = (key: keyof Typed) => (value: string) => {
    setTyped({ ...typed, [key]: value });
    setWrong({ ...wrong, [key]: undefined });
    if (state.is !== 'searching') setState({ is: 'asking' });
  };
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const checked = checkTyped(typed);
    if (!checked.ok) return setWrong(checked.wrong);
    setState({ is: 'searching' });
    try {
      setState({ is: 'found', proposal: await askStudy((at) => at.propose(checked.answers)) });
    } catch {
      setState({ is: 'failed' });
    }
  };
  return (
    <form className="six" onSubmit={(e) => void submit(e)} noValidate>
      <AskedField facts={numberFacts.mass} typed={typed.mass} wrong={wrong.mass} onType={set('mass')} />
      <AskedField facts={numberFacts.fans} typed={typed.fans} wrong={wrong.fans} onType={set('fans')} />
      <Chosen label="Motor" list={motors} value={typed.motor} onChoose={set('motor')} />
      <Chosen label="Battery" list={batteries} value={typed.battery} onChoose={set('battery')} />
      <AskedField facts={numberFacts.width} typed={typed.width} wrong={wrong.width} onType={set('width')} />
      <Chosen label="Printer" list={printers} value={typed.printer} onChoose={set('printer')} />
      <p className="six-foot">
        <button type="submit" className="chief" disabled={state.is === 'searching'}>
          Propose a fan
        </button>
        <span role="status">
          {state.is === 'searching' && 'Trying some hundreds of fans …'}
          {state.is === 'failed' && 'The search stopped before it had an answer; try again.'}
        </span>
      </p>
      {state.is === 'found' && <ProposalView proposal={state.proposal} />}
    </form>
  );
}

interface ChosenProps {
  readonly label: string;
  readonly list: readonly {
    readonly id: string;
    readonly part: { readonly name: string };
    readonly note: string;
  }[];
  readonly value: string;
  readonly onChoose: (id: string) => void;
}

function Chosen({ label, list, value, onChoose }: ChosenProps) {
  const id = useId();
  const chosen = list.find((entry) => entry.id === value);
  return (
    <div className="field wide">
      <label htmlFor={id}>{label}</label>
      <span className="entry">
        <select
          id={id}
          value={value}
          aria-describedby={`${id}-note`}
          onChange={(e) => onChoose(e.target.value)}
        >
          {list.map((entry) => (
            <option key={entry.id} value={entry.id}>
              {entry.part.name}
            </option>
          ))}
        </select>
      </span>
      <small id={`${id}-note`} className="help">
        {chosen?.note}
      </small>
    </div>
  );
}
