import type { DuctFlowAnswer } from '../../assess/lip-flow.ts';
import { formatNumber as n, formatPercent } from '../../quantities/format.ts';

/** The numbers of the flow, side by side with what the annuli say. */
export function EntryFigures({ answer }: { readonly answer: DuctFlowAnswer }) {
  const { ductShare, ductShareByAnnuli, lipThrust_N, momentumGap, lip } = answer;
  const apart = 100 * (ductShare - ductShareByAnnuli);
  const rows: readonly (readonly [string, string])[] = [
    ['Duct, by surface pressure', `${formatPercent(ductShare)} of thrust`],
    ['Duct, by momentum in the annuli', `${formatPercent(ductShareByAnnuli)} of thrust`],
    ['Difference', `${apart > 0 ? '+' : ''}${n(apart, 2)} points`],
    ['Own error of this flow', `${formatPercent(Math.abs(momentumGap), 1)} of thrust`],
    ['Forward pull of the lip', `${n(lipThrust_N)} N`],
    ['Air lets go at', lip.angle_deg === null ? 'nowhere' : `${n(lip.angle_deg, 2)}° round the lip`],
    ['Bore then filled', formatPercent(lip.fill)],
  ];
  return (
    <dl className="figures">
      {rows.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
