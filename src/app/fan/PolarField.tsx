import { useRef } from 'react';
import { describePath } from '../../project/path.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import { edit, tell } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import { polarFromCsv, type MeasuredPolar } from './polarFile.ts';

const PATH = 'fan.section.polar';

/** Measured lift and drag of the blade section, taken from a file and given up again. */
export function PolarField() {
  const polar = useApp((s) => s.project.fan.section.polar);
  const picker = useRef<HTMLInputElement>(null);
  return (
    <div className="field wide" role="group" aria-labelledby="polar-name">
      <span id="polar-name" className="name">
        Measured lift and drag
      </span>
      <span className="entry">
        <button onClick={() => picker.current?.click()}>
          {polar ? 'Another table' : 'Take a CSV table'}
        </button>
        {polar && <button onClick={() => edit({ [PATH]: null }, 'measured polar given up')}>Give up</button>}
      </span>
      <input
        ref={picker}
        type="file"
        accept=".csv,.txt,text/csv"
        aria-label="Table of measured lift and drag"
        hidden
        onChange={(e) => {
          const file = e.target.files?.[0];
          e.target.value = '';
          if (file) void take(file);
        }}
      />
      <small className="help">
        {polar ? saying(polar) : 'None; columns Re, alpha in degrees, Cl and Cd.'} {describePath(PATH)?.help}
      </small>
    </div>
  );
}

function saying(polar: MeasuredPolar): string {
  const re = polar.map((p) => p.re);
  const [low, high] = [Math.min(...re), Math.max(...re)];
  const range = low === high ? `Re ${n(low)}` : `Re ${n(low)} to ${n(high)}`;
  return `${polar.length} points, ${range}, in use.`;
}

async function take(file: File): Promise<void> {
  let text: string;
  try {
    text = await file.text();
  } catch {
    tell(`"${file.name}" could not be read from the disk; the section is unchanged.`);
    return;
  }
  const read = polarFromCsv(text);
  if (read.ok) edit({ [PATH]: read.polar }, `measured polar from ${file.name}`);
  else tell(`"${file.name}" was not taken; the section is unchanged.`, [read.why]);
}
