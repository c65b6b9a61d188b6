import { useState } from 'react';
import type { Project } from '../../project/schema.ts';
import { tell } from '../state/actions.ts';
import { download } from '../state/files.ts';
import type { PartFacts } from '../view3d/solids.ts';
import type { StepAnswer, StepAsked } from './step.worker.ts';

interface Props {
  readonly project: Project;
  readonly base: string;
  readonly ready: boolean;
  readonly parts: readonly Pick<PartFacts, 'id' | 'name'>[];
}

/** Files for other programs: exact solids, and the drawing of one fan. */
export function MoreFiles({ project, base, ready, parts }: Props) {
  const [said, setSaid] = useState<string | null>(null);
  const [chosen, setChosen] = useState('');
  const part = parts.find(({ id }) => id === chosen) ?? null;
  const step = () => {
    setSaid('Loading the kernel of exact solids, 23 MB …');
    // A worker of its own that ends with the file: its kernel is large and seldom wanted.
    const worker = new Worker(new URL('./step.worker.ts', import.meta.url), { type: 'module' });
    const end = () => {
      worker.terminate();
      setSaid(null);
    };
    worker.onerror = () => {
      end();
      tell('The STEP file was not written: the kernel of exact solids stopped. The design is unchanged.');
    };
    worker.onmessage = ({ data }: MessageEvent<StepAnswer>) => {
      if (data.kind === 'done') {
        setSaid(`Building exact solids, ${Math.round(100 * data.done_ratio)} % …`);
        return;
      }
      end();
      if (data.kind === 'refused') tell('The STEP file was not written.', data.why);
      else {
        download(`${base}-${part?.id ?? 'assembly'}.step`, data.bytes, 'model/step');
        if (data.missing.length) tell('The STEP file lacks some parts.', data.missing);
      }
    };
    const asked: StepAsked = { project, partId: part?.id ?? null };
    worker.postMessage(asked);
  };
  const draw = async (kind: 'svg' | 'pdf') => {
    const { fanDrawing } = await import('../../make/drawing/fan.ts');
    const sheet = fanDrawing(project);
    if (kind === 'svg') {
      const { writeSvg } = await import('../../make/drawing/svg.ts');
      download(`${base}-drawing.svg`, writeSvg(sheet), 'image/svg+xml');
    } else {
      const { writePdf } = await import('../../make/drawing/pdf.ts');
      download(`${base}-drawing.pdf`, new Uint8Array(writePdf(sheet)), 'application/pdf');
    }
  };
  return (
    <p className="parts-foot">
      <button disabled={!ready || said !== null} onClick={step}>
        Save {part ? part.name : 'the assembly'} as STEP
      </button>
      <select
        aria-label="What the STEP file holds"
        value={part?.id ?? ''}
        onChange={(e) => setChosen(e.target.value)}
      >
        <option value="">the assembly</option>
        {parts.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </select>
      <button disabled={!ready} onClick={() => void draw('svg')}>
        Save the drawing as SVG
      </button>
      <button disabled={!ready} onClick={() => void draw('pdf')}>
        Save the drawing as PDF
      </button>
      <span role="status">{said}</span>
    </p>
  );
}
