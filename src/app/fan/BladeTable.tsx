import type { BladeStation, Project } from '../../project/schema.ts';
import { NumberField } from '../field/NumberField.tsx';
import { edit } from '../state/actions.ts';

const COLUMNS = [
  ['span_ratio', 'Place', '0 hub, 1 tip'],
  ['chord_mm', 'Chord', 'mm'],
  ['angle_deg', 'Angle', 'to the disc'],
  ['thickness_ratio', 'Thickness', 'over chord'],
  ['camber_ratio', 'Camber', 'over chord'],
] as const;

const MOST_STATIONS = 40;

/** The blade as its stations give it; between them it runs smoothly. */
export function BladeTable({ project }: { readonly project: Project }) {
  const { blade, hubDiameter_mm, tipDiameter_mm } = project.fan;
  return (
    <section className="card" aria-labelledby="blade-table">
      <h3 id="blade-table">
        Blade stations <em>from hub to tip; the blade runs smoothly between them</em>
      </h3>
      <div className="scroll" tabIndex={0} role="region" aria-label="Blade stations">
        <table className="stations">
          <thead>
            <tr>
              <th scope="col">
                Radius <small>mm</small>
              </th>
              {COLUMNS.map(([key, name, unit]) => (
                <th key={key} scope="col">
                  {name} <small>{unit}</small>
                </th>
              ))}
              <th scope="col">
                <span className="unseen">Add or remove</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {blade.map((station, i) => (
              <tr key={i}>
                <th scope="row">
                  {((hubDiameter_mm + station.span_ratio * (tipDiameter_mm - hubDiameter_mm)) / 2).toFixed(1)}
                </th>
                {COLUMNS.map(([key, name]) => (
                  <td key={key}>
                    <NumberField bare path={`fan.blade.${i}.${key}`} label={`${name}, station ${i + 1}`} />
                  </td>
                ))}
                <td className="buttons">
                  <button
                    title="Add a station after this one"
                    aria-label={`Add a station after station ${i + 1}`}
                    disabled={blade.length >= MOST_STATIONS}
                    onClick={() => edit({ 'fan.blade': inserted(blade, i) }, 'added station')}
                  >
                    +
                  </button>
                  <button
                    title="Remove this station"
                    aria-label={`Remove station ${i + 1}`}
                    disabled={blade.length === 1}
                    onClick={() => edit({ 'fan.blade': blade.filter((_, k) => k !== i) }, 'removed station')}
                  >
                    −
                  </button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

/** A station half-way to the next one (or to the one before, after the last), with values half-way too. */
function inserted(blade: readonly BladeStation[], i: number): readonly BladeStation[] {
  const next = blade[i + 1];
  const other = next ?? blade[i - 1] ?? { ...blade[i], span_ratio: blade[i].span_ratio < 0.5 ? 1 : 0 };
  const middle = (key: (typeof COLUMNS)[number][0]) => Number(((blade[i][key] + other[key]) / 2).toFixed(4));
  const station: BladeStation = {
    span_ratio: middle('span_ratio'),
    chord_mm: middle('chord_mm'),
    angle_deg: middle('angle_deg'),
    thickness_ratio: middle('thickness_ratio'),
    camber_ratio: middle('camber_ratio'),
  };
  const at = next ? i + 1 : i;
  return [...blade.slice(0, at), station, ...blade.slice(at)];
}
