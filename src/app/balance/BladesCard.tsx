import { useId, useState } from 'react';
import type { BenchAnswer } from '../../balance/types.ts';
import { edit } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import { HubDrawing } from './HubDrawing.tsx';
import { readMasses } from './masses.ts';

interface Props {
  readonly bench: BenchAnswer;
  readonly blades: number;
  readonly apart: boolean;
}

/** Loose blades as weighed, and the order round the hub that leaves the least. */
export function BladesCard({ bench, blades, apart }: Props) {
  const { order, orderFault } = bench;
  return (
    <section className="card" aria-labelledby="weighed-title">
      <h2 id="weighed-title">Weighed blades</h2>
      {!apart && !order && (
        <p>
          This rotor is printed in one piece, so its blades stay where they are. For blades printed apart,
          number and weigh them, and the order that leaves the least unbalance is found here.
        </p>
      )}
      <MassesField blades={blades} />
      {orderFault && <p className="caution">{orderFault}</p>}
      {order && (
        <div className="unbalance" aria-live="polite">
          <HubDrawing order={order} />
          <div>
            {order.words.map((text) => (
              <p key={text}>{text}</p>
            ))}
          </div>
        </div>
      )}
    </section>
  );
}

/** The list of masses as one line: Enter or leaving takes it, Escape gives it up. */
function MassesField({ blades }: { readonly blades: number }) {
  const masses = useApp((s) => s.project.balance.bladeMasses_g);
  const [typed, setTyped] = useState<string | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const id = useId();
  const restore = () => {
    setTyped(null);
    setWrong(null);
  };
  const commit = () => {
    if (typed === null) return;
    const read = readMasses(typed);
    if (!read.ok) return setWrong(read.why);
    restore();
    if (read.masses.join() !== masses.join())
      edit({ 'balance.bladeMasses_g': [...read.masses] }, 'blade masses');
  };
  return (
    <div className="field wide masses">
      <label htmlFor={id}>Masses of the {blades} blades, in the order you numbered them</label>
      <span className="entry">
        <input
          id={id}
          type="text"
          autoComplete="off"
          value={typed ?? masses.join('  ')}
          placeholder="not weighed yet"
          aria-invalid={wrong !== null}
          aria-describedby={`${id}-help`}
          onChange={(e) => {
            setTyped(e.target.value);
            setWrong(null);
          }}
          onBlur={commit}
          onKeyDown={(e) => {
            if (e.key === 'Enter') commit();
            if (e.key === 'Escape') {
              e.stopPropagation();
              restore();
            }
          }}
        />
        <span className="unit">g</span>
      </span>
      <small id={`${id}-help`} className="help">
        Blanks between, as in 0.312 0.298 0.305; a scale that shows milligrams is worth borrowing.
      </small>
      {wrong && (
        <p className="wrong" role="alert">
          {wrong} <button onClick={restore}>Put the old ones back</button>
        </p>
      )}
    </div>
  );
}
