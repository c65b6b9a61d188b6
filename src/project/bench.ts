import { z } from 'zod';
import { count, quantity } from './fields.ts';

/** As much of a log as a run keeps word for word; of a longer one the beginning, and its length is said. */
export const KEPT_SOURCE_CHARACTERS = 200_000;

/** As many readings as a run keeps; a longer log is thinned to its steady stretches before it is kept. */
export const MOST_BENCH_ROWS = 5000;

const words = z.string().max(2000);
const orNull = <T extends z.ZodType>(schema: T) => schema.nullable().default(null);
const said = (help: string) => orNull(z.boolean()).describe(help);

/** How thrust gets to the scale. */
export const rigSchema = z
  .looseObject({
    kind: z
      .enum(['craft on the scale', 'fan pressing down', 'fan lifting off', 'lever', 'load cell'])
      .default('craft on the scale')
      .describe(
        'What stands on the scale: the craft tied down, a fan that blows up and presses, a fan that blows down and lifts off, a lever, or a load cell.',
      ),
    reading: orNull(z.enum(['rises', 'falls'])).describe(
      'Whether the reading rises or falls as the fan pulls; left out: as is usual for the rig.',
    ),
    fansRunning: count(1, 12, 'Fans that ran together during the readings.', '1 or 4').default(1),
    massAtRest_g: orNull(
      quantity(-1e6, 1e6, 'Reading with the fans at rest; left out: taken from the readings at rest.'),
    ),
    leverRatio: quantity(
      0.01,
      100,
      'Distance from pivot to scale over distance from pivot to fan: thrust is the change of the reading times this.',
      '0.5 to 2',
    ).default(1),
    scaleResolution_g: quantity(0, 10_000, 'Smallest step the scale shows.', '0.1 to 1').default(1),
    scaleError_ratio: quantity(
      0,
      0.5,
      'Largest likely error of the scale over its reading; weigh something known to learn it.',
      '0.002 to 0.02',
    ).default(0.01),
    distanceToPan_mm: orNull(
      quantity(0, 5000, 'From the exit of the fan down to the pan or table the jet meets.', '300 and more'),
    ),
    panWidth_mm: orNull(
      quantity(1, 5000, 'Width of the pan, or of whatever rests on the scale below the jet.'),
    ),
    voltageError_ratio: quantity(
      0,
      0.5,
      'Largest likely error of the voltage meter.',
      '0.005 to 0.02',
    ).default(0.01),
    currentError_ratio: quantity(
      0,
      0.5,
      'Largest likely error of the current meter.',
      '0.01 to 0.05',
    ).default(0.03),
    rpmError_ratio: quantity(0, 0.5, 'Largest likely error of the speed reading.', '0.002 to 0.01').default(
      0.005,
    ),
  })
  .prefault({});

/** Air at the bench; what is left out is taken from the brief. */
export const benchAirSchema = z
  .looseObject({
    temperature_C: orNull(quantity(-40, 60, 'Air temperature at the bench.')),
    altitude_m: orNull(quantity(-430, 9000, 'Height of the bench above sea level.')),
    pressure_hPa: orNull(
      quantity(
        300,
        1100,
        'Air pressure at the bench itself, not reduced to sea level; goes before the height.',
      ),
    ),
  })
  .prefault({});

/** The battery as it came to the bench. */
export const benchBatterySchema = z
  .looseObject({
    charge_ratio: orNull(quantity(0, 1, 'Charge at the start: 1 full, 0 empty.')),
    restVoltage_V: orNull(quantity(0, 100, 'Voltage of the pack at rest before the first reading.')),
    note: words.default('').describe('Which pack, how old, how warm; or a bench supply instead.'),
  })
  .prefault({});

/** One reading, or the mean of a steady stretch of a log. What was not read is null. */
export const benchRowSchema = z.looseObject({
  t_s: orNull(quantity(-1e9, 1e12, 'Time since the start of the run.')),
  throttle: orNull(quantity(0, 1, 'Throttle from 0 to 1.')),
  scale_g: orNull(quantity(-1e6, 1e6, 'What the scale shows.')),
  voltage_V: orNull(quantity(-1, 1000, 'Voltage of the pack under load.')),
  current_A: orNull(quantity(-50, 5000, 'Current from the pack, all running fans together.')),
  rpm: orNull(quantity(0, 500_000, 'Speed of the rotor.')),
  torque_Nm: orNull(quantity(-1000, 1000, 'Shaft torque of one fan, where a stand reads it.')),
  atRest: z.boolean().default(false).describe('Whether the fans stood still: such readings set the zero.'),
  samples: count(1, 1e9, 'Readings this one is the mean of.').default(1),
  scatter_g: orNull(quantity(0, 1e6, 'Scatter of the scale within the stretch (one standard deviation).')),
  note: words.default(''),
  leftOut: z.boolean().default(false).describe('Whether the reading is kept but not used.'),
});

/** What the air did, seen or read at one point behind or before the fan. */
export const airReadingSchema = z.looseObject({
  kind: z
    .enum(['exit speed', 'thread angle', 'lip flow'])
    .describe(
      'Speed behind the fan in m/s; angle of a thread there from the axis in degrees, positive as the rotor turns; or powder or smoke on the lip, from 0 (it follows the lip all round) to 1 (it leaves it all round).',
    ),
  value: quantity(-180, 200, 'In m/s, degrees, or 0 to 1, as the kind says.'),
  radius_mm: orNull(quantity(0, 1000, 'Distance of the point from the axis.')),
  throttle: orNull(quantity(0, 1, 'Throttle at which it was read.')),
  rpm: orNull(quantity(0, 500_000, 'Speed of the rotor at which it was read.')),
  error: orNull(quantity(0, 200, 'Largest likely error, in the unit of the value; left out: as is usual.')),
  note: words.default(''),
  leftOut: z.boolean().default(false).describe('Whether the reading is kept but not used.'),
});

/** What was measured or looked at on the thing itself. Null: not looked at. */
export const observedSchema = z
  .looseObject({
    gap_mm: orNull(quantity(0, 20, 'Mean gap between blade tip and duct wall, by a feeler strip all round.')),
    gapLeast_mm: orNull(quantity(0, 20, 'Least gap all round.')),
    chord_mm: orNull(quantity(0.1, 500, 'Width of the printed blade at the place given beside it.')),
    chordAt_ratio: quantity(0, 1, 'Where the width was measured: 0 at the hub, 1 at the tip.').default(0.75),
    bladeAngle_deg: orNull(
      quantity(-90, 90, 'Angle of the printed blade to the plane of rotation at the place given beside it.'),
    ),
    bladeAngleAt_ratio: quantity(0, 1, 'Where the angle was measured: 0 at the hub, 1 at the tip.').default(
      0.75,
    ),
    rotorMass_g: orNull(quantity(0.01, 50_000, 'Mass of the rotor as weighed.')),
    craftMass_g: orNull(quantity(0.1, 500_000, 'Mass of the craft ready to fly, with pack and payload.')),
    turnsRightWay: said(
      'Whether the rotor turns with its rounded edges first; looked at while it runs down.',
    ),
    rightWayUp: said('Whether the rotor sits the right way up: hollow side of the blades toward the exit.'),
    bladesWhole: said('Whether all blades are whole: no lifted layers, no edge cut short.'),
    rubbed: said('Whether a blade has touched the wall.'),
    motorHot: said('Whether the motor was too hot to touch after a run.'),
    camberKept_ratio: orNull(
      quantity(
        -2,
        2,
        'Hollow of the printed blade over the drawn one, by a straightedge: 1 as drawn, 0 flat.',
        '0.9 to 1',
      ),
    ),
    ductClear: said('Whether duct and lip are clear: no leads, strings, support or table in the way.'),
    scaleShows_ratio: orNull(
      quantity(
        0.05,
        20,
        'What the scale shows over a known weight hung where the fan pulls.',
        '0.99 to 1.01',
      ),
    ),
    fartherThrust_ratio: orNull(
      quantity(
        0.1,
        10,
        'Thrust read three diameters or more from pan and table over that of this run, at the same throttle.',
        '1 to 1.2',
      ),
    ),
    dutyReached_ratio: orNull(
      quantity(
        0.01,
        2,
        'Throttle that really reaches the controller over the throttle written down.',
        '0.98 to 1',
      ),
    ),
    windingResistance_mohm: orNull(
      quantity(
        0.1,
        10_000,
        'Resistance between two motor leads at the controller end, joints included, cold.',
      ),
    ),
    velocityConstant_rpmPerV: orNull(
      quantity(10, 100_000, 'Speed per volt of this motor, from a run without the rotor.'),
    ),
    packResistance_mohm: orNull(quantity(0.1, 5000, 'Inner resistance of the whole pack with its leads.')),
    currentLimit_A: orNull(
      quantity(0, 1000, 'Motor current at which controller or supply hold back; 0: they do not.'),
    ),
    note: words.default(''),
  })
  .prefault({});

/** Shaking once a turn, as found in a recording of motion. */
export const shakeReadingSchema = z.looseObject({
  rpm: orNull(quantity(0, 500_000, 'Speed of the rotor.')),
  amplitude: quantity(0, 1e9, 'Level once a turn, in the unit beside it.'),
  unit: z.enum(['m/s2', 'g', 'deg/s', 'rad/s', 'other']).default('other').describe('Unit of the level.'),
  fan: orNull(count(1, 12, 'Which fan ran, counted from 1.')),
  note: words.default(''),
});

/** Where the readings come from, as they were read. */
export const benchSourceSchema = z
  .looseObject({
    name: z.string().max(400).default('').describe('Name of the file, or how the readings were taken.'),
    text: z
      .string()
      .max(KEPT_SOURCE_CHARACTERS)
      .default('')
      .describe('The log as read; of a long one the beginning.'),
    length: count(0, 1e12, 'Characters of the whole log.').default(0),
    columns: z
      .array(z.looseObject({ column: z.string().max(400), as: z.string().max(60), unit: z.string().max(20) }))
      .max(400)
      .default([])
      .describe('How its columns were taken.'),
  })
  .prefault({});

/** One session at the bench: raw readings as measured. What follows from them is worked out anew, never kept. */
export const benchRunSchema = z.looseObject({
  id: z.string().max(60).default(''),
  name: z.string().max(200).default(''),
  date: z.string().max(40).default(''),
  rig: rigSchema,
  air: benchAirSchema,
  battery: benchBatterySchema,
  rows: z.array(benchRowSchema).max(MOST_BENCH_ROWS).default([]).describe('Readings in the order taken.'),
  airReadings: z.array(airReadingSchema).max(500).default([]).describe('Readings of the air, all optional.'),
  observed: observedSchema,
  shake: z.array(shakeReadingSchema).max(500).default([]).describe('Shaking once a turn.'),
  source: benchSourceSchema,
  note: z.string().max(20_000).default(''),
});

export type BenchRun = z.infer<typeof benchRunSchema>;
export type BenchRig = z.infer<typeof rigSchema>;
export type BenchRow = z.infer<typeof benchRowSchema>;
export type AirReading = z.infer<typeof airReadingSchema>;
export type Observed = z.infer<typeof observedSchema>;
