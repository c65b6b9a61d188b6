import { useState } from 'react';
import type { FanPoint } from '../../assess/types.ts';
import type { Project } from '../../project/schema.ts';
import { formatNumber } from '../../quantities/format.ts';
import { SectionOutline } from '../charts/SectionOutline.tsx';
import { triangleAt } from '../charts/triangle.ts';
import { AirAtBlade } from './AirAtBlade.tsx';

interface Props {
  readonly project: Project;
  readonly point: FanPoint;
  /** Which running point it is, in words. */
  readonly when: string;
}

/** The blade section at a radius the reader chooses, and the air it meets there. */
export function BladeCard({ project, point, when }: Props) {
  const [span, setSpan] = useState(0.7);
  const { hubDiameter_mm, tipDiameter_mm } = project.fan;
  const radius = (hubDiameter_mm + span * (tipDiameter_mm - hubDiameter_mm)) / 2;
  return (
    <section className="card blade-card" aria-labelledby="blade-card">
      <h3 id="blade-card">
        Blade section{' '}
        <em>
          as drawn, at radius {formatNumber(radius)} mm, and the air it meets {when}
        </em>
      </h3>
      <div className="blade-views">
        <div className="outline">
          <SectionOutline project={project} span={span} />
        </div>
        <AirAtBlade air={triangleAt(point, radius)} />
      </div>
      <label className="span-choice">
        hub
        <input
          type="range"
          min={0}
          max={1}
          step={0.01}
          value={span}
          aria-label="Place along the blade, 0 at the hub, 1 at the tip"
          aria-valuetext={`radius ${formatNumber(radius)} mm`}
          onChange={(e) => setSpan(Number(e.target.value))}
        />
        tip
      </label>
    </section>
  );
}
