import { useRef } from 'react';
import {
  ownPartFrom,
  readPartsCsv,
  withoutPart,
  withPart,
  type OwnPart,
  type PartKind,
} from '../../project/parts.ts';
import { tell } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import { changeOwnParts } from './ownParts.ts';

const NAMES = { motor: 'motor', battery: 'battery', controller: 'speed controller' } as const;
const MANY = { motor: 'motors', battery: 'batteries', controller: 'speed controllers' } as const;

interface Props {
  readonly kind: PartKind;
  /** The own part that the project has now. */
  readonly kept: OwnPart | undefined;
}

/** Keeps the part of the project among one's own, takes more from a table, and gives one up. */
export function OwnPartsRow({ kind, kept }: Props) {
  const part = useApp((s) => s.project[kind]);
  const picker = useRef<HTMLInputElement>(null);
  const own = ownPartFrom({ kind, part });
  return (
    <div className="parts-foot">
      {kept ? (
        <button onClick={() => void changeOwnParts((list) => withoutPart(list, kept))}>
          Delete this {NAMES[kind]} from my parts
        </button>
      ) : (
        <button
          disabled={!own}
          title="A part of mine with the same name gives way to it."
          onClick={() => own && void changeOwnParts((list) => withPart(list, own))}
        >
          Keep this {NAMES[kind]} among my parts
        </button>
      )}
      <button
        title="A line of names as in the project file (name, mass_g and so on), then a line for each part."
        onClick={() => picker.current?.click()}
      >
        Take {MANY[kind]} from a CSV table
      </button>
      <input
        ref={picker}
        type="file"
        accept=".csv,.txt,text/csv"
        aria-label={`Table of ${MANY[kind]}`}
        hidden
        onChange={(e) => {
          const file = e.target.files?.[0];
          e.target.value = '';
          if (file) void take(kind, file);
        }}
      />
    </div>
  );
}

async function take(kind: PartKind, file: File): Promise<void> {
  let text: string;
  try {
    text = await file.text();
  } catch {
    tell(`"${file.name}" could not be read from the disk; your parts are unchanged.`);
    return;
  }
  const read = readPartsCsv(kind, text);
  if (!read.ok) {
    tell(`"${file.name}" was not taken; your parts are unchanged.`, read.errors);
    return;
  }
  const done = await changeOwnParts((list) => read.parts.reduce(withPart, list));
  if (done) tell(`${read.parts.length} of your ${MANY[kind]} stand in the list now, from "${file.name}".`);
}
