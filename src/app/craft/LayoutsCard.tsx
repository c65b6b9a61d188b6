import { formatMinutes, formatNumber as n } from '../../quantities/format.ts';
import type { Project } from '../../project/schema.ts';
import { craftInStand, type StandResult } from '../../study/layouts.ts';
import { edit } from '../state/actions.ts';

interface Props {
  /** What the stands were reckoned for. */
  readonly asked: Project;
  readonly stands: readonly StandResult[];
  readonly stale: boolean;
}

const NAMES = { ring: 'in a ring', row: 'in a row', 'two rows': 'in two rows' } as const;

/** The same fans, motor, battery and payload in other layouts, side by side. */
export function LayoutsCard({ asked, stands, stale }: Props) {
  return (
    <section className="card" aria-labelledby="layouts-title">
      <h3 id="layouts-title">
        Other layouts <em>the same fan, battery and payload</em>
      </h3>
      <div
        className={stale ? 'scroll stale' : 'scroll'}
        tabIndex={0}
        role="region"
        aria-label="Layouts side by side"
      >
        <table className="stations layouts">
          <caption className="unseen">Layouts side by side</caption>
          <thead>
            <tr>
              <th scope="col">Layout</th>
              <th scope="col">
                <span className="unseen">Use it</span>
              </th>
              <th scope="col">Mass</th>
              <th scope="col">Thrust over weight</th>
              <th scope="col">Hover</th>
              <th scope="col">Climb</th>
              <th scope="col">Long × wide, mm</th>
              <th scope="col">Roll, pitch, rad/s²</th>
              <th scope="col">On the bed</th>
            </tr>
          </thead>
          <tbody>
            {stands.map((s, i) => (
              <Row key={i} asked={asked} stand={s} present={i === 0} stale={stale} />
            ))}
          </tbody>
        </table>
      </div>
      <p className="layout-note">
        On the bed: all ducts printed as one piece. The mass holds an estimate of the arms, as much heavier or
        lighter than yours as the layout asks. Using a layout writes number, layout, gap and lean of the fans,
        and that difference into your item for frame or arms under Make-up (a new item where there is none):
        weigh the frame you build and enter its mass. Cutting the battery in pieces between the fans is shown
        for comparison; the project keeps one battery.
      </p>
    </section>
  );
}

interface RowProps {
  readonly asked: Project;
  readonly stand: StandResult;
  readonly present: boolean;
  readonly stale: boolean;
}

function Row({ asked, stand, present, stale }: RowProps) {
  const { fanCount, layout, battery, ductSpacing_mm, tilt_deg, acceleration_radps2: a, without } = stand;
  const { craft } = asked;
  const otherwise =
    (ductSpacing_mm === craft.ductSpacing_mm ? '' : `, rims ${n(ductSpacing_mm)} mm apart`) +
    (tilt_deg === craft.tilt_deg ? '' : tilt_deg === 0 ? ', upright' : `, leaning ${n(tilt_deg, 2)}°`);
  const name =
    fanCount === 1
      ? '1 fan'
      : `${fanCount} ${NAMES[layout]}${battery === 'between' ? ', battery between' : ''}${otherwise}`;
  const lifts = stand.hover_min > 0;
  const turning = (axis: 'roll' | 'pitch') => (without.includes(axis) || !lifts ? 'none' : n(a[axis], 2));
  return (
    <tr className={present ? 'present' : undefined} title={stand.words}>
      <th scope="row">{name}</th>
      <td>
        {present ? (
          'now'
        ) : battery === 'middle' ? (
          <button
            disabled={stale}
            aria-label={`Use this layout: ${name}`}
            onClick={() => edit({ craft: craftInStand(asked, stand) }, 'layout')}
          >
            Use
          </button>
        ) : (
          ''
        )}
      </td>
      <td>{n(stand.mass_g)} g</td>
      <td>{n(stand.thrustToWeight)}</td>
      <td>{lifts ? formatMinutes(stand.hover_min) : 'does not lift'}</td>
      <td>{lifts ? `${n(stand.climb_mps, 2)} m/s` : 'none'}</td>
      <td>
        {n(stand.length_mm)} × {n(stand.width_mm)}
      </td>
      <td>
        {turning('roll')}, {turning('pitch')}
      </td>
      <td>{stand.onePieceFits ? 'fits' : 'too large'}</td>
    </tr>
  );
}
