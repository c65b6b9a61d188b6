import type { Project } from '../../project/schema.ts';
import type { Proposal } from '../../study/propose.ts';
import { takeNew } from './takeNew.ts';

/** The proposed fan and why it, or why there is none. */
export function ProposalView({ proposal }: { readonly proposal: Proposal }) {
  const next: Project | null = proposal.ok ? proposal.project : proposal.closest;
  return (
    <section className="proposal" aria-labelledby="proposal-title" aria-live="polite">
      <h3 id="proposal-title">
        {proposal.ok ? 'This fan closes' : 'No fan closes'} <em>out of {proposal.tried} tried</em>
      </h3>
      <ul>
        {proposal.why.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {next && (
        <button type="button" className={proposal.ok ? 'chief' : undefined} onClick={() => takeNew(next)}>
          {proposal.ok ? 'Take this design' : 'Go on from the closest one'}
        </button>
      )}
    </section>
  );
}
