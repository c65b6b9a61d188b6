import { useId } from 'react';
import type { PartPrint } from '../../make/layers/set.ts';
import { downInWords, lieSentences } from '../../make/layers/set-words.ts';
import type { Finding } from '../../make/layers/types.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import { chosenDown } from '../../shape/lies.ts';
import { LineChart } from '../charts/LineChart.tsx';
import { useApp } from '../state/store.ts';
import { LayerDrawing } from './LayerDrawing.tsx';
import { chooseLayer, choosePart, layPart, useLayers } from './layersRun.ts';

interface Props {
  readonly part: PartPrint;
  readonly parts: readonly PartPrint[];
  readonly stale: boolean;
}

const WEIGHT: Record<Finding['weight'], string> = { stop: 'Stop', care: 'Mind', note: 'Note' };

/** One part of the set: its layers to look through, what was found in them, and how it may lie. */
export function PartLayers({ part, parts, stale }: Props) {
  const id = useId();
  const { layer, picture, boxes } = useLayers();
  const { layers, findings, layer_mm } = part.check;
  const here = layers[Math.min(layer, layers.length - 1)];
  const shown = picture?.part === part.id ? picture.picture : null;
  const show = (finding: Finding) => {
    const middle = Math.floor((finding.from_mm + finding.to_mm) / 2 / layer_mm);
    chooseLayer(Math.min(layers.length - 1, Math.max(0, middle)));
  };
  return (
    <>
      <p className="parts-foot">
        <label htmlFor={`${id}-part`}>Part</label>
        <select id={`${id}-part`} value={part.id} onChange={(e) => choosePart(e.target.value)}>
          {parts.map((p) => (
            <option key={p.id} value={p.id}>
              {p.name}
            </option>
          ))}
        </select>
      </p>
      <div className="layer-views">
        <div>
          {boxes[part.id] && <LayerDrawing picture={shown} box={boxes[part.id]} part={part.name} />}
          <label className="span-choice">
            bed
            <input
              type="range"
              min={0}
              max={layers.length - 1}
              step={1}
              value={Math.min(layer, layers.length - 1)}
              aria-label="Layer, from the bed up"
              aria-valuetext={`layer ${layer + 1} of ${layers.length}, ${n(here.z_mm)} mm high`}
              onChange={(e) => chooseLayer(Number(e.target.value))}
            />
            top
          </label>
          <p className="facts">
            Layer {layer + 1} of {layers.length}, {n(here.z_mm)} mm high: {n(here.area_mm2)} mm² of material
            {here.lost_mm2 > 0.005 ? `, ${n(here.lost_mm2, 2)} mm² lost` : ''}
            {here.unsupported_mm2 > 0.005 ? `, ${n(here.unsupported_mm2, 2)} mm² unsupported` : ''}.
          </p>
        </div>
        <LineChart
          story={`Area of each layer of the ${part.name}, up to ${n(Math.max(...layers.map((l) => l.area_mm2)))} mm².`}
          caption="Area of each layer"
          xName="height, mm"
          yName="mm²"
          from={0}
          to={layers[layers.length - 1].z_mm}
          lines={[{ points: layers.map((l) => [l.z_mm, l.area_mm2] as const) }]}
          spots={[{ x: here.z_mm, y: here.area_mm2, words: '' }]}
        />
      </div>
      <h3>What was found</h3>
      {findings.length === 0 ? (
        <p>It prints without a remark.</p>
      ) : (
        <ul className="layer-findings">
          {findings.map((finding) => (
            <li key={finding.text} data-weight={finding.weight}>
              <button onClick={() => show(finding)} aria-label={`Show the layer: ${finding.text}`}>
                Show
              </button>
              <span>
                <b>{WEIGHT[finding.weight]}.</b> {finding.text}
              </span>
            </li>
          ))}
        </ul>
      )}
      <Ways part={part} stale={stale} />
    </>
  );
}

/** How the part may lie, best first, with the reason. */
function Ways({ part, stale }: { readonly part: PartPrint; readonly stale: boolean }) {
  const fan = useApp((s) => s.project.fan);
  const laid = chosenDown(fan, part.kind) !== null;
  return (
    <>
      <h3>How it lies on the bed</h3>
      {lieSentences(part).map((text) => (
        <p key={text}>{text}</p>
      ))}
      <div className="scroll" tabIndex={0} role="region" aria-label="Ways to lay the part">
        <table className="figure-table ways">
          <thead>
            <tr>
              <th scope="col">Way to lie</th>
              <th scope="col">Score, low is good</th>
              <td />
              <th scope="col">Why</th>
            </tr>
          </thead>
          <tbody>
            {part.ways.map((way) => {
              const words = downInWords(way, part.kind);
              const present = way.down[2] < -0.9998;
              return (
                <tr key={way.down.join()} aria-current={present ? 'true' : undefined}>
                  <th scope="row">{words}</th>
                  <td>{n(way.cost, 2)}</td>
                  <td>
                    {present ? (
                      'as it lies'
                    ) : (
                      <button
                        disabled={stale}
                        aria-label={`Lay the ${part.name} ${words}`}
                        onClick={() => layPart(part, way.inFan)}
                      >
                        Lay it so
                      </button>
                    )}
                  </td>
                  <td>{way.words}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
      {laid && (
        <p className="parts-foot">
          <button onClick={() => layPart(part, null)}>Lay it as usual again</button>
        </p>
      )}
    </>
  );
}
