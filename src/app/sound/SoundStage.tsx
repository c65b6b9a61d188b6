import { formatNumber as n } from '../../quantities/format.ts';
import { PARTS, type Sound } from '../../sound/types.ts';
import { PART_NAMES } from '../../sound/words.ts';
import { Said } from '../craft/Said.tsx';
import { NumberField } from '../field/NumberField.tsx';
import { useApp } from '../state/store.ts';
import { CountsCard } from './CountsCard.tsx';
import { RecordingCard } from './RecordingCard.tsx';
import { SpectrumChart } from './SpectrumChart.tsx';
import { VersusCard } from './VersusCard.tsx';

/** A part this far below the whole is not told [dB]. */
const FAR_BELOW_DB = 40;

/** What people nearby will hear: the prediction, counts, a comparison to listen to, and what a recording shows. */
export function SoundStage() {
  const sound = useApp((s) => s.assessment?.sound ?? null);
  return (
    <>
      {sound ? (
        <>
          <LevelCard sound={sound} />
          <ModesCard sound={sound} />
        </>
      ) : (
        <section className="card">
          <p>The sound could not be worked out for this project.</p>
        </section>
      )}
      <VersusCard />
      <CountsCard />
      <RecordingCard />
    </>
  );
}

function LevelCard({ sound }: { readonly sound: Sound }) {
  const at = sound.hover ?? sound.full;
  const [first, ...rest] = sound.words;
  const place = `${sound.hover ? 'in hover' : 'at full throttle'}, ${sound.distance_m} m away over hard ground`;
  const parts = PARTS.filter((p) => at.parts_dBA[p] > at.overall_dBA.value - FAR_BELOW_DB).toSorted(
    (a, b) => at.parts_dBA[b] - at.parts_dBA[a],
  );
  return (
    <section className="card sound" aria-labelledby="sound-title">
      <h2 id="sound-title">
        Sound <em>{place}</em>
      </h2>
      <p className={sound.wish?.holds === 'no' ? 'verdict-strength stop' : 'verdict-strength'} role="status">
        {first}
      </p>
      <div className="sound-views">
        <SpectrumChart at={at} place={place} />
        <div>
          <table className="figure-table">
            <caption>What makes it, each alone</caption>
            <thead>
              <tr>
                <th scope="col">Source</th>
                <th scope="col">dB(A)</th>
              </tr>
            </thead>
            <tbody>
              {parts.map((part) => (
                <tr key={part}>
                  <th scope="row">{PART_NAMES[part]}</th>
                  <td>{Math.round(at.parts_dBA[part])}</td>
                </tr>
              ))}
              <tr aria-current="true">
                <th scope="row">all together</th>
                <td>{Math.round(at.overall_dBA.value)}</td>
              </tr>
            </tbody>
          </table>
          <div className="form">
            <NumberField path="brief.noiseWish_dBA" />
          </div>
        </div>
      </div>
      <Said texts={rest} />
      <ul className="caution">
        {sound.cautions.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </section>
  );
}

function ModesCard({ sound: { modes } }: { readonly sound: Sound }) {
  if (modes.length === 0) return null;
  return (
    <section className="card" aria-labelledby="modes-title">
      <h3 id="modes-title">
        What the duct lets out <em>patterns of pressure that spin in it, up to three times blade passing</em>
      </h3>
      <div className="scroll" tabIndex={0} role="region" aria-label="Patterns in the duct">
        <table className="figure-table modes">
          <thead>
            <tr>
              <th scope="col">Pattern</th>
              <th scope="col">Hz</th>
              <th scope="col">Lobes</th>
              <th scope="col">In the duct</th>
              <th scope="col">
                Taken off <small>dB</small>
              </th>
            </tr>
          </thead>
          <tbody>
            {modes.map((m) => (
              <tr
                key={`${m.harmonic}/${m.vaneTurns}`}
                className={m.cutOn && m.vaneTurns !== null ? 'travels' : ''}
              >
                <th scope="row">
                  {m.harmonic} × blades{m.vaneTurns === null ? ', rotor alone' : `, with the vanes`}
                </th>
                <td>{n(m.frequency_Hz, 3)}</td>
                <td>{String(m.lobes).replace('-', '−')}</td>
                <td>
                  {m.cutOnRatio === null
                    ? 'plane wave, travels'
                    : m.cutOn
                      ? 'cut on, travels'
                      : `cut off, at ${n(m.cutOnRatio, 2)} of cut-on`}
                </td>
                <td>{m.lost_dB < 0.05 ? '0' : n(m.lost_dB, 2)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="help">
        A pattern with many lobes at a low frequency dies out before it reaches the rim; one with few lobes
        gets out. Lobes below nought turn against the rotor.
      </p>
    </section>
  );
}
