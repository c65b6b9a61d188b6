import type { BenchCard } from '../../balance/card.ts';

/** What to do at the bench, in order, with blanks. */
export function BenchCardView({ card }: { readonly card: BenchCard }) {
  return (
    <section className="card folded" aria-labelledby="bench-card-title">
      <details>
        <summary>
          <h3 id="bench-card-title">
            Card for the bench <em>cautions, and the work in its order</em>
          </h3>
        </summary>
        <div className="bench-card">
          {card.cautions.map((text) => (
            <p className="caution" key={text}>
              {text}
            </p>
          ))}
          <ol>
            {card.steps.map(({ text, blanks }) => (
              <li key={text}>
                {text}
                {blanks.length > 0 && (
                  <span className="blanks">
                    {blanks.map((blank) => (
                      <span key={blank}>{blank}</span>
                    ))}
                  </span>
                )}
              </li>
            ))}
          </ol>
        </div>
      </details>
    </section>
  );
}
