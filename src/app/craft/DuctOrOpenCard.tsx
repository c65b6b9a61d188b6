import type { Project } from '../../project/schema.ts';
import { formatMinutes, formatNumber as n } from '../../quantities/format.ts';
import { levelWords } from '../../sound/words.ts';
import type { DuctOrOpen, WidthChoice, WidthPair } from '../../study/duct-or-open.ts';
import { LineChart } from '../charts/LineChart.tsx';
import { Said } from './Said.tsx';

interface Props {
  readonly study: DuctOrOpen;
  readonly asked: Project;
  readonly stale: boolean;
}

/** The same outer width filled with a duct or with an open rotor, over that width. */
export function DuctOrOpenCard({ study, asked, stale }: Props) {
  const { pairs, breakEven, here, words } = study;
  const widths = pairs.map((p) => p.outerWidth_mm);
  const [from, to] = [widths[0], widths[widths.length - 1]];
  const line = (pick: (c: WidthChoice) => number | null) => ({
    ducted: pairs.map((p) => [p.outerWidth_mm, p.ducted && pick(p.ducted)] as const),
    open: pairs.map((p) => [p.outerWidth_mm, p.open && pick(p.open)] as const),
    guarded: pairs.map((p) => [p.outerWidth_mm, p.guarded && pick(p.guarded)] as const),
  });
  const minutes = line((c) => (c.hover_min > 0 ? c.hover_min : null));
  const thrust = line((c) => c.thrustToWeight);
  const hovers = [...minutes.ducted, ...minutes.open].some(([, y]) => y !== null);
  const keys = (
    <>
      <span className="key">ducted</span> <span className="key dashed-blue">open</span>{' '}
      <span className="key dotted-blue">open in a ring guard</span>
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
            lines={[
              { points: minutes.ducted },
              { points: minutes.open, dashed: true },
              { points: minutes.guarded, dotted: true },
            ]}
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
          lines={[
            { points: thrust.ducted },
            { points: thrust.open, dashed: true },
            { points: thrust.guarded, dotted: true },
          ]}
          spots={[]}
          level={{ y: 1, words: 'its weight' }}
        />
      </div>
      {here && <Here pair={here} stale={stale} />}
      <Said texts={words} />
      <p className="caution">
        An open rotor on {asked.craft.fanCount === 1 ? 'a motor' : `${asked.craft.fanCount} motors`} cuts.
        Whichever you build: rotors off while you set up, eye protection and distance while they turn.
      </p>
    </section>
  );
}

/** The three side by side at the width nearest to the duct as drawn. */
function Here({ pair, stale }: { readonly pair: WidthPair; readonly stale: boolean }) {
  const { outerWidth_mm, ducted, open, guarded } = pair;
  const rows = [
    ['ducted', ducted],
    ['open', open],
    [guarded ? `open, guard ${n(guarded.guard_g, 2)} g` : 'open in a guard', guarded],
  ] as const;
  const or = (value: number | null, unit: string) => (value === null ? '–' : `${n(value)} ${unit}`);
  return (
    <div
      className={stale ? 'scroll stale' : 'scroll'}
      tabIndex={0}
      role="region"
      aria-label="Ducted and open side by side"
    >
      <table className="stations layouts">
        <caption>In {n(outerWidth_mm)} mm of outer width</caption>
        <thead>
          <tr>
            <th scope="col">One fan</th>
            <th scope="col">Tips</th>
            <th scope="col">Craft</th>
            <th scope="col">Thrust over weight</th>
            <th scope="col">Hover</th>
            <th scope="col">Hover power</th>
            <th scope="col">Disc loading</th>
            <th scope="col">Level in hover at 3 m</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(([name, c]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{or(c && c.tipDiameter_mm, 'mm')}</td>
              <td>{or(c && c.mass_g, 'g')}</td>
              <td>{c ? n(c.thrustToWeight) : '–'}</td>
              <td>{!c ? '–' : c.hover_min > 0 ? formatMinutes(c.hover_min) : 'does not lift'}</td>
              <td>{or(c && c.hoverPower_W, 'W')}</td>
              <td>{or(c && c.discLoading_Npm2, 'N/m²')}</td>
              <td>{c?.level_dBA ? levelWords(c.level_dBA) : '–'}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
