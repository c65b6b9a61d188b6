import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { motors } from '../project/catalogue.ts';
import { rpmFromAngularSpeed } from '../quantities/units.ts';
import { motorConstants, motorVoltage, noLoadCurrentAt } from './motor.ts';
import { motorFromReadings, type MotorReadings, type NoLoadReading } from './motor-readings.ts';
import { typicalMotor } from './typical-motor.ts';

/** The free motor at a speed, as the first-order machine has it. */
function freeReading(speedShare: number, share: number): { reading: NoLoadReading; resistance_mohm: number } {
  const motor = { ...motors[7].part, noLoadSteady_ratio: share };
  const constants = motorConstants(motor, 0);
  const omega = constants.noLoadSpeed * speedShare;
  const current_A = noLoadCurrentAt(constants, omega);
  return {
    resistance_mohm: motor.resistance_mohm,
    reading: {
      voltage_V: motorVoltage(constants, current_A, omega),
      current_A,
      rpm: rpmFromAngularSpeed(omega),
    },
  };
}

const good: MotorReadings = {
  resistance_mohm: 190,
  noLoad: [
    { voltage_V: 3.5, current_A: 0.26, rpm: 10_500 },
    { voltage_V: 7, current_A: 0.35, rpm: 21_150 },
  ],
};
const faultsOf = (readings: MotorReadings) => {
  const result = motorFromReadings(readings);
  return result.ok ? [] : result.faults.map(({ path, message }) => `[${path}] ${message}`);
};

describe('constants from readings', () => {
  test('readings of a known motor give that motor back, whatever its split and speeds', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.02, max: 0.98, noNaN: true }),
        fc.double({ min: 0.3, max: 0.6, noNaN: true }),
        (share, slow) => {
          const low = freeReading(slow, share);
          const top = freeReading(1, share);
          const found = motorFromReadings({
            resistance_mohm: low.resistance_mohm,
            noLoad: [low.reading, top.reading],
          });
          if (!found.ok) throw new Error(found.faults[0].message);
          const { velocityConstant_rpmPerV, noLoadSteady_ratio } = found.constants;
          expect(velocityConstant_rpmPerV.value).toBeCloseTo(motors[7].part.velocityConstant_rpmPerV, 6);
          expect(noLoadSteady_ratio!.value).toBeCloseTo(share, 9);
          // The block for the project file makes the same machine.
          const again = motorConstants({ ...motors[7].part, ...found.motor }, 0);
          expect(again.noLoadSpeed / motorConstants(motors[7].part, 0).noLoadSpeed).toBeCloseTo(1, 4);
          expect(again.steadyShare).toBeCloseTo(share, 4);
        },
      ),
    );
  });

  test('the order of the two readings does not matter', () => {
    expect(motorFromReadings({ ...good, noLoad: [...good.noLoad].reverse() })).toEqual(
      motorFromReadings(good),
    );
  });

  test('a worked case by hand: 7 V, 0.35 A, 190 mΩ leaves 6.9335 V for 21 150 rpm', () => {
    const found = motorFromReadings({ ...good, noLoad: [good.noLoad[1]] });
    if (!found.ok) throw new Error(found.faults[0].message);
    expect(found.constants.velocityConstant_rpmPerV.value).toBeCloseTo(21_150 / 6.9335, 9);
    expect(found.constants.torqueConstant_NmpA.value).toBeCloseTo((6.9335 * 30) / (Math.PI * 21_150), 12);
    expect(found.constants.noLoadSteady_ratio).toBeNull();
    expect(found.motor.noLoadSteady_ratio).toBe(0.5);
    expect(found.notes[0]).toMatch(/^One no-load reading cannot tell/);
  });

  test('a winding read warm is brought to 20 °C by copper’s 0.393 % a kelvin', () => {
    const found = motorFromReadings({ ...good, temperature_C: 45 });
    if (!found.ok) throw new Error(found.faults[0].message);
    expect(found.constants.resistance_mohm.value).toBeCloseTo(190 / (1 + 0.00393 * 25), 9);
  });

  test('readings within their errors give constants within their intervals, far more often than nine times in ten', () => {
    const middle = motorFromReadings(good);
    if (!middle.ok) throw new Error();
    const unit = fc.double({ min: -0.6, max: 0.6, noNaN: true });
    fc.assert(
      fc.property(unit, unit, unit, unit, (a, b, c, d) => {
        const found = motorFromReadings({
          ...good,
          noLoad: [
            { voltage_V: 3.5 + 0.03 * a, current_A: 0.26 + 0.02 * b, rpm: 10_500 },
            { voltage_V: 7 + 0.03 * c, current_A: 0.35 + 0.02 * d, rpm: 21_150 },
          ],
        });
        if (!found.ok) throw new Error(found.faults[0].message);
        for (const key of ['velocityConstant_rpmPerV', 'noLoadSteady_ratio'] as const) {
          const { low, high } = middle.constants[key]!;
          // Four readings at 0.6 of their errors in the worst concert: 0.6 times 2 of the root sum of squares.
          const [l, h] = [low - 0.25 * (high - low), high + 0.25 * (high - low)];
          expect(found.constants[key]!.value).toBeGreaterThanOrEqual(l);
          expect(found.constants[key]!.value).toBeLessThanOrEqual(h);
        }
      }),
    );
  });

  test('a finer meter narrows every interval', () => {
    const coarse = motorFromReadings(good);
    const fine = motorFromReadings({
      ...good,
      errors: {
        resistance_mohm: 0.5,
        resistance_ratio: 0.005,
        voltage_V: 0.005,
        current_A: 0.002,
        rpm_ratio: 0.001,
      },
    });
    if (!coarse.ok || !fine.ok) throw new Error();
    for (const key of [
      'velocityConstant_rpmPerV',
      'resistance_mohm',
      'noLoadCurrent_A',
      'noLoadSteady_ratio',
    ] as const) {
      const width = (m: typeof fine) => m.constants[key]!.high - m.constants[key]!.low;
      expect(width(fine)).toBeLessThan(0.5 * width(coarse));
    }
  });

  test.each([
    [
      { ...good, noLoad: [good.noLoad[0], { ...good.noLoad[1], rpm: 9000 }] },
      /^\[noLoad\.1\.rpm\] .*turns faster at more voltage/,
    ],
    [
      { ...good, noLoad: [good.noLoad[0], { ...good.noLoad[1], current_A: 0.1 }] },
      /^\[noLoad\.1\.current_A\] .*never loses less/,
    ],
    [
      { ...good, resistance_mohm: 9000, noLoad: [{ voltage_V: 3, current_A: 0.5, rpm: 9000 }] },
      /nothing is left to turn the motor/,
    ],
    [{ ...good, noLoad: [good.noLoad[1], { ...good.noLoad[1], voltage_V: 7.05 }] }, /too close to part/],
    [{ ...good, noLoad: [good.noLoad[0], { ...good.noLoad[1], rpm: 15_000 }] }, /cannot both be right/],
    [{ ...good, noLoad: [] }, /^\[noLoad\] noLoad holds 0 readings/],
    [
      { ...good, noLoad: [{ voltage_V: NaN, current_A: 0.2, rpm: 9000 }] },
      /^\[noLoad\.0\.voltage_V\] .*from 0\.1 to 100 V/,
    ],
    [{ ...good, resistance_mohm: 0 }, /^\[resistance_mohm\].*mΩ\.$/],
    [{ ...good, noLoad: [{ voltage_V: 0.2, current_A: 0.01, rpm: 60_000 }] }, /no project file can hold/],
  ])('an impossible reading is refused with its place: %#', (readings, sentence) => {
    expect(faultsOf(readings)[0]).toMatch(sentence);
  });

  test('any readings give constants that can be real, or a reason', () => {
    const wild = fc.record({
      voltage_V: fc.double({ min: -5, max: 120 }),
      current_A: fc.double({ min: -1, max: 25 }),
      rpm: fc.double({ min: -100, max: 600_000 }),
    });
    const likely = fc
      .tuple(
        fc.double({ min: 1, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 2900, max: 3200, noNaN: true }),
      )
      .map(([voltage_V, current_A, k]) => ({ voltage_V, current_A, rpm: k * voltage_V }));
    let taken = 0;
    fc.assert(
      fc.property(
        fc.oneof(fc.double({ min: -1, max: 11_000 }), fc.double({ min: 20, max: 300 })),
        fc.array(fc.oneof(wild, likely, likely, likely), { maxLength: 3 }),
        (resistance_mohm, noLoad) => {
          const found = motorFromReadings({ resistance_mohm, noLoad });
          if (!found.ok) {
            expect(found.faults.length).toBeGreaterThan(0);
            for (const { message } of found.faults) expect(message).toMatch(/\.$/);
            return;
          }
          taken++;
          for (const value of Object.values(found.motor)) expect(value).toBeGreaterThanOrEqual(0);
          expect(found.motor.noLoadSteady_ratio).toBeLessThanOrEqual(1);
          const { low, value, high } = found.constants.velocityConstant_rpmPerV;
          expect(low).toBeLessThan(value);
          expect(value).toBeLessThan(high);
        },
      ),
      { numRuns: 400 },
    );
    expect(taken).toBeGreaterThan(10);
  });
});

describe('typical motor', () => {
  test('the catalogue’s motors lie within the spread of their stator size', () => {
    for (const { id, part } of motors) {
      const [, d, h] = /motor-(\d\d)(\d\d)/.exec(id)!;
      const typical = typicalMotor(Number(d), Number(h), part.velocityConstant_rpmPerV)!;
      for (const key of [
        'resistance_mohm',
        'noLoadCurrent_A',
        'continuousCurrent_A',
        'mass_g',
        'canDiameter_mm',
        'canHeight_mm',
      ] as const) {
        expect(part[key], `${id} ${key}`).toBeGreaterThan(typical[key].low);
        expect(part[key], `${id} ${key}`).toBeLessThan(typical[key].high);
      }
    }
  });
  test('outside its reach it says nothing', () => {
    expect(typicalMotor(5, 4, 3000)).toBeNull();
    expect(typicalMotor(14, 40, 3000)).toBeNull();
    expect(typicalMotor(14, 4, NaN)).toBeNull();
  });
});
