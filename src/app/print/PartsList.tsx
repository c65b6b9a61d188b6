import { useState } from 'react';
import type { Project } from '../../project/schema.ts';
import { formatNumber } from '../../quantities/format.ts';
import { tell } from '../state/actions.ts';
import { download, fileName } from '../state/files.ts';
import { useApp } from '../state/store.ts';
import type { PartFacts, PartFile } from '../view3d/solids.ts';
import { askSolids } from '../view3d/solidsClient.ts';
import { MoreFiles } from './MoreFiles.tsx';
import { useParts } from './useParts.ts';

/** What is printed, how many of each, and the files for the printer. */
export function PartsList() {
  const project = useApp((s) => s.project);
  const { of, parts, why } = useParts(project);
  const [writing, setWriting] = useState<string | null>(null);
  const current = of === project;
  const save = async (wanted: PartFile, name: string, type: string) => {
    setWriting(name);
    try {
      const answer = await askSolids((worker) => worker.file(project, wanted));
      if (answer.ok) download(name, answer.bytes, type);
      else tell('The file was not written.', answer.why);
    } catch {
      tell('The file was not written: the solid kernel stopped. Try again; the design is unchanged.');
    } finally {
      setWriting(null);
    }
  };
  const base = fileName(project.name);
  const saveBeds = async () => {
    setWriting('3MF');
    try {
      const answer = await askSolids((worker) => worker.beds(project, base));
      if (answer.ok) for (const { name, bytes } of answer.files) download(name, bytes, 'model/3mf');
      else tell('The 3MF was not written.', answer.why);
    } catch {
      tell('The 3MF was not written: the solid kernel stopped. Try again; the design is unchanged.');
    } finally {
      setWriting(null);
    }
  };
  const busy = writing !== null || !current;
  return (
    <section className="card" aria-labelledby="parts-title">
      <h2 id="parts-title">Parts to print</h2>
      {why.length > 0 && (
        <ul className="faults">
          {why.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      {parts.length > 0 && (
        <div className="scroll" tabIndex={0} role="region" aria-label="Parts to print">
          <table className="parts-table">
            <thead>
              <tr>
                <th scope="col">Part</th>
                <th scope="col">File</th>
                <th scope="col">Number</th>
                <th scope="col">Volume</th>
                <th scope="col">Mass</th>
                <th scope="col">Size on the bed</th>
                <th scope="col">Triangles</th>
              </tr>
            </thead>
            <tbody>
              {parts.map((part) => (
                <tr key={part.id}>
                  <th scope="row">
                    {part.name}
                    {tooLarge(part, project) && <small className="wrong">{tooLarge(part, project)}</small>}
                  </th>
                  <td>
                    <button
                      disabled={busy}
                      aria-label={`Save STL of ${part.name}`}
                      onClick={() =>
                        void save({ format: 'stl', partId: part.id }, `${base}-${part.id}.stl`, 'model/stl')
                      }
                    >
                      STL
                    </button>
                  </td>
                  <td>{part.quantity}</td>
                  <td>{formatNumber(part.volume_m3 * 1e6)} cm³</td>
                  <td>{formatNumber(part.mass_g)} g</td>
                  <td>{part.size_mm.map((s) => s.toFixed(1)).join(' × ')} mm</td>
                  <td>{formatNumber(part.triangles)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      <p className="parts-foot">
        <button className="chief" disabled={busy || parts.length === 0} onClick={() => void saveBeds()}>
          Save all parts as 3MF, one file a bed
        </button>
        <span role="status">
          {writing
            ? `Writing ${writing} …`
            : !current
              ? 'Making the parts …'
              : 'Millimetres; every part closed and as it lies on the bed.'}
        </span>
      </p>
      <MoreFiles project={project} base={base} ready={!busy && parts.length > 0} parts={parts} />
      <p className="caution">
        Neighbouring rotors turn opposite ways: print each hand as often as the list says. A printed rotor can
        burst. Look each one over for cracks and loose layers, balance it, and run it the first time behind a
        shield, with eye protection and nobody in the plane of the blades.
      </p>
    </section>
  );
}

function tooLarge({ size_mm: [x, y, z] }: PartFacts, { printer }: Project): string | null {
  const lies = (a: number, b: number) => a <= printer.bedX_mm && b <= printer.bedY_mm;
  if ((lies(x, y) || lies(y, x)) && z <= printer.bedZ_mm) return null;
  return `Larger than the ${printer.bedX_mm} × ${printer.bedY_mm} × ${printer.bedZ_mm} mm the printer takes.`;
}
