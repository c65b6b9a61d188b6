import type { Help } from '../../assess/types.ts';
import { edit } from '../state/actions.ts';

/** What would help most; each line can be carried out, as one step for undo. */
export function Helps({ helps }: { readonly helps: readonly Help[] }) {
  if (helps.length === 0) return null;
  return (
    <section className="helps" aria-labelledby="helps-title">
      <h3 id="helps-title">What would help most</h3>
      <ol>
        {helps.map((help) => (
          <li key={help.path + help.text}>
            <p>{help.text}</p>
            <button
              aria-label={`Make this change: ${help.text}`}
              onClick={() => edit(help.set, 'suggested change')}
            >
              Do it
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}
