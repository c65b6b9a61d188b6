import { NumberField } from '../field/NumberField.tsx';
import { TextField } from '../field/TextField.tsx';
import { edit } from '../state/actions.ts';
import { useApp } from '../state/store.ts';

/** What is aboard besides fans, drive, battery and payload. */
export function FixedMasses() {
  const items = useApp((s) => s.project.craft.fixedMasses);
  return (
    <div>
      <table className="fixed-masses">
        <caption>Aboard, neither printed nor named elsewhere</caption>
        <tbody>
          {items.map((item, i) => (
            <tr key={i}>
              <td>
                <TextField bare path={`craft.fixedMasses.${i}.name`} label={`Name of item ${i + 1}`} />
              </td>
              <td>
                <NumberField bare path={`craft.fixedMasses.${i}.mass_g`} label={`Mass of ${item.name}`} />
              </td>
              <td className="buttons">
                <button
                  aria-label={`Remove ${item.name}`}
                  title="Remove"
                  onClick={() =>
                    edit({ 'craft.fixedMasses': items.filter((_, k) => k !== i) }, 'removed item')
                  }
                >
                  −
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <button
        onClick={() =>
          edit({ 'craft.fixedMasses': [...items, { name: 'new item', mass_g: 0 }] }, 'added item')
        }
      >
        Add an item
      </button>
    </div>
  );
}
