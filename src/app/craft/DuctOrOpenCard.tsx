import type { Project } from '../../project/schema.ts';
import { formatNumber as n } from '../../quantities/format.ts';
import type { DuctOrOpen, WidthChoice } from '../../study/duct-or-open.ts';
import { LineChart } from '../charts/LineChart.tsx';
import { Said } from './Said.tsx';

interface Props {
  readonly study: DuctOrOpen;
  readonly asked: Project;
  readonly stale: boolean;
}

/** The same outer width filled with a duct or with an open rotor, over that width. */
export function DuctOrOpenCard({ study, asked, stale }: Props) {
  const { pairs, breakEven, words } = study;
  const widths = pairs.map((p) => p.outerWidth_mm);
  const [from, to] = [widths[0], widths[widths.length - 1]];
  const line = (pick: (c: WidthChoice) => number | null) => ({
    ducted: pairs.map((p) => [p.outerWidth_mm, p.ducted && pick(p.ducted)] as const),
    open: pairs.map((p) => [p.outerWidth_mm, p.open && pick(p.open)] as const),
  });
  const minutes = line((c) => (c.hover_min > 0 ? c.hover_min : null));
  const thrust = line((c) => c.thrustToWeight);
  const hovers = [...minutes.ducted, ...minutes.open].some(([, y]) => y !== null);
  const keys = (
    <>
      <span className="key">ducted</span> <span className="key dashed-blue">open</span>
    </>
  );
  const even =
    breakEven.map((b) => `equal power at ${n(b.outerWidth_mm)} mm`).join(', ') || 'no break-even here';
  return (
    <section className="card" aria-labelledby="duct-or-open-title">
      <h3 id="duct-or-open-title">
        Duct or open rotor <em>in the same outer width, the duct’s own mass charged</em>
      </h3>
      <div className={stale ? 'two-charts stale' : 'two-charts'}>
        {hovers && (
          <LineChart
            story={`Hover time over outer width, ducted and open: ${even}.`}
            caption={<>Hover time: {keys}</>}
            xName="outer width of one fan, mm"
            yName="minutes"
            from={from}
            to={to}
            lines={[{ points: minutes.ducted }, { points: minutes.open, dashed: true }]}
            spots={[]}
          />
        )}
        <LineChart
          story="Thrust over weight at full throttle over outer width, ducted and open."
          caption={<>Thrust over weight: {keys}</>}
          xName="outer width of one fan, mm"
          yName="times its weight"
          from={from}
          to={to}
          lines={[{ points: thrust.ducted }, { points: thrust.open, dashed: true }]}
          spots={[]}
          level={{ y: 1, words: 'its weight' }}
        />
      </div>
      <Said texts={words} />
      <p className="caution">
        An open rotor on {asked.craft.fanCount === 1 ? 'a motor' : `${asked.craft.fanCount} motors`} cuts.
        Whichever you build: rotors off while you set up, eye protection and distance while they turn.
      </p>
    </section>
  );
}
