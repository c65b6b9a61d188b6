import type { Interval } from '../../quantities/interval.ts';
import { formatNumber as n } from '../../quantities/format.ts';

/** One figure: its name, unit, digits, and what stands there where it is not known. */
export interface IntervalRow {
  readonly name: string;
  readonly value: Interval | null;
  readonly unit: string;
  readonly digits: number;
  /** What the shown figure is of the value; 1 where left out. */
  readonly factor?: number;
  readonly unknown?: string;
}

/** Figures with the range that holds nine cases in ten. */
export function IntervalTable({
  label,
  rows,
}: {
  readonly label: string;
  readonly rows: readonly IntervalRow[];
}) {
  return (
    <div className="scroll" tabIndex={0} role="region" aria-label={label}>
      <table className="stations layouts intervals">
        <caption>{label}</caption>
        <thead>
          <tr>
            <th scope="col">Figure</th>
            <th scope="col">Value</th>
            <th scope="col">Nine in ten between</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, value, unit, digits, factor = 1, unknown = '' }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{value ? `${n(value.value * factor, digits)} ${unit}` : unknown}</td>
              <td>
                {value
                  ? `${n(value.low * factor, digits)} and ${n(value.high * factor, digits)}`
                  : 'not known'}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
