import { useState } from 'react';
import type { Project } from '../../project/schema.ts';
import { formatNumber } from '../../quantities/format.ts';
import { SectionOutline } from '../charts/SectionOutline.tsx';

/** The blade section at a radius the reader chooses. */
export function BladeCard({ project }: { readonly project: Project }) {
  const [span, setSpan] = useState(0.7);
  const { hubDiameter_mm, tipDiameter_mm } = project.fan;
  const radius = (hubDiameter_mm + span * (tipDiameter_mm - hubDiameter_mm)) / 2;
  return (
    <section className="card" aria-labelledby="blade-card">
      <h3 id="blade-card">
        Blade section <em>as drawn, at radius {formatNumber(radius)} mm</em>
      </h3>
      <SectionOutline project={project} span={span} />
      <label className="span-choice">
        hub
        <input
          type="range"
          min={0}
          max={1}
          step={0.01}
          value={span}
          aria-label="Place along the blade, 0 at the hub, 1 at the tip"
          onChange={(e) => setSpan(Number(e.target.value))}
        />
        tip
      </label>
    </section>
  );
}
