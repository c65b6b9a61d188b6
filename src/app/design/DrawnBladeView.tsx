import type { Project } from '../../project/schema.ts';
import { formatNumber as n, formatPercent } from '../../quantities/format.ts';
import { edit } from '../state/actions.ts';
import type { DrawnBlade } from '../worker/study.ts';
import { BeforeAfter } from './BeforeAfter.tsx';
import { StationList } from './StationList.tsx';

interface Props {
  readonly blade: Extract<DrawnBlade, { ok: true }>;
  /** The project it was drawn for. */
  readonly asked: Project;
  readonly project: Project;
}

/** The drawn blade beside the one in hand, and the button that puts it in. */
export function DrawnBladeView({ blade, asked, project }: Props) {
  const used = project.fan === blade.fan;
  const stale = !used && project !== asked;
  const throttle =
    blade.throttle === null ? 'which no throttle gives' : `${formatPercent(blade.throttle)} throttle`;
  return (
    <section className="drawn" aria-labelledby="drawn-title">
      <h4 id="drawn-title">
        {blade.fan.bladeCount} blades for {n(blade.thrust_N)} N at {n(blade.rpm)} rpm, {throttle}
      </h4>
      <div className="drawn-tables">
        <BeforeAfter before={blade.before} after={blade.after} />
        <StationList fan={blade.fan} />
      </div>
      {blade.notes.length > 0 && (
        <>
          <h4>To mind</h4>
          <ul>
            {blade.notes.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </>
      )}
      <p className="parts-foot">
        <button
          className="chief"
          disabled={used || stale}
          onClick={() => edit({ fan: blade.fan }, 'drawn blade')}
        >
          Use this blade
        </button>
        {used && 'This blade is in the fan now; Undo brings the old one back.'}
        {stale && 'The project has changed since this blade was drawn; draw it again to use it.'}
      </p>
    </section>
  );
}
