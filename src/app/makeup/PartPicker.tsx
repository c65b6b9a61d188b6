import { useId } from 'react';
import { catalogue } from '../../project/catalogue.ts';
import { edit } from '../state/actions.ts';
import { useApp } from '../state/store.ts';

const LISTS = {
  motor: catalogue.motors,
  controller: catalogue.controllers,
  battery: catalogue.batteries,
  printer: catalogue.printers,
  material: catalogue.materials,
} as const;

/** Puts a generic part in place of the one there, as one step for undo; what the old part had besides is kept. */
export function PartPicker({ group }: { readonly group: keyof typeof LISTS }) {
  const id = useId();
  const current = useApp((s) => s.project[group]);
  const list = LISTS[group];
  const chosen = list.find((entry) => same(entry.part, current));
  return (
    <div className="picker">
      <label htmlFor={id}>Start from a generic {group === 'controller' ? 'speed controller' : group}</label>
      <select
        id={id}
        value={chosen?.id ?? ''}
        onChange={(e) => {
          const entry = list.find((one) => one.id === e.target.value);
          if (entry) edit({ [group]: { ...current, ...entry.part } }, `${group} from the list`);
        }}
      >
        <option value="" disabled>
          {chosen ? 'choose' : 'own figures'}
        </option>
        {list.map((entry) => (
          <option key={entry.id} value={entry.id}>
            {entry.part.name}
          </option>
        ))}
      </select>
      {chosen && <small className="help">{chosen.note}</small>}
    </div>
  );
}

function same(part: object, current: object): boolean {
  return Object.entries(part).every(([key, value]) => (current as Record<string, unknown>)[key] === value);
}
