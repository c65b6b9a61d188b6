import { useId } from 'react';
import { catalogue } from '../../project/catalogue.ts';
import { OwnPartsRow } from '../parts/OwnPartsRow.tsx';
import { isOwnKind, useOwnParts } from '../parts/ownParts.ts';
import { edit } from '../state/actions.ts';
import { useApp } from '../state/store.ts';

const LISTS = {
  motor: catalogue.motors,
  controller: catalogue.controllers,
  battery: catalogue.batteries,
  printer: catalogue.printers,
  material: catalogue.materials,
} as const;

/** Before the name of an own part among the ids of generic ones. */
const OWN = 'own: ';

/** Puts a generic part or one of the user's own in place of the one there, as one step for undo; what the old part had besides is kept. */
export function PartPicker({ group }: { readonly group: keyof typeof LISTS }) {
  const id = useId();
  const current = useApp((s) => s.project[group]);
  const list = LISTS[group];
  const mine = useOwnParts((s) => s.parts).filter(({ kind }) => kind === group);
  const chosenOwn = mine.find(({ part }) => same(part, current));
  const chosen = list.find((entry) => same(entry.part, current));
  return (
    <div className="picker">
      <label htmlFor={id}>Start from a generic {group === 'controller' ? 'speed controller' : group}</label>
      <select
        id={id}
        value={chosenOwn ? OWN + chosenOwn.part.name : (chosen?.id ?? '')}
        onChange={(e) => {
          const own = mine.find(({ part }) => OWN + part.name === e.target.value);
          if (own) edit({ [group]: own.part }, `${group} from my parts`);
          const entry = list.find((one) => one.id === e.target.value);
          if (entry) edit({ [group]: { ...current, ...entry.part } }, `${group} from the list`);
        }}
      >
        <option value="" disabled>
          {chosen || chosenOwn ? 'choose' : 'own figures'}
        </option>
        {mine.length > 0 && (
          <optgroup label="My parts">
            {mine.map(({ part }) => (
              <option key={part.name} value={OWN + part.name}>
                {part.name}
              </option>
            ))}
          </optgroup>
        )}
        {list.map((entry) => (
          <option key={entry.id} value={entry.id}>
            {entry.part.name}
          </option>
        ))}
      </select>
      {chosen && !chosenOwn && <small className="help">{chosen.note}</small>}
      {isOwnKind(group) && <OwnPartsRow kind={group} kept={chosenOwn} />}
    </div>
  );
}

function same(part: object, current: object): boolean {
  return Object.entries(part).every(([key, value]) => (current as Record<string, unknown>)[key] === value);
}
