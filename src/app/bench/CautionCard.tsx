import { useState } from 'react';
import { BENCH_CAUTIONS, FIRST_SPIN_UP } from '../../bench/cautions.ts';
import { mind } from './place.ts';

/** The cautions, one tick each, before the entry opens. */
export function CautionCard({ runKey, minded }: { readonly runKey: string; readonly minded: boolean }) {
  const [ticked, tick] = useState<ReadonlySet<string>>(new Set());
  const toggle = (what: string) => {
    const next = new Set(ticked);
    if (!next.delete(what)) next.add(what);
    tick(next);
  };
  const spinUp = (
    <details className="spin-up">
      <summary>The first time this rotor turns</summary>
      <ol>
        {FIRST_SPIN_UP.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ol>
    </details>
  );
  if (minded)
    return (
      <section className="card" aria-labelledby="cautions-title">
        <h3 id="cautions-title">Before every run</h3>
        <p className="caution">
          Once more: {BENCH_CAUTIONS.map(([what]) => what.toLowerCase()).join(', ')}. Look at each again.
          Local rules come first.
        </p>
        {spinUp}
      </section>
    );
  return (
    <section className="card" aria-labelledby="cautions-title">
      <h2 id="cautions-title">Before the fan runs</h2>
      <p className="caution">
        A spinning rotor cuts and can throw a blade; a lithium pack can burn. These are the usual cautions and
        no more: local rules and licensed practice come first. Tick what is done; the entry opens then.
      </p>
      <ul className="ticks">
        {BENCH_CAUTIONS.map(([what, text]) => (
          <li key={what}>
            <label>
              <input type="checkbox" checked={ticked.has(what)} onChange={() => toggle(what)} />
              <span>
                <b>{what}.</b> {text}
              </span>
            </label>
          </li>
        ))}
      </ul>
      {spinUp}
      <div className="bench-buttons">
        <button className="chief" disabled={ticked.size < BENCH_CAUTIONS.length} onClick={() => mind(runKey)}>
          All done: open the entry
        </button>
      </div>
    </section>
  );
}
