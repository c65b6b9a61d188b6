import type { Assessment } from '../../assess/types.ts';
import { formatNumber } from '../../quantities/format.ts';
import { metresFromMillimetres } from '../../quantities/units.ts';
import type { FanProfiles } from '../../shape/profiles.ts';
import { linePath } from '../charts/scale.ts';
import { whenOf } from '../margin/answers.ts';
import { extentOf, xOf, yOf, type Frame } from './frame.ts';

interface Props {
  readonly assessment: Assessment;
  readonly profiles: FanProfiles;
  readonly frame: Frame;
}

/** Arrows drawn along one profile; the profile itself has an entry an annulus. */
const ARROWS = 7;

/** The air as computed: axial velocity into the rotor by radius, and what leaves at the exit. */
export function AirFlow({ assessment, profiles, frame }: Props) {
  const { layout } = profiles;
  const point = assessment.fan.hover ?? assessment.fan.full;
  const { radius_mm, axialVelocity_mps, exitVelocity_mps, swirlVelocity_mps } = point.annuli;
  const count = radius_mm.length;
  const fastest = Math.max(...axialVelocity_mps.map(Math.abs), ...exitVelocity_mps.map(Math.abs));
  if (count === 0 || !(fastest > 0)) return null;
  const reach = (frame.compact ? 30 : 46) / fastest;
  const radius = radius_mm.map(metresFromMillimetres);
  const front = xOf(frame, Math.min(...profiles.blade.map(([z]) => z))) - 8;
  const inflow = radius.map((r, i) => [front - axialVelocity_mps[i] * reach, yOf(frame, r)] as const);
  const top = yOf(frame, layout.tipRadius);
  const foot = yOf(frame, layout.hubRadius);
  const exitX = xOf(frame, layout.ducted ? layout.exitZ : layout.rotorZ + layout.bladeHalfDepth) + 8;
  const exitRadius = layout.ducted ? layout.exitRadius : layout.tipRadius;
  // The annuli spread evenly by area between the hub's stream and the wall at the exit.
  const spread = (r: number) => {
    const span = (r * r - layout.hubRadius ** 2) / (layout.tipRadius ** 2 - layout.hubRadius ** 2);
    return Math.sqrt(layout.hubRadius ** 2 + span * (exitRadius ** 2 - layout.hubRadius ** 2));
  };
  const outflow = radius.map((r, i) => [exitX + exitVelocity_mps[i] * reach, yOf(frame, spread(r))] as const);
  const picked = Array.from({ length: ARROWS }, (_, k) => Math.round(((k + 0.5) / ARROWS) * count - 0.5));
  const range = (values: readonly number[]) => {
    const low = formatNumber(Math.min(...values), 2);
    const high = formatNumber(Math.max(...values), 2);
    return low === high ? low : `${low} to ${high}`;
  };
  const when = whenOf(assessment);
  const textX = Math.max(exitX - 4, xOf(frame, extentOf(profiles)[1]) + 14);
  return (
    <g className="air">
      <path className="air-fill" d={linePath([[front, foot], ...inflow, [front, top]], true)} />
      <path className="air-line" d={linePath(inflow)} />
      {picked.map((i) => (
        <path
          key={i}
          className="air-line"
          markerEnd="url(#air)"
          d={linePath([inflow[i], [front, inflow[i][1]]])}
        />
      ))}
      <path className="air-line" d={linePath(outflow)} />
      {picked.map((i) => (
        <path
          key={i}
          className="air-line"
          markerEnd="url(#air)"
          d={linePath([[exitX, outflow[i][1]], outflow[i]])}
        />
      ))}
      {!frame.compact && (
        <>
          <text className="soft" x={textX} y={frame.axisY + 24}>
            out {range(exitVelocity_mps)} m/s
          </text>
          <text className="soft" x={textX} y={frame.axisY + 40}>
            swirl up to {formatNumber(Math.max(...swirlVelocity_mps.map(Math.abs)), 2)} m/s
          </text>
        </>
      )}
      <text className="soft" x={12} y={frame.height - 30}>
        air in {range(axialVelocity_mps)} m/s{frame.compact && `, out ${range(exitVelocity_mps)}`}, {when}
      </text>
    </g>
  );
}
