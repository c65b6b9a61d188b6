import { restVoltage } from '../src/drive/battery.ts';
import type { Battery } from '../src/project/schema.ts';
import type { Check, Topic } from './check.ts';
import { readTable } from './data.ts';

/** One cell of the kind that was measured; only kind and count matter for the rest voltage. */
const CELL: Battery = {
  name: 'one cell',
  chemistry: 'lithium-ion',
  cells: 1,
  parallel: 1,
  capacity_mAh: 1000,
  cellResistance_mohm: 20,
  leadResistance_mohm: 0,
  dischargeLimit_C: 10,
  usable_ratio: 1,
  mass_g: 20,
};

function cell(id: string, words: string, missed?: Check['missed']): Check {
  return {
    id: `battery-${id.replace('_', '-').toLowerCase()}`,
    title: `Rest voltage, ${words}`,
    unit: 'V',
    source:
      'Sunil, Pattipati and Balasingam, IEEE Transactions on Instrumentation and Measurement, 2025: two lithium-ion cells, pseudo-open-circuit voltage at C/32 and C/20, room temperature.',
    status: 'read',
    points: () => {
      const table = readTable('open_circuit_voltage.csv');
      const name = table.text('cell');
      const volts = table.column('OCV_V');
      return table
        .column('SOC')
        .map((charge, i) => ({
          at: `charge ${charge}`,
          x: charge,
          ours: restVoltage(CELL, charge),
          theirs: volts[i],
          cell: name[i],
        }))
        .filter((point) => point.cell === id);
    },
    target: { absolute: 0.05 },
    missed,
    axis: 'state of charge',
  };
}

export const driveTopic: Topic = {
  id: 'drive',
  title: 'Battery cells at rest',
  intro: [
    'The lithium-ion curve of the tool is the mean of these two cells, so this guards the figures and shows how far two cells of one kind',
    'differ. The two lithium-polymer curves, the resistance of cells and what the cold does to it are from memory and have nothing to stand against.',
  ].join('\n'),
  checks: [
    cell('cell_A', 'first cell'),
    cell('cell_B', 'second cell', {
      why: 'All of it below 2 % of charge, where the voltage falls steeply and the curve has too few points; no pack is flown so far down.',
      ceiling: 0.17,
    }),
  ],
};
