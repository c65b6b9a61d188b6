import { formatMinutes, formatNumber as n } from '../../quantities/format.ts';
import type { BatteryStudy } from '../../study/battery-choice.ts';
import { LineChart, type Spot } from '../charts/LineChart.tsx';
import { edit } from '../state/actions.ts';
import { useApp } from '../state/store.ts';
import { Said } from './Said.tsx';

interface Props {
  readonly study: BatteryStudy;
  readonly stale: boolean;
}

/** Minutes against the size of the battery, and what the next minute costs. */
export function BatteryCard({ study, stale }: Props) {
  const { now, curve, longest, longestKept, words } = study;
  const to = 1.5 * Math.max(now.capacity_mAh, longest?.capacity_mAh ?? 0);
  const shown = [...curve, now, ...(longest ? [longest] : [])]
    .filter((c) => c.capacity_mAh <= to)
    .sort((a, b) => a.capacity_mAh - b.capacity_mAh);
  const spots: Spot[] = [
    { x: now.capacity_mAh, y: now.hover_min, words: `now ${n(now.capacity_mAh)} mAh`, below: true },
  ];
  if (longest && Math.abs(longest.capacity_mAh / now.capacity_mAh - 1) > 0.02)
    spots.push({
      x: longest.capacity_mAh,
      y: longest.hover_min,
      words: `longest ${formatMinutes(longest.hover_min)}`,
      hollow: true,
    });
  const story = longest
    ? `Hover time over battery size: ${formatMinutes(now.hover_min)} with ${n(now.capacity_mAh)} mAh now, at most ${formatMinutes(longest.hover_min)} with ${n(longest.capacity_mAh)} mAh.`
    : 'Hover time over battery size: no size of this battery lifts the craft.';
  return (
    <section className="card" aria-labelledby="battery-size-title">
      <h3 id="battery-size-title">
        How large a battery <em>the same kind of cell, larger and smaller</em>
      </h3>
      <div className={`${longest ? 'chart-and-words' : ''} ${stale ? 'stale' : ''}`}>
        {longest && (
          <LineChart
            story={story}
            caption="Hover time over capacity"
            xName="capacity, mAh"
            yName="minutes"
            from={0}
            to={to}
            lines={[{ points: shown.map((c) => [c.capacity_mAh, c.hover_min > 0 ? c.hover_min : null]) }]}
            spots={spots}
          />
        )}
        <div>
          <Said texts={words} />
          {longestKept && <UseBattery study={study} disabled={stale} />}
        </div>
      </div>
      <p className="caution">
        A larger pack holds more energy that can burn. Charge it attended, on a surface that does not burn,
        with a charger made for it; mount it where a crash does not crush or pierce it.
      </p>
    </section>
  );
}

/** Puts the size that flies longest with the margin kept into the project, cell resistance and mass with it. */
function UseBattery({ study, disabled }: { readonly study: BatteryStudy; readonly disabled: boolean }) {
  const battery = useApp((s) => s.project.battery);
  const { now, longestKept } = study;
  if (!longestKept || Math.abs(longestKept.capacity_mAh / now.capacity_mAh - 1) < 0.02) return null;
  const factor = longestKept.capacity_mAh / now.capacity_mAh;
  const round = (value: number) => Number(value.toPrecision(3));
  const capacity_mAh = round(longestKept.capacity_mAh);
  return (
    <p className="parts-foot">
      <button
        disabled={disabled}
        onClick={() =>
          edit(
            {
              'battery.capacity_mAh': capacity_mAh,
              'battery.mass_g': round(longestKept.mass_g),
              'battery.cellResistance_mohm': round(battery.cellResistance_mohm / factor),
            },
            'battery size',
          )
        }
      >
        Use {n(capacity_mAh)} mAh
      </button>
      <span>A pack of this very size may not be sold; take the nearest and enter its own figures.</span>
    </p>
  );
}
