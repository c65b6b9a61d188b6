import type { PartPrint } from '../../make/layers/set.ts';
import { hoursInWords, setSentences } from '../../make/layers/set-words.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import { Said } from '../craft/Said.tsx';
import { useApp } from '../state/store.ts';
import { compareWays, readLayers, stillReads, stopReading, useLayers } from './layersRun.ts';
import { PartLayers } from './PartLayers.tsx';

/** Every part read layer by layer before it is printed; material and time of the whole set. */
export function LayersCard() {
  const project = useApp((s) => s.project);
  const { state, at, done, doing, why, asked, set, part, divisions } = useLayers();
  const working = state === 'working';
  const stale = asked !== null && !stillReads(asked, project);
  const chosen = set?.parts.find(({ id }) => id === part);
  return (
    <section className="card layers" aria-labelledby="layers-title" aria-busy={working}>
      <h2 id="layers-title">Layer by layer</h2>
      <p className="parts-foot">
        {working ? (
          <button onClick={stopReading}>Stop</button>
        ) : (
          <button className="chief" onClick={readLayers}>
            {set ? 'Read the layers again' : 'Read the layers'}
          </button>
        )}
        <button disabled={working} onClick={compareWays}>
          Compare ways to divide it
        </button>
        {working && <progress aria-label={at === 'set' ? 'Layers read' : 'Ways made'} value={done} max={1} />}
        <span role="status">
          {working
            ? doing && `${at === 'set' ? 'Reading' : 'Making'} ${doing}`
            : state === 'failed'
              ? why.length > 0
                ? 'Nothing was read:'
                : 'The layers could not be read; the design is as it was.'
              : state === 'stopped'
                ? 'Stopped; nothing of this reading is kept.'
                : stale
                  ? 'The design or its printer changed since: read it again.'
                  : ''}
        </span>
      </p>
      {why.length > 0 && (
        <ul className="faults">
          {why.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      {set && asked && chosen && (
        <div className={stale || working ? 'stale' : undefined}>
          <PartLayers part={chosen} parts={set.parts} stale={stale || working} />
          <h3>Material and time</h3>
          <SetTable parts={set.parts} priced={asked.material.pricePerKg > 0} />
          {setSentences(set, asked.printer, asked.material).map((text) => (
            <p key={text}>{text}</p>
          ))}
        </div>
      )}
      {divisions && (
        <div className={`ways-to-divide ${stillReads(divisions.asked, project) ? '' : 'stale'}`}>
          <Said
            label="Ways to divide it"
            texts={[
              ...divisions.answer.words,
              ...divisions.answer.refused.map(
                ({ name, why: reason }) =>
                  `${name[0].toUpperCase()}${name.slice(1)}: cannot be built. ${reason}`,
              ),
            ]}
          />
        </div>
      )}
    </section>
  );
}

function SetTable({ parts, priced }: { readonly parts: readonly PartPrint[]; readonly priced: boolean }) {
  return (
    <div className="scroll" tabIndex={0} role="region" aria-label="Material and time of each part">
      <table className="figure-table">
        <thead>
          <tr>
            <th scope="col">Part</th>
            <th scope="col">Pieces</th>
            <th scope="col">
              Each <small>g</small>
            </th>
            <th scope="col">Time of one</th>
            {priced && <th scope="col">Price of one</th>}
            <th scope="col">
              Bed contact <small>mm²</small>
            </th>
            <th scope="col">
              Overhang <small>mm²</small>
            </th>
            <th scope="col">
              of it on air faces <small>mm²</small>
            </th>
          </tr>
        </thead>
        <tbody>
          {parts.map(({ id, name, quantity, print, price, check }) => (
            <tr key={id}>
              <th scope="row">{name}</th>
              <td>{quantity}</td>
              <td>{n(print.mass_g)}</td>
              <td>{hoursInWords(print.time_h)}</td>
              {priced && <td>{price.toFixed(2)}</td>}
              <td>{n(check.contact_mm2)}</td>
              <td>{n(check.overhang_mm2)}</td>
              <td>{n(check.overhangAerodynamic_mm2)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
