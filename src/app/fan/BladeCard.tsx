import { useState } from 'react';
import type { PrintEffect } from '../../assess/print-effect.ts';
import type { FanPoint } from '../../assess/types.ts';
import type { Project } from '../../project/schema.ts';
import { formatNumber, formatPercent } from '../../quantities/format.ts';
import { SectionOutline } from '../charts/SectionOutline.tsx';
import { triangleAt } from '../charts/triangle.ts';
import { AirAtBlade } from './AirAtBlade.tsx';

interface Props {
  readonly project: Project;
  readonly point: FanPoint;
  /** Which running point it is, in words. */
  readonly when: string;
  /** What the printer costs; null: flown as drawn. */
  readonly print: PrintEffect | null;
}

/** The blade section at a radius the reader chooses, and the air it meets there. */
export function BladeCard({ project, point, when, print }: Props) {
  const [span, setSpan] = useState(0.7);
  const { hubDiameter_mm, tipDiameter_mm } = project.fan;
  const radius = (hubDiameter_mm + span * (tipDiameter_mm - hubDiameter_mm)) / 2;
  return (
    <section className="card blade-card" aria-labelledby="blade-card">
      <h3 id="blade-card">
        Blade section{' '}
        <em>
          as printed over its drawing, at radius {formatNumber(radius)} mm, and the air it meets {when}
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
      {print && (
        <p className="facts">
          {hereWords(print, span)} {print.words}
        </p>
      )}
    </section>
  );
}

/** What the printing changes of the thrust at one place along the blade, between the places that were worked out. */
function hereWords({ stations }: PrintEffect, span: number): string {
  const place = Math.min(1, Math.max(0, span)) * (stations.length - 1);
  const i = Math.min(stations.length - 2, Math.floor(place));
  const [a, b] = [stations[i].thrustChange_ratio, stations[i + 1].thrustChange_ratio];
  const change = a + (place - i) * (b - a);
  if (Math.abs(change) < 0.0005) return 'This part of the blade gives the thrust of the drawing.';
  return `This part of the blade gives ${formatPercent(Math.abs(change), 1)} ${change < 0 ? 'less' : 'more'} thrust than drawn, at the same speed.`;
}
