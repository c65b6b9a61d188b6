import type { Project } from '../../project/schema.ts';
import { formatMinutes, formatNumber as n } from '../../quantities/format.ts';
import { levelWords } from '../../sound/words.ts';
import { spreadOf } from '../../study/size-front.ts';
import type { SizeStudy } from '../../study/size-types.ts';
import { takeDesign } from './run.ts';
import { mm, motorLetter } from './SizeMap.tsx';

/** Most designs of the front that are listed. */
const ROWS = 8;

interface Props {
  readonly study: SizeStudy;
  readonly asked: Project;
  readonly stale: boolean;
}

/** What no other design beats at once in minutes, thrust, width and tip speed, each ready for use. */
export function FrontTable({ study, asked, stale }: Props) {
  const { front, motors, batteries } = study;
  const few = spreadOf(front, ROWS);
  if (few.length === 0) return null;
  const name =
    few.length < front.length
      ? `The best of them, ${few.length} of ${front.length} that none beats`
      : 'The best of them';
  return (
    <>
      <h4 className="said-label">{name}</h4>
      <div className="scroll" tabIndex={0} role="region" aria-label="The best of them">
        <table className="stations layouts">
          <caption className="unseen">The best of them</caption>
          <thead>
            <tr>
              <th scope="col">Tips</th>
              <th scope="col">
                <span className="unseen">Use it</span>
              </th>
              <th scope="col">Hover</th>
              <th scope="col">Thrust over weight</th>
              <th scope="col">Duct width</th>
              <th scope="col">Level in hover at 3 m</th>
              <th scope="col">Hub</th>
              <th scope="col">Blades</th>
              <th scope="col">Mass</th>
              {motors.length > 1 && <th scope="col">Motor</th>}
              {batteries.length > 1 && <th scope="col">Battery</th>}
            </tr>
          </thead>
          <tbody>
            {few.map((d, i) => (
              <tr key={i}>
                <th scope="row">{mm(d.tipDiameter_mm)} mm</th>
                <td>
                  <button
                    disabled={stale}
                    aria-label={`Use this one: ${mm(d.tipDiameter_mm)} mm, ${formatMinutes(d.hover_min)}, motor ${motorLetter(d.motor)}`}
                    onClick={() => takeDesign(asked, study, d)}
                  >
                    Use this one
                  </button>
                </td>
                <td>{formatMinutes(d.hover_min)}</td>
                <td>{n(d.thrustToWeight)}</td>
                <td>{n(d.outerWidth_mm)} mm</td>
                <td>{d.level_dBA ? levelWords(d.level_dBA) : 'none'}</td>
                <td>{n(d.hubDiameter_mm)} mm</td>
                <td>{d.bladeCount}</td>
                <td>{n(d.mass_g)} g</td>
                {motors.length > 1 && <td>{motorLetter(d.motor)}</td>}
                {batteries.length > 1 && <td>{d.battery + 1}</td>}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}
