import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readTrialRuns } from '../../balance/trial-runs.ts';
import { chanceFrom } from './recordings.ts';
import { readShakeCsv } from './shake-csv.ts';
import { shakeLevel } from './shake.ts';

interface Made {
  readonly rpm: number;
  readonly amplitude: number;
  readonly phase_deg?: number;
  readonly rate?: number;
  readonly noise?: number;
  readonly seconds?: number;
  readonly seed?: number;
  readonly head?: string;
  readonly between?: string;
  readonly comma?: boolean;
  readonly mark?: boolean;
}

/** A log as a phone writes it: irregular steps, weight along z, noise, a wandering speed. Shaking is along x. */
function csv(made: Made): string {
  const { rpm, amplitude, phase_deg = 0, rate = 400, noise = 0.3, seconds = 12, seed = 1 } = made;
  const { head = 'time (s),acc x (m/s2),acc y (m/s2),acc z (m/s2)', between = ',', comma = false } = made;
  const c = chanceFrom(seed);
  const rows: string[] = [];
  let turn = 0.3;
  let before = 0;
  for (let t = 0; t < seconds; t += (1 + 0.2 * c.normal() * 0.5) / rate) {
    turn += 2 * Math.PI * (rpm / 60) * (1 + 0.002 * Math.sin(t)) * (t - before);
    before = t;
    const angle = turn - (phase_deg * Math.PI) / 180;
    const cells = [
      t.toFixed(6),
      (amplitude * Math.cos(angle) + noise * c.normal()).toFixed(5),
      (noise * c.normal()).toFixed(5),
      (9.81 + noise * c.normal()).toFixed(5),
      ...(made.mark ? [turn % (2 * Math.PI) < 0.6 ? '1' : '0'] : []),
    ];
    rows.push(cells.map((cell) => (comma ? cell.replace('.', ',') : cell)).join(between));
  }
  return `${head}\n${rows.join('\n')}\n`;
}

function levelOf(made: Made, rpm = made.rpm) {
  const read = readShakeCsv(csv(made));
  if (!read.ok) throw new Error(read.message);
  const answer = shakeLevel(read.log, rpm);
  if (!answer.ok) throw new Error(answer.message);
  return { ...answer, log: read.log };
}

describe('shakeLevel', () => {
  it('gives amplitude and speed from an irregular log, though the speed given is 2 % off', () => {
    const { level, rpm, perAxis, unit, standsOut } = levelOf({ rpm: 6000, amplitude: 2 }, 6120);
    expect(Math.abs(rpm / 6000 - 1)).toBeLessThan(0.003);
    expect(Math.abs(level.value / 2 - 1)).toBeLessThan(0.05);
    expect(perAxis[0].amplitude).toBeGreaterThan(5 * perAxis[1].amplitude);
    expect({ unit, standsOut }).toEqual({ unit: 'm/s2', standsOut: true });
  });

  it('holds the truth in most of its 90 % intervals', () => {
    let inside = 0;
    const count = 40;
    for (let seed = 0; seed < count; seed++) {
      const { level } = levelOf({ rpm: 5000, amplitude: 0.4, noise: 0.8, seconds: 8, seed });
      if (level.low <= 0.4 && level.high >= 0.4) inside++;
    }
    expect(inside).toBeGreaterThanOrEqual(0.8 * count);
  });

  it('says when nothing stands out', () => {
    const { standsOut, level } = levelOf({ rpm: 5000, amplitude: 0, noise: 0.5 });
    expect(standsOut).toBe(false);
    expect(level.low).toBeLessThan(0.05);
  });

  it('reads the phase after a mark, which the balance takes', () => {
    const mark = { mark: true, head: 'time_s,acc_x_g,acc_y_g,acc_z_g,mark' };
    const phases = [40, 250].map(
      (phase_deg) => levelOf({ rpm: 3000, amplitude: 2, phase_deg, rate: 1000, ...mark }).phase_deg!,
    );
    phases.forEach((phase, i) => expect(Math.abs(phase - [40, 250][i])).toBeLessThan(8));
  });

  it('feeds the runs of the balance, in any unit', () => {
    const [first, ...trials] = [1, 1.6, 1.1, 0.7].map(
      (amplitude) => levelOf({ rpm: 4800, amplitude, noise: 0.2, seconds: 6 }).level.value,
    );
    const run = (amplitude: number, trialMass_g: number, trialAngle_deg: number) => ({
      amplitude,
      trialMass_g,
      trialRadius_mm: 8,
      trialAngle_deg,
      phase_deg: null,
    });
    const answer = readTrialRuns([run(first, 0, 0), ...trials.map((a, i) => run(a, 0.05, 120 * i))]);
    expect(answer.ok).toBe(true);
  });

  it('refuses a log too slow for the speed, in a sentence', () => {
    const read = readShakeCsv(csv({ rpm: 5000, amplitude: 1, rate: 100 }));
    const answer = read.ok && shakeLevel(read.log, 12_000);
    expect(answer && !answer.ok && answer.message).toMatch(
      /^12000 rpm are 200 turns a second, and the log has \d+ readings a second: at least 445 are needed\. Run below \d+ rpm, or log faster\.$/,
    );
  });
});

describe('readShakeCsv', () => {
  it('takes semicolons with decimal commas, a byte order mark and other line ends', () => {
    const plain = readShakeCsv(csv({ rpm: 5000, amplitude: 1 }));
    const other = readShakeCsv(
      '\ufeff' +
        csv({
          rpm: 5000,
          amplitude: 1,
          between: ';',
          comma: true,
          head: 'time (s);acc x (m/s2);acc y (m/s2);acc z (m/s2)',
        }).replaceAll('\n', '\r\n'),
    );
    expect(plain.ok && other.ok && other.log.axes[0].values).toEqual(plain.ok && plain.log.axes[0].values);
  });

  for (const [head, unit, name] of [
    ['time_s,gyro_x_dps,gyro_y_dps,gyro_z_dps', 'deg/s', 'gyro_x_dps'],
    ['t,ax,ay,az', 'm/s2', 'ax'],
    ['time [s],rate x [rad/s],rate y [rad/s],rate z [rad/s]', 'rad/s', 'rate x [rad/s]'],
  ])
    it(`tells columns and unit of ${head}`, () => {
      const read = readShakeCsv(csv({ rpm: 5000, amplitude: 1, head }));
      if (!read.ok) throw new Error(read.message);
      expect(read.log.unit).toBe(unit);
      expect(read.log.axes[0].name).toBe(name);
      expect(read.log.axes.length).toBe(3);
    });

  it('tells milliseconds from their steps, and passes over lines without numbers', () => {
    const rows = Array.from({ length: 200 }, (_, i) =>
      i === 90 ? 'paused,,,' : `${i * 5},${Math.sin(i)},0,9.8`,
    );
    const read = readShakeCsv(`phone log\ntime,acc x,acc y,acc z\n${rows.join('\n')}`);
    if (!read.ok) throw new Error(read.message);
    expect(read.log.t_s[1]).toBeCloseTo(0.005, 9);
    expect(read.log.notes.join(' ')).toContain('its steps look like ms');
    expect(read.log.notes.join(' ')).toContain('1 line without numbers passed over');
  });

  it('refuses in one sentence what it cannot use', () => {
    const said = (text: string, given = {}) => {
      const read = readShakeCsv(text, given);
      return read.ok ? '' : read.message;
    };
    expect(said('')).toContain('There is no line of names');
    expect(said('1,2,3\n4,5,6\n')).toContain('There is no line of names');
    expect(said('time,height\n0,1\n')).toBe(
      'Line 1: none of the columns is an acceleration or a rate of turn; name them with --axes, the columns are time, height.',
    );
    expect(said('time,acc x\n0,1\n')).toContain('The table has 1 reading with');
    expect(said('time,acc x\n0,1\n', { axes: ['q'] })).toContain('there is no column "q"');
  });

  it('never throws', () => {
    const told = (text: string) => {
      const read = readShakeCsv(text);
      if (!read.ok) expect(read.message.length).toBeGreaterThan(10);
    };
    fc.assert(fc.property(fc.string({ maxLength: 200 }), told), { seed: 3, numRuns: 300 });
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom('time', ',', ';', 'acc x', '\n', '1', '-', '.', '"', '\t', 'e')),
        (parts) => told(parts.join('')),
      ),
      { seed: 4, numRuns: 400 },
    );
  });
});
