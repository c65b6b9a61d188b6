import { useState } from 'react';
import type { Assessment } from '../../assess/types.ts';
import type { Project } from '../../project/schema.ts';
import { fanProfiles, type Profile } from '../../shape/profiles.ts';
import { linePath } from '../charts/scale.ts';
import { useSize } from '../frame/useSize.ts';
import { AirFlow } from './AirFlow.tsx';
import { DimensionEditor } from './DimensionEditor.tsx';
import { DimensionMark } from './DimensionMark.tsx';
import { dimensionsOf } from './dimensions.ts';
import { LimitMarks } from './LimitMarks.tsx';
import { extentOf, fitFrame, scaleInWords, xOf, yOf, type Frame } from './frame.ts';

interface Props {
  readonly project: Project;
  readonly assessment: Assessment | null;
}

/** The half-section of one fan at a drawing scale: axis level, air from left to right. */
export function HalfSection({ project, assessment }: Props) {
  const [watch, size] = useSize();
  const [held, setHeld] = useState<Frame | null>(null);
  const [open, setOpen] = useState<string | null>(null);
  const profiles = fanProfiles(project.fan, project.motor);
  const frame = held ?? (size && size.width > 50 ? fitFrame(profiles, size.width, size.height) : null);
  const dimensions = frame ? dimensionsOf(project.fan, profiles, frame) : [];
  const opened = dimensions.find((d) => d.path !== null && d.path === open);
  return (
    <div className="half-section" ref={watch}>
      {frame && (
        <>
          <svg
            role="group"
            aria-label={`Half-section of one fan, scale ${scaleInWords(frame.scale)}`}
            width={frame.width}
            height={frame.height}
          >
            <Patterns />
            <Parts profiles={profiles} frame={frame} />
            {assessment && <AirFlow assessment={assessment} profiles={profiles} frame={frame} />}
            <LimitMarks
              limits={assessment?.fan.hover?.limits ?? []}
              frame={frame}
              bladeZ={Math.max(...profiles.blade.map(([z]) => z))}
            />
            {/* First all that reaches under the numbers, then the numbers. */}
            <path className="extension" d={dimensions.map((d) => d.extension).join('')} />
            <g className="dimensions">
              {dimensions.map((d) => (
                <DimensionMark
                  key={d.name}
                  dimension={d}
                  frame={frame}
                  active={d.path !== null && d.path === open}
                  onOpen={(at) => setOpen(at.path)}
                  onDrag={(on) => setHeld(on ? frame : null)}
                />
              ))}
            </g>
            <text className="soft" x={12} y={frame.height - 12}>
              half-section, {scaleInWords(frame.scale)}, mm
            </text>
          </svg>
          {opened && <DimensionEditor dimension={opened} frame={frame} onClose={() => setOpen(null)} />}
        </>
      )}
    </div>
  );
}

function Parts({ profiles, frame }: { profiles: ReturnType<typeof fanProfiles>; frame: Frame }) {
  const { layout, duct, hub, spinner, tipRing, motor, seat, tailCone, vane, blade } = profiles;
  const outline = (profile: Profile) =>
    linePath(
      profile.map(([z, r]) => [xOf(frame, z), yOf(frame, r)] as const),
      true,
    );
  const [left, right] = extentOf(profiles);
  const motorRoom = (layout.seatTopZ - layout.motorTopZ) * frame.pxPerM;
  return (
    <g className="parts">
      {vane && <path className="printed uncut" d={outline(vane)} />}
      <path className="turning uncut" d={outline(blade)} />
      {duct && <Cut d={outline(duct)} kind="printed" />}
      {seat && <Cut d={outline(seat)} kind="printed" />}
      {tailCone && <Cut d={outline(tailCone)} kind="printed" />}
      <path className="bought" d={outline(motor)} />
      <Cut d={outline(hub)} kind="turning" />
      {spinner && <Cut d={outline(spinner)} kind="turning" />}
      {tipRing && <Cut d={outline(tipRing)} kind="turning" />}
      {motorRoom > 46 && (
        <text
          className="soft"
          textAnchor="middle"
          x={xOf(frame, (layout.motorTopZ + layout.seatTopZ) / 2)}
          y={yOf(frame, layout.motorRadius / 2) + 4}
        >
          motor
        </text>
      )}
      <path
        className="axis"
        d={`M${xOf(frame, left) - (frame.compact ? 58 : 116)} ${frame.axisY}H${xOf(frame, right) + (frame.compact ? 86 : 150)}`}
      />
    </g>
  );
}

/** A part cut by the drawing plane: filled and hatched. */
function Cut({ d, kind }: { readonly d: string; readonly kind: 'printed' | 'turning' }) {
  return (
    <>
      <path className={kind} d={d} />
      <path className="hatch" d={d} fill={`url(#${kind === 'printed' ? 'hatch' : 'hatch-back'})`} />
    </>
  );
}

function Patterns() {
  return (
    <defs>
      <pattern id="hatch" width="6" height="6" patternTransform="rotate(45)" patternUnits="userSpaceOnUse">
        <path className="hatch-line" d="M0 0V6" />
      </pattern>
      <pattern
        id="hatch-back"
        width="6"
        height="6"
        patternTransform="rotate(-45)"
        patternUnits="userSpaceOnUse"
      >
        <path className="hatch-line" d="M0 0V6" />
      </pattern>
      <marker
        id="arrow"
        viewBox="0 0 10 6"
        refX="10"
        refY="3"
        markerWidth="9"
        markerHeight="6"
        markerUnits="userSpaceOnUse"
        orient="auto-start-reverse"
      >
        <path className="arrow" d="M0 .6L10 3L0 5.4z" />
      </marker>
      <marker
        id="dot"
        viewBox="0 0 6 6"
        refX="3"
        refY="3"
        markerWidth="5"
        markerHeight="5"
        markerUnits="userSpaceOnUse"
      >
        <circle className="arrow" cx="3" cy="3" r="2.4" />
      </marker>
      <marker
        id="air"
        viewBox="0 0 8 8"
        refX="7"
        refY="4"
        markerWidth="7"
        markerHeight="7"
        markerUnits="userSpaceOnUse"
        orient="auto"
      >
        <path className="air-arrow" d="M0 .8L8 4L0 7.2z" />
      </marker>
    </defs>
  );
}
