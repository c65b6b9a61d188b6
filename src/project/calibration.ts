import { z } from 'zod';
import { quantity } from './fields.ts';

/** What is wrong with one build alone, and is put right by putting it right: the next build does not inherit it. */
export const buildFaultsSchema = z
  .looseObject({
    gapAdded_mm: quantity(
      -20,
      20,
      'How much wider than drawn the tip gap of this build is, beyond what the printer does.',
    ).default(0),
    blockedLoss: quantity(
      0,
      20,
      'Loss by what stands in the duct of this build, over the dynamic pressure at the rotor.',
    ).default(0),
    turn: z
      .enum(['right', 'backward', 'upside down'])
      .default('right')
      .describe('Whether the rotor of this build turns and sits as it should.'),
  })
  .prefault({});

/** What the bench has taught about printer, motor and battery: corrections to everything worked out from the drawing. */
export const calibrationSchema = z
  .looseObject({
    bladeAngle_deg: quantity(
      -45,
      45,
      'How much steeper than drawn this printer’s blades stand, beyond what the print model says.',
    ).default(0),
    chordKept_ratio: quantity(0.2, 1.3, 'Share of the blade width that comes out.').default(1),
    camberKept_ratio: quantity(-1, 1.5, 'Share of the hollow of the blades that comes out.').default(1),
    sectionDrag_factor: quantity(0.2, 10, 'Drag of the printed section over that of the model.').default(1),
    velocityConstant_factor: quantity(
      0.2,
      5,
      'Speed per volt of the motor at hand over what the project says.',
    ).default(1),
    windingResistance_factor: quantity(
      0.1,
      50,
      'Resistance of winding and joints over what the project says.',
    ).default(1),
    packResistance_factor: quantity(
      0.1,
      50,
      'Inner resistance of the pack at hand over what the project says.',
    ).default(1),
    faults: buildFaultsSchema,
  })
  .prefault({});

export type Calibration = z.infer<typeof calibrationSchema>;

/** Nothing learned yet. */
export const PLAIN_CALIBRATION: Calibration = calibrationSchema.parse({});
